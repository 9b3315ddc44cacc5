"""A trial of the pump for tests of the window: one case passes, one is for simulated devices, one needs a person."""

from __future__ import annotations

from typing import Final

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
