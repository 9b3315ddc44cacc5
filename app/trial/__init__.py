"""Trials: a panel proved step by step, against simulated devices or the machine, with a record of what was seen."""
