"""What a scale comes to, exactly."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st
from pydantic import ValidationError

from app.project.model import RegisterSignal, Scale
from app.project.scale_figures import (
    ScaleFigures,
    as_decimal,
    exact_text,
    points_of,
    too_narrow,
)
from app.project_file.files import load
from projects import demo_path


def scale(raw0: str, raw1: str, value0: str, value1: str) -> Scale:
    return Scale(raw=(Decimal(raw0), Decimal(raw1)), value=(Decimal(value0), Decimal(value1)))


def test_a_scale_of_a_set_point() -> None:
    figures = ScaleFigures("uint16", scale("0", "10000", "0", "50"), 1)
    assert exact_text(figures.line.slope) == "0.005"
    assert figures.offset == 0
    assert figures.value_span == (Fraction(0), Fraction("327.675"))
    assert figures.widest == "327.7"
    assert figures.raw_of(Fraction("41.65")) == 8330
    assert figures.text_of(figures.line.value(8330)) == "41.7", "half away from zero"
    assert figures.holds(Fraction(65_535))
    assert not figures.holds(Fraction(65_536))
    assert not figures.holds(Fraction(1, 2))


def test_a_falling_scale_with_an_offset() -> None:
    figures = ScaleFigures("int16", scale("0", "100", "-40", "-140"), 0)
    assert (figures.line.slope, figures.offset) == (Fraction(-1), Fraction(-40))
    assert figures.value_span == (Fraction(-32_807), Fraction(32_728))
    assert figures.widest == "-32807"


def test_floats_have_no_span_and_take_any_raw_number() -> None:
    figures = ScaleFigures("float32", None, 2)
    assert figures.raw_span is None
    assert figures.value_span is None
    assert figures.widest is None
    assert figures.raw_of(Fraction("1.5")) == Fraction("1.5")
    assert figures.holds(Fraction("1.5"))
    assert ScaleFigures("string", None, 0).raw_span is None


@given(st.fractions(max_denominator=400))
def test_a_number_in_words_loses_nothing(number: Fraction) -> None:
    text = exact_text(number)
    assert Fraction(text) == number
    decimal = as_decimal(number)
    assert (decimal is None) == ("/" in text)


def test_points_from_a_factor_and_an_offset() -> None:
    found = points_of(Decimal("0.1"), Decimal(-40), (Decimal(0), Decimal(1000)))
    assert found == scale("0", "1000", "-40", "60")
    with pytest.raises(ValidationError, match="two values are equal"):
        points_of(Decimal(0), Decimal(1), (Decimal(0), Decimal(10)))


def test_fields_that_are_too_narrow() -> None:
    project = load(demo_path("booster-pump"))
    part = project.signal_named["speed set point"]
    assert isinstance(part, RegisterSignal)
    widest = ScaleFigures(part.encoding, part.scale, part.decimals).widest
    assert widest is not None
    fields = [field.width for screen in project.screens for field in screen.fields if field.signal == part.name]
    assert too_narrow(project, part.name, min(fields)) == ()
    found = too_narrow(project, part.name, max(fields) + 1)
    assert [width for _, width in found] == fields
    assert all("screen" in where and "field" in where for where, _ in found)
