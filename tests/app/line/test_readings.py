"""The newest readings: a shortcut for registers that hold what they held changes nothing but the cost."""

from __future__ import annotations

from hypothesis import given, strategies as st

from app.line.readings import Readings
from app.project.binding import bindings
from app.project.model import Project
from app.signals.encoding import ENCODINGS, is_text
from app.signals.reading import NEVER_READ, Quality

NAMES = [encoding for encoding in ENCODINGS if not is_text(encoding)]
PROJECT = Project.model_validate(
    {
        "panel": {"start": "a"},
        "line": [{"name": "bus", "kind": "tcp", "host": "unused"}],
        "follower": [{"name": "pump", "line": "bus"}],
        "signal": [
            {"name": name, "follower": "pump", "register": 10 * at, "encoding": name, "limits": [0, 1000]}
            for at, name in enumerate(NAMES)
        ],
    }
)
WORDS = st.sampled_from([(0, 0, 0, 0), (0x4226, 0x9999, 0, 0), (0x7FC0, 0, 0, 0), (5, 5, 5, 5), (0xFFFF, 1, 2, 3)])
STEPS = st.lists(st.one_of(WORDS, st.sampled_from(["refused", "lost"])), max_size=12)


@given(st.sampled_from(NAMES), STEPS)
def test_a_reading_is_always_what_its_registers_say(name: str, steps: list[tuple[int, ...] | str]) -> None:
    readings, binding, expected = Readings(PROJECT, {}, {}), bindings(PROJECT)[name], NEVER_READ
    for at, step in enumerate(steps):
        if step == "refused":
            readings.mark_refused((name,), "refused")
            assert readings.now()[name].quality is Quality.REFUSED
        elif step == "lost":
            readings.mark_lost((name,), "lost")
            assert not readings.now()[name].good
        else:
            words = tuple(step[: binding.count])
            expected = binding.reading(words, float(at), expected)  # type: ignore[arg-type]
            readings.take(binding, words, float(at))  # type: ignore[arg-type]
            assert readings.now()[name] == expected
