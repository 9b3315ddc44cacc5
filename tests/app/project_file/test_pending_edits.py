"""What is not accepted yet, as one line: any texts, and what makes no sense."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, strategies as st

from app.project_file.files import load
from app.project_file.pending_edits import KeptDraft, drafts_in, is_line_of_drafts, line_of
from projects import demo_path

TEXTS = st.text(st.characters(codec=None, exclude_categories=()))
DRAFTS = st.builds(
    KeptDraft,
    st.tuples(st.sampled_from(["signal", "field", "screen_change", "messages"]), TEXTS | st.integers(0, 10**12)),
    TEXTS,
    st.integers(0, 10**6),
    st.lists(TEXTS, min_size=1, max_size=3).map(tuple),
    TEXTS,
)
ONE = KeptDraft(("field", "run", 0), "Width", 3, ("wide",), "not a number")
PLAIN: dict[str, object] = {"subject": ["panel"], "row": "Rows", "place": 0, "texts": ["x"], "reason": "not a number"}


@given(st.lists(DRAFTS).map(tuple))
def test_any_texts_are_read_back_from_one_remark(drafts: tuple[KeptDraft, ...]) -> None:
    line = line_of(drafts)
    assert drafts_in(line.encode()) == (drafts, True)
    if drafts:
        assert line.startswith("#")
        assert line.isascii()
        assert line[:-1].isprintable()
        assert line[-1] == "\n"
    else:
        assert line == ""


@given(st.binary().filter(lambda line: not is_line_of_drafts(line)))
def test_any_other_line_holds_none(line: bytes) -> None:
    assert drafts_in(line) == ((), True)


@given(st.binary())
def test_any_bytes_behind_the_mark_do_no_harm(rest: bytes) -> None:
    mark = line_of((ONE,)).partition("[")[0].encode()
    drafts, _ = drafts_in(mark + rest)
    assert drafts == ()


@pytest.mark.parametrize(
    "change",
    [
        {"subject": "panel"},
        {"subject": []},
        {"subject": [["panel"]]},
        {"subject": ["screen_change", -1]},
        {"subject": ["screen_change", True]},
        {"subject": ["screen_change", 1.0]},
        {"row": None},
        {"place": "1"},
        {"place": -1},
        {"place": False},
        {"texts": []},
        {"texts": "x"},
        {"texts": [1]},
        {"reason": 1},
    ],
)
def test_an_entry_that_makes_no_sense_hides_no_other(change: dict[str, object]) -> None:
    mark, _, entry = line_of((ONE,)).strip().rstrip("]").partition("[")
    line = f"{mark}[{json.dumps(PLAIN | change)}, {entry}]"
    assert drafts_in(line.encode()) == ((ONE,), False)


def test_an_entry_may_hold_more_than_is_known_of() -> None:
    mark = line_of((ONE,)).partition("[")[0]
    drafts, whole = drafts_in(f"{mark}[{json.dumps(PLAIN | {'colour': 1})}]".encode())
    assert drafts == (KeptDraft(("panel",), "Rows", 0, ("x",), "not a number"),)
    assert whole


@pytest.mark.parametrize(
    ("subject", "there"),
    [
        (("panel",), True),
        (("panel", "x"), False),
        (("messages",), True),
        (("messages", "Deutsch"), False),
        (("signal", "ramp up"), True),
        (("signal", "Ramp up"), False),
        (("signal", 0), False),
        (("screen", "run"), True),
        (("screen", "no such"), False),
        (("line", "pump room"), True),
        (("line", "no such"), False),
        (("follower", "pump"), True),
        (("follower", "no such"), False),
        (("screen_change", 0), True),
        (("screen_change", 10_000), False),
        (("screen_change", "0"), False),
        (("action", 0), True),
        (("action", 10_000), False),
        (("field", "run", 0), True),
        (("field", "run", 10_000), False),
        (("field", "no such", 0), False),
        (("key", "up"), False),
        ((1,), False),
    ],
)
def test_a_part_is_in_the_project_or_not(subject: tuple[str | int, ...], there: bool) -> None:
    project = load(demo_path("booster-pump"))
    assert KeptDraft(subject, "Name", 0, ("x",), "").belongs_to(project) == there
