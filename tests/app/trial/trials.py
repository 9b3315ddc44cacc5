"""Trials for tests, in the words of their file."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from typing import Final

from app.trial.script import Trial
from app.trial.script_file import trial_of

PUMP: Final = """
format = 1
title = "The pump's panel"
project = "booster-pump.toml"

[[case]]
name = "it runs and stops"
[[case.step]]
key = "start"
[[case.step]]
expect = { signal = "running", text = "running" }
hold_s = 0.5
[[case.clean_up]]
key = "stop"

[[case]]
name = "a trip is shown"
on = "simulated"
[[case.step]]
order = "pump.external-fault=on"
[[case.step]]
expect = { screen = "fault", row = 2, text = "external fault" }

[[case]]
name = "what only a person sees"
[[case.step]]
ask = "Does the shaft stand still?"
[[case.step]]
measure = "mains voltage"
unit = "V"
at_least = 360
at_most = 440
"""


def trial_in(text: str) -> Trial:
    """The trial in the text of its file."""
    return trial_of(tomllib.loads(text, parse_float=Decimal))
