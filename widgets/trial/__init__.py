"""The Trial workspace: a trial is run, its questions are answered, and what came of it is looked at. Qt."""
