"""What a run of cells shows: exactly its width, never a cut number."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.signals.text import (
    bar_fill,
    bar_text,
    choice_text,
    hexadecimal_text,
    hexadecimal_width,
    number_digits,
    number_text,
    number_width,
)


@pytest.mark.parametrize(
    ("value", "width", "decimals", "shown"),
    [
        ("41.65", 5, 1, " 41.7"),
        ("-41.65", 5, 1, "-41.7"),
        ("0", 4, 0, "   0"),
        ("0", 4, 1, " 0.0"),
        ("0.05", 4, 1, " 0.1"),
        ("-0.04", 4, 1, " 0.0"),
        ("-0.05", 4, 1, "-0.1"),
        ("0.007", 5, 2, " 0.01"),
        ("99.95", 5, 1, "100.0"),
        ("99.95", 4, 1, "####"),
        ("-10", 2, 0, "##"),
        ("1000", 3, 0, "###"),
        ("12", 1, 0, "#"),
        ("7", 1, 0, "7"),
        ("65535", 5, 0, "65535"),
        ("1/3", 11, 9, "0.333333333"),
    ],
)
def test_numbers_stand_at_the_right_and_are_never_cut(value: str, width: int, decimals: int, shown: str) -> None:
    assert number_text(Fraction(value), width, decimals) == shown


@pytest.mark.parametrize(
    ("value", "width", "registers", "shown"),
    [
        (36864, 5, 1, "9000h"),
        (0x0637, 6, 1, " 0637h"),
        (0, 5, 1, "0000h"),
        (36864, 4, 1, "####"),
        (36864, 9, 2, "00009000h"),
        (0xFFFFFFFF, 9, 2, "FFFFFFFFh"),
        (-1, 5, 1, "FFFFh"),
        (-32768, 5, 1, "8000h"),
        (65536, 5, 1, "#####"),
        (-32769, 5, 1, "#####"),
        (Fraction(1, 2), 5, 1, "#####"),
    ],
)
def test_hexadecimal_as_manuals_print_it(value: int | Fraction, width: int, registers: int, shown: str) -> None:
    assert hexadecimal_text(value, width, registers) == shown
    assert hexadecimal_width(registers) == len(f"{0:0{4 * registers}X}h")


def test_a_number_has_the_width_of_its_digits_sign_and_point() -> None:
    assert number_width(Fraction("-41.65"), 1) == 5
    assert number_width(Fraction("-0.04"), 1) == 3
    assert number_width(Fraction("99.95"), 1) == 5
    assert number_width(0, 0) == 1
    assert number_digits(-5, 2) == "-5.00"


def test_texts_stand_at_the_left_and_are_never_cut() -> None:
    assert choice_text("run", 5) == "run  "
    assert choice_text("stopped", 7) == "stopped"
    assert choice_text("stopped", 4) == "####"
    assert choice_text("", 3) == "   "


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0, "          "),
        (4, "          "),
        (5, "=         "),
        (50, "=====     "),
        (94, "========= "),
        (95, "=========="),
        (100, "=========="),
        (101, "=========>"),
        (-1, "<         "),
    ],
)
def test_a_bar_fills_from_the_left_and_says_when_it_ends(value: int, shown: str) -> None:
    assert bar_text(value, 0, 100, 10) == shown


def test_a_bar_may_fill_as_the_value_falls() -> None:
    assert bar_fill(25, 100, 0, 4) == 3
    assert bar_text(120, 100, 0, 4) == "<   "
    assert bar_text(-20, 100, 0, 4, "█") == "███>"


def test_a_bar_fills_no_more_than_its_cells() -> None:
    assert bar_fill(500, 0, 100, 8) == 8
    assert bar_fill(-500, 0, 100, 8) == 0


def test_a_bar_needs_two_ends() -> None:
    with pytest.raises(ValueError, match="two ends of a bar"):
        bar_fill(1, 5, 5, 10)
    assert bar_text(1, 5, 5, 4) == "####"
