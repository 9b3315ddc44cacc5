"""What a row must show when some of its values are known: the row as it is, or a pattern around what is not known."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.project_file.files import load
from app.proposing.face import row_expected, rows_expected, shape
from projects import demo_path
from tests.trial_panel import small


def test_a_row_of_which_all_is_known_is_expected_as_it_is() -> None:
    seen = row_expected(small(), "run", 1, {"level": Fraction("42.5")})
    assert seen is not None
    assert (seen.screen, seen.row, seen.text) == ("run", 2, "Level  42.5 %")


def test_what_is_not_known_may_be_anything() -> None:
    seen = row_expected(small(), "run", 1, {})
    assert seen is not None
    assert seen.like == "Level * %"


def test_blanks_beside_an_unknown_value_at_the_end_are_not_expected() -> None:
    project = load(demo_path("booster-pump"))
    seen = row_expected(project, "run", 3, {"running": Fraction(0)})
    assert seen is not None
    assert seen.like == "stopped*"


def test_a_bar_of_a_value_that_moves_is_expected_where_it_stays_the_same() -> None:
    project = load(demo_path("booster-pump"))
    steady = row_expected(project, "motor", 1, {}, roughly={"thermal load": Fraction(40)})
    assert steady is not None
    assert steady.text == "\N{FULL BLOCK}" * 8
    assert row_expected(project, "motor", 1, {}, roughly={"thermal load": Fraction(42)}) is None  # 8 cells, or 9


def test_a_row_of_nothing_but_unknown_values_is_not_expected_at_all() -> None:
    assert row_expected(small(), "run", 2, {}) is None


def test_rows_are_in_the_language_of_the_panel() -> None:
    project = load(demo_path("drying-hall"))
    seen = row_expected(project, "hall", 0, {"fan running": Fraction(1)}, 1)
    assert seen is not None
    assert seen.text == "KRÄUTERTROCKNUNG          Lüfter läuft"


def test_only_rows_about_a_signal_are_given_if_it_is_named() -> None:
    rows = rows_expected(small(), "set", {"mode": Fraction(1)}, about=frozenset({"mode"}))
    assert [(seen.row, seen.text) for seen in rows] == [(2, "Mode  fill")]


@pytest.mark.parametrize(
    ("text", "pattern"), [("12.3", "*?.?"), ("  0.51", "*?.??"), ("-4.0", "*?.?"), ("17", "*"), ("564.0", "*?.?")]
)
def test_the_shape_of_a_number_is_its_decimals(text: str, pattern: str) -> None:
    assert shape(text) == pattern
