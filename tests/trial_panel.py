"""A small panel for tests of trials, and a trial of a few steps run on it."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from fractions import Fraction

from app.project.model import Project
from app.project_file.files import parse
from app.trial.outcome import CaseOutcome, PersonAsked, Reply, TrialOutcome
from app.trial.runner import Nobody, Person, Runner, Watcher
from app.trial.script import Trial
from app.trial.script_file import trial_of
from app.trial.stand import RehearsedStand

SMALL = """\
format = 2

[panel]
rows = 3
columns = 20
keys = ["left", "right", "up", "down", "enter", "escape", "go", "halt", "jog", "f1", "f2"]
start = "run"

[[line]]
name = "l"
kind = "tcp"
host = "localhost"

[[follower]]
name = "tank"
line = "l"

[[signal]]
name = "level"
follower = "tank"
register = 5
encoding = "int16"
scale = { raw = [0, 1000], value = [0, 100] }
unit = "%"
decimals = 1
limits = [0, 100]
step = 0.5
write = true
start_value = 42.5

[[signal]]
name = "mode"
follower = "tank"
register = 7
texts = { 0 = "off", 1 = "fill", 3 = "drain" }
write = true

[[signal]]
name = "word"
follower = "tank"
register = 8
write = true

[[signal]]
name = "pump"
bit = { of = "word", number = 2 }
texts = { 0 = "rests", 1 = "pumps" }
write = true

[[signal]]
name = "jogging"
follower = "tank"
table = "coil"
register = 1
write = true

[[signal]]
name = "high"
bit = { of = "word", number = 3 }

[[signal]]
name = "gain"
held = 1.5
decimals = 1
limits = [1, 3]
step = 0.5

[[screen]]
name = "run"
text = ["TANK", "Level       %", ""]
[[screen.field]]
at = [1, 6]
width = 5
signal = "level"
[[screen.field]]
at = [2, 0]
width = 6
signal = "pump"
kind = "choice"

[[screen]]
name = "set"
text = ["Level       %", "Mode", "Gain"]
[[screen.field]]
at = [0, 6]
width = 5
signal = "level"
entry = true
[[screen.field]]
at = [1, 6]
width = 6
signal = "mode"
kind = "choice"
entry = true
[[screen.field]]
at = [2, 6]
width = 4
signal = "gain"
entry = true

[[screen]]
name = "too high"
text = ["TOO HIGH", "", ""]

[[screen_change]]
key = "right"
to = "next"

[[screen_change]]
when = { signal = "high", is = "set" }
to = "too high"

[[screen_change]]
idle_s = 30
to = "run"

[[action]]
key = "go"
do = "set"
signal = "pump"

[[action]]
key = "halt"
do = "clear"
signal = "pump"

[[action]]
key = "jog"
do = "momentary"
signal = "jogging"

[[action]]
key = "f1"
do = "write"
signal = "level"
value = { from = "gain" }
"""


def small(by: str = "step") -> Project:
    """The panel; values are entered by step or by digit."""
    return parse(SMALL.replace("[[line]]", f'[panel.entry]\nby = "{by}"\n\n[[line]]', 1))


def trial(text: str) -> Trial:
    """A trial from the text of its cases."""
    return trial_of(tomllib.loads(f"format = 1\n{text}", parse_float=Decimal))


def case(steps: str, clean_up: str = "", head: str = "") -> Trial:
    """A trial of one case; `steps` are inline tables, one a line."""
    listed = ",\n".join(line.strip() for line in steps.strip().splitlines())
    cleaned = ",\n".join(line.strip() for line in clean_up.strip().splitlines())
    return trial(f'[[case]]\nname = "it"\n{head}\nstep = [\n{listed}\n]\nclean_up = [\n{cleaned}\n]\n')


def run(
    of: Trial, project: Project | None = None, person: Person | None = None, watcher: Watcher | None = None
) -> TrialOutcome:
    """Run a trial on a rehearsed stand."""
    return Runner(of, RehearsedStand(project or small()), person, watcher).run()


def outcome(steps: str, clean_up: str = "", **more: object) -> CaseOutcome:
    """What becomes of one case of these steps."""
    return run(case(steps, clean_up), **more).cases[0]  # type: ignore[arg-type]


class Answering(Nobody):
    """A person who has his answers ready, and remembers what he was asked."""

    def __init__(self, *answers: Reply) -> None:
        self.asked: list[PersonAsked] = []
        self._answers = list(answers)

    def ask(self, question: PersonAsked) -> None:
        self.asked.append(question)

    def answer(self) -> Reply | None:
        return self._answers.pop(0) if self._answers else super().answer()


def measured(value: str, **more: object) -> Reply:
    """Somebody has measured this."""
    return Reply(True, value=Fraction(value), **more)  # type: ignore[arg-type]
