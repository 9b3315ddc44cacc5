"""The checks on projects that nobody would draw up: they never fail, and what they let pass is true."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from hypothesis import example, given, settings, strategies as st

from app.checks import check
from app.project.binding import bind, refusal, shown_text
from app.project.model import Project
from app.signals.encoding import ENCODINGS, Implausible, register_count

NUMBERS = st.decimals(min_value=-100_000, max_value=100_000, places=2)
NAMES = st.sampled_from(["a", "b", "c", "run", "next", "nowhere"])
COUNTS = st.sampled_from([0, 1, 2, 15, 16, 63])
CONDITIONS = st.fixed_dictionaries({"signal": NAMES}) | st.fixed_dictionaries(
    {"signal": NAMES, "is": st.sampled_from(["above", "below", "equal"]), "value": NUMBERS}
)


def pairs(strategy: st.SearchStrategy[Decimal]) -> st.SearchStrategy[list[Decimal]]:
    return st.lists(strategy, min_size=2, max_size=2, unique=True).map(sorted)


SHOWN: dict[str, st.SearchStrategy[Any]] = {
    "unit": st.sampled_from(["", "Hz", "m³/h", "→"]),
    "decimals": st.integers(0, 9),
    "limits": pairs(NUMBERS),
    "step": st.decimals(min_value=Decimal("0.01"), max_value=1000, places=2),
    "texts": st.dictionaries(
        st.integers(-3, 70_000).map(str) | st.just("otherwise"), st.text("abü", max_size=9), max_size=4
    ),
}
SIGNALS = (
    st.fixed_dictionaries(
        {"name": NAMES, "follower": st.sampled_from(["a", "b", "c"]), "register": st.integers(0, 465_536)},
        optional=SHOWN
        | {
            "table": st.sampled_from(["coil", "discrete", "holding", "input"]),
            "encoding": st.sampled_from(ENCODINGS),
            "length": st.integers(1, 125),
            "word_order": st.sampled_from(["high-first", "low-first"]),
            "scale": st.fixed_dictionaries({"raw": pairs(NUMBERS), "value": pairs(NUMBERS)}),
            "write": st.booleans(),
            "refresh_ms": st.integers(0, 1000),
            "hex": st.booleans(),
            "start_value": NUMBERS | st.text("aé→", max_size=5),
        },
    )
    | st.fixed_dictionaries(
        {"name": NAMES, "bit": st.fixed_dictionaries({"of": NAMES, "number": COUNTS})},
        optional=SHOWN | {"write": st.booleans()},
    )
    | st.fixed_dictionaries({"name": NAMES, "held": NUMBERS}, optional=SHOWN)
)
FIELDS = st.fixed_dictionaries(
    {
        "at": st.tuples(st.integers(-1, 5), st.integers(-1, 22)),
        "width": st.integers(1, 24),
        "signal": NAMES,
        "kind": st.sampled_from(["number", "hexadecimal", "choice", "bar"]),
        "entry": st.booleans(),
    },
    optional={"range": pairs(NUMBERS), "blink": CONDITIONS},
)
SCREENS = st.fixed_dictionaries(
    {"name": NAMES, "text": st.lists(st.text("ab ä→", max_size=24), max_size=6), "field": st.lists(FIELDS, max_size=4)}
)
KEYS = st.sampled_from(["left", "enter", "escape", "stop", "no key"])
SCREEN_CHANGES = (
    st.fixed_dictionaries({"key": KEYS, "to": NAMES}, optional={"from": NAMES})
    | st.fixed_dictionaries({"when": CONDITIONS, "to": st.sampled_from(["a", "b", "nowhere"])})
    | st.fixed_dictionaries({"idle_s": st.integers(1, 99), "to": st.sampled_from(["a", "b"])}, optional={"from": NAMES})
)
DEEDS = st.sampled_from(["set", "clear", "toggle"])
VALUES = NUMBERS | st.fixed_dictionaries({"from": NAMES})
ACTIONS = (
    st.fixed_dictionaries({"key": KEYS, "do": DEEDS, "signal": NAMES}, optional={"from": NAMES})
    | st.fixed_dictionaries({"when": CONDITIONS, "do": DEEDS, "signal": NAMES})
    | st.fixed_dictionaries({"key": KEYS, "do": st.just("write"), "signal": NAMES, "value": VALUES})
    | st.fixed_dictionaries({"key": KEYS, "do": st.just("momentary"), "signal": NAMES})
    | st.fixed_dictionaries({"key": KEYS, "do": st.just("begin-entry")}, optional={"signal": NAMES})
)
MESSAGES_SAID = st.dictionaries(
    st.sampled_from(["at_most", "kept", "still_on", "no_answer"]),
    st.lists(st.sampled_from(["nur", "ä→", "{limit}", "{value}", "{screen}", "Eingabe"]), min_size=1, max_size=6).map(
        " ".join
    ),
    max_size=3,
)
PROJECTS = st.fixed_dictionaries(
    {
        "panel": st.fixed_dictionaries(
            {
                "start": NAMES,
                "rows": st.integers(1, 5),
                "columns": st.integers(1, 22),
                "keys": st.lists(KEYS, max_size=5),
                "repertoire": st.sampled_from(["ascii", "latin-1", "lcd-kana", "lcd-european"]),
            },
            optional={
                "languages": st.lists(st.sampled_from(["English", "Deutsch", "svenska"]), unique=True, max_size=3),
                "messages": MESSAGES_SAID,
                "messages_in": st.dictionaries(st.sampled_from(["English", "Deutsch", "nowhere"]), MESSAGES_SAID),
            },
        ),
        "follower": st.lists(
            st.fixed_dictionaries(
                {"name": st.sampled_from(["a", "b"]), "line": NAMES},
                optional={
                    "numbering": st.sampled_from(["from-0", "from-1", "prefixed"]),
                    "max_registers": st.integers(1, 125),
                    "communication_timeout_ms": st.integers(0, 1000),
                },
            ),
            max_size=2,
        ),
        "line": st.lists(
            st.fixed_dictionaries({"name": NAMES, "kind": st.just("tcp"), "host": st.sampled_from(["h", "H"])}),
            max_size=2,
        ),
        "signal": st.lists(SIGNALS, max_size=6),
        "screen": st.lists(SCREENS, max_size=4),
        "screen_change": st.lists(SCREEN_CHANGES, max_size=5),
        "action": st.lists(ACTIONS, max_size=5),
    }
)


@settings(max_examples=150, deadline=None)
@given(PROJECTS)
def test_any_project_can_be_checked(tables: dict[str, Any]) -> None:
    project = Project.model_validate(tables)
    for finding in check(project):
        assert finding.where
        assert finding.message
        assert finding.hint


@settings(max_examples=300, deadline=None)
@given(
    encoding=st.sampled_from([name for name in ENCODINGS if name not in ("string", "float32", "float64")]),
    scale=st.none() | st.fixed_dictionaries({"raw": pairs(NUMBERS), "value": pairs(NUMBERS)}),
    decimals=st.integers(0, 4),
    width=st.integers(1, 24),
    word=st.integers(0, 2**64 - 1),
    extreme=st.sampled_from([None, 0x0000, 0xFFFF, 0x8000, 0x7FFF, 0x9999]),
)
def test_a_field_without_a_finding_has_room_for_whatever_stands_in_the_registers(
    encoding: Any, scale: Any, decimals: int, width: int, word: int, extreme: int | None
) -> None:
    signal = {"name": "a", "follower": "a", "register": 0, "encoding": encoding, "decimals": decimals}
    if scale is not None:
        signal["scale"] = scale
    project = Project.model_validate(
        {
            "panel": {"start": "a"},
            "follower": [{"name": "a", "line": "a"}],
            "signal": [signal],
            "screen": [{"name": "a", "field": [{"at": (0, 0), "width": width, "signal": "a"}]}],
        }
    )
    if any(finding.rule == "field-too-narrow" for finding in check(project)):
        return
    count = register_count(encoding)
    words = [word >> 16 * place & 0xFFFF for place in range(count)]
    if extreme is not None:
        words = [extreme] + [0xFFFF if extreme == 0x7FFF else extreme if extreme in (0, 0xFFFF, 0x9999) else 0] * (
            count - 1
        )
    try:
        _, value = bind(project, "a").decode(words)
    except Implausible:
        return
    assert "#" not in shown_text(project, "a", value, width, "number")


@settings(max_examples=300, deadline=None)
@given(
    encoding=st.sampled_from([name for name in ENCODINGS if name != "string"]),
    scale=st.none() | st.fixed_dictionaries({"raw": pairs(NUMBERS), "value": pairs(NUMBERS)}),
    limits=pairs(NUMBERS),
)
@example(encoding="uint16", scale=None, limits=[Decimal("-0.5"), Decimal(0)])  # half a count rounds away from zero
def test_limits_without_a_finding_may_be_written(encoding: Any, scale: Any, limits: list[Decimal]) -> None:
    signal = {"name": "a", "follower": "a", "register": 0, "encoding": encoding, "limits": limits, "write": True}
    if scale is not None:
        signal["scale"] = scale
    project = Project.model_validate(
        {"panel": {"start": "a"}, "follower": [{"name": "a", "line": "a"}], "signal": [signal]}
    )
    found = any(finding.rule == "limits-too-wide" for finding in check(project))
    refused = [limit for limit in limits if refusal(project, "a", Fraction(limit)) is not None]
    assert bool(refused) == found
