"""Faults as people make them, put into the booster pump's project one at a time: fifty projects with one fault each.

A wrong number in a manual, a line copied and not changed, two fields swapped. Each fault is an edit of the file's text.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.project.model import Project
from app.project_file.files import load, parse
from projects import demo_path


@dataclass(frozen=True, slots=True)
class Mutant:
    """One fault: in the part of the file that begins with `part` the text `sound` stands as `wrong`."""

    part: str
    sound: str
    wrong: str

    @property
    def name(self) -> str:
        """What is wrong, in a line."""
        return f"{self.part}: {self.sound} -> {self.wrong}".replace("\n", " ")


def _signal(name: str, sound: str, wrong: str) -> Mutant:
    return Mutant(f'[[signal]]\nname = "{name}"', sound, wrong)


def _screen(name: str, sound: str, wrong: str) -> Mutant:
    return Mutant(f'[[screen]]\nname = "{name}"', sound, wrong)


def _change(source: str, key: str, sound: str, wrong: str) -> Mutant:
    return Mutant(f'[[screen_change]]\nfrom = "{source}"\nkey = "{key}"', sound, wrong)


def _action(cause: str, sound: str, wrong: str) -> Mutant:
    return Mutant(f"[[action]]\n{cause}", sound, wrong)


MUTANTS: tuple[Mutant, ...] = (
    # bits
    _signal("run command", "number = 4", "number = 5"),
    _signal("fault reset", "number = 7", "number = 6"),
    _signal("running", "number = 4", "number = 8"),
    _signal("fault", "number = 7", "number = 8"),
    _signal("remote", "number = 9", "number = 10"),
    # registers
    _signal("speed set point", "register = 310", "register = 311"),
    _signal("ramp up", "register = 311", "register = 312"),
    _signal("frequency", "register = 401", "register = 402"),
    _signal("DC link", "register = 403", "register = 404"),
    _signal("fault code", "register = 404", "register = 405"),
    _signal("thermal load", "register = 412", "register = 411"),
    _signal("status", "register = 400", "register = 401"),
    Mutant('[[follower]]\nname = "pump"', 'numbering = "from-0"', 'numbering = "from-1"'),
    Mutant('[[follower]]\nname = "pump"', "unit = 3", "unit = 4"),
    # order of words, data types
    Mutant('[[follower]]\nname = "pump"', 'word_order = "high-first"', 'word_order = "low-first"'),
    _signal("power", "float32", "uint32"),
    _signal("run time", "uint32", "uint16"),
    # scales and decimals
    _signal("speed set point", "value = [0, 50]", "value = [0, 60]"),
    _signal("frequency", "value = [0, 50]", "value = [0, 500]"),
    _signal("current", "raw = [0, 100]", "raw = [0, 10]"),
    _signal("ramp down", "raw = [0, 10]", "raw = [0, 1]"),
    _signal("line lost after", "raw = [0, 1000]", "raw = [0, 100]"),
    _signal("run time", "raw = [0, 3600]", "raw = [0, 60]"),
    _signal("thermal load", "raw = [0, 10]", "raw = [0, 1]"),
    _signal("DC link", "decimals = 1", "decimals = 0"),
    _signal("current", "decimals = 2", "decimals = 1"),
    # limits and steps
    _signal("speed set point", "limits = [20, 50]", "limits = [19.9, 50]"),
    _signal("ramp up", "limits = [1, 120]", "limits = [1, 120.5]"),
    _signal("ramp down", "limits = [2, 120]", "limits = [2.5, 120]"),
    _signal("filling ramp", "limits = [10, 120]", "limits = [10, 119]"),
    _signal("line lost after", "limits = [0.5, 30]", "limits = [0.6, 30]"),
    _signal("filling ramp", "step = 1", "step = 7"),
    _signal("filling ramp", "held = 30", "held = 3"),
    # texts
    _signal("fault code", '12832 = "DC link undervolt."\n', ""),
    _signal("fault code", '9040 = "motor overload"', '9040 = "motor blocked"'),
    _signal("remote", '{ 0 = "local", 1 = "remote" }', '{ 0 = "remote", 1 = "local" }'),
    _signal("warning", '1 = "overload is near"', '1 = "overload is far"'),
    _screen("fault", "Clear cause, RESET", "Clear cause"),
    # fields
    _screen("measured", 'signal = "current"', 'signal = "power"'),
    _screen("times", 'at = [0, 11]\nwidth = 6\nsignal = "ramp up"', 'at = [0, 11]\nwidth = 6\nsignal = "ramp down"'),
    _screen("times", 'signal = "ramp down"\nkind = "number"\nentry = true', 'signal = "ramp down"\nkind = "number"'),
    _screen("motor", "range = [0, 100]", "range = [0, 200]"),
    # screen changes
    _change("run", "right", 'to = "measured"', 'to = "motor"'),
    _change("filling", "left", 'to = "times"', 'to = "run"'),
    Mutant("[[screen_change]]\nwhen", 'is = "set"', 'is = "clear"'),
    Mutant("[[screen_change]]\nidle_s", 'to = "run"', 'to = "measured"'),
    Mutant("[[screen_change]]\nidle_s", "= 120", "= 12"),
    # actions
    _action('key = "stop"', 'do = "clear"', 'do = "toggle"'),
    _action('key = "reset"', 'do = "momentary"', 'do = "set"'),
    _action('key = "f1"', 'signal = "ramp up"', 'signal = "ramp down"'),
)


def sound() -> Project:
    """The project without a fault."""
    return load(demo_path("booster-pump"))


def mutated(mutant: Mutant) -> Project:
    """The project with one fault. Raises ValueError if the fault is not in its text exactly once."""
    text = demo_path("booster-pump").read_text(encoding="utf-8")
    if text.count(mutant.part) != 1:
        raise ValueError(mutant.name)
    before, _, rest = text.partition(mutant.part)
    own, tables, others = rest.partition("\n\n[[") if not mutant.part.startswith("[[screen]]") else _of_screen(rest)
    if own.count(mutant.sound) != 1:
        raise ValueError(mutant.name)
    return parse(before + mutant.part + own.replace(mutant.sound, mutant.wrong) + tables + others)


def _of_screen(rest: str) -> tuple[str, str, str]:
    """The fields of a screen are its own, too."""
    end = rest.find("\n\n[[screen]]")
    end = rest.find("\n\n[[screen_change]]") if end < 0 else end
    return rest[:end], "", rest[end:]
