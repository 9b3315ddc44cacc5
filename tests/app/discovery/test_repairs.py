"""What puts a signal right that looks wrong: the likely way first, and edits that change only what they say."""

from __future__ import annotations

import datetime
from decimal import Decimal
from fractions import Fraction

import pytest

from app.discovery.repairs import (
    Moment,
    ShownValue,
    can_be_explained,
    explanations,
    moment_in,
    registers_to_read,
    repairs,
)
from app.edits.lines import change_follower
from app.errors import FanlightError
from app.project.binding import bind
from app.project.model import Bit, BitSignal, NeverRead, Project, RegisterSignal, Scale
from app.signals.encoding import encode
from app.snapshots.snapshot import RegisterPlace, RegisterSnapshot
from tests.builders import pump_project, word

TENTH = Scale(raw=(Decimal(0), Decimal(10)), value=(Decimal(0), Decimal(1)))


def moment(first: int, *words: int, shown: str = "") -> Moment:
    registers = {("holding", first + at): held for at, held in enumerate(words)}
    return Moment(registers, ShownValue.of(shown) if shown else None)  # type: ignore[arg-type]


def pressed(project: Project, name: str, history: list[Moment], key: str, place: int = 0) -> Project:
    """The project after the repair of this key for the way at this place of the list."""
    chosen = explanations(project, name, history)[place]
    (repair,) = (each for each in repairs(project, name, chosen) if each.key == key)
    return repair.edit(project)


def test_what_is_typed_is_known_to_half_of_its_last_digit() -> None:
    assert ShownValue.of("41.65") == (Fraction("41.65"), Fraction(1, 200))
    assert ShownValue.of("-3") == (Fraction(-3), Fraction(1, 2))
    with pytest.raises(ValueError, match="number"):
        ShownValue.of("fast")


def test_one_too_high_is_put_right_by_the_numbering_of_the_device() -> None:
    project = pump_project(word("speed", 311, scale=TENTH), word("other", 320), numbering="from-0")
    history = [moment(309, 7, 417, 9, 0, 0), moment(309, 7, 250, 9, 0, 0)]
    history = [history[0]._replace(shown=ShownValue.of("41.7")), history[1]._replace(shown=ShownValue.of("25.0"))]
    best = explanations(project, "speed", history)[0]
    assert (best.address, best.way.encoding, best.standing, best.fitted) == (310, "uint16", "fits", None)
    device, signal = repairs(project, "speed", best)
    assert (device.key, signal.key) == ("numbering", "register")
    assert "(2)" in device.consequence
    after = device.edit(project)
    assert after.followers[0].numbering == "from-1"
    assert [bind(after, name).address for name in ("speed", "other")] == [310, 319]
    assert repairs(after, "speed", best) == (), "nothing is left to do"
    after = signal.edit(project)
    assert after.followers == project.followers
    assert [bind(after, name).address for name in ("speed", "other")] == [310, 320]


def test_the_numbering_is_not_offered_where_another_signal_would_lose_its_register() -> None:
    project = pump_project(word("speed", 311), word("first", 0), numbering="from-0")
    history = [moment(309, 7, 417, 9, shown="417")]
    best = explanations(project, "speed", history)[0]
    assert [repair.key for repair in repairs(project, "speed", best)] == ["register"]


@pytest.mark.parametrize(
    ("numbering", "number", "key"), [("from-1", 310, "numbering"), ("prefixed", 40_310, "register")]
)
def test_one_too_low(numbering: str, number: int, key: str) -> None:
    project = pump_project(word("speed", number), numbering=numbering)
    after = pressed(project, "speed", [moment(308, 1, 2, 417, 4, shown="417")], key)
    assert bind(after, "speed").address == 310


def test_a_fast_word_shows_the_order_of_a_counter_without_any_reading() -> None:
    project = pump_project(word("energy", 400, encoding="uint32"), word("torque", 404, encoding="float32"))
    history = [
        moment(399, 0, *encode("uint32", 1_234_000 + step, "low-first"), *encode("float32", 12.5), 0)
        for step in (0, 7, 19)
    ]
    found = explanations(project, "energy", history)
    assert found[0].present, "what the project says stands first while nobody has typed anything"
    assert (found[1].standing, found[1].way.word_order, found[1].address) == ("clear", "low-first", 400)
    device, signal = repairs(project, "energy", found[1])
    after = device.edit(project)
    assert (after.followers[0].word_order, device.key, signal.key) == ("low-first", "follower orders", "signal order")
    assert bind(after, "energy").decode([history[-1].registers["holding", at] for at in (400, 401)])[1] == 1_234_019
    assert "(2)" in device.consequence
    after = signal.edit(project)
    assert [bind(after, name).word_order for name in ("energy", "torque")] == ["low-first", "high-first"]


def test_a_float_that_is_read_as_a_whole_number() -> None:
    project = pump_project(word("torque", 404, encoding="uint32"))
    history = [moment(403, 0, *encode("float32", value), 0, 0, 0, shown=str(value)) for value in (12.5, 13.25)]
    after = pressed(project, "torque", history, "encoding")
    assert after.signals[0].encoding == "float32"  # type: ignore[union-attr]


def test_bytes_of_the_other_order() -> None:
    project = pump_project(word("speed", 310))
    history = [moment(309, 0, 0x8A20, 0, 0, 0, 0, shown="8330")]  # 8330 is 208Ah
    after = pressed(project, "speed", history, "follower orders")
    assert after.followers[0].byte_order == "low-first"


def test_two_readings_give_the_scale_and_a_third_one_confirms_a_free_one() -> None:
    project = pump_project(word("speed", 310))
    usual = [moment(309, 0, 8330, 0, shown="41.65"), moment(309, 0, 5000, 0, shown="25.00")]
    after = pressed(project, "speed", usual, "scale")
    assert bind(after, "speed").scale.value(8330) == Fraction("41.65")
    free = [moment(309, 0, 400, 0, shown="-50.0"), moment(309, 0, 2000, 0, shown="150.0")]
    best = next(each for each in explanations(project, "speed", free) if each.present)
    assert (best.standing, "third" in best.evidence) == ("possible", True)
    third = [*free, moment(309, 0, 1200, 0, shown="50.0")]
    best = next(each for each in explanations(project, "speed", third) if each.present)
    assert best.standing == "confirmed"
    (repair,) = repairs(project, "speed", best)
    assert bind(repair.edit(project), "speed").scale.value(1600) == 100
    mistyped = [*free, moment(309, 0, 1200, 0, shown="70.0")]
    best = next(each for each in explanations(project, "speed", mistyped) if each.present)
    assert (best.standing, repairs(project, "speed", best)) == ("does not fit", ())


def test_a_scale_that_is_not_needed_goes() -> None:
    project = pump_project(word("speed", 310, scale=TENTH))
    history = [moment(309, 0, 417, 0, shown="417"), moment(309, 0, 250, 0, shown="250")]
    after = pressed(project, "speed", history, "scale")
    assert after.signals[0].scale is None  # type: ignore[union-attr]


def test_a_zero_is_no_evidence() -> None:
    project = pump_project(word("speed", 310))
    found = explanations(project, "speed", [moment(309, 0, 0, 0, shown="0.0")])
    assert {each.standing for each in found} == {"unknown"}
    assert found[0].present


def test_what_must_never_be_read_is_left_out_and_reads_are_short_enough() -> None:
    signal = word("speed", 310)
    assert registers_to_read(pump_project(signal), "speed") == ((309, 6),)
    assert registers_to_read(pump_project(signal, max_registers=4), "speed") == ((309, 4), (313, 2))
    never = (NeverRead(first=311, last=312),)
    assert registers_to_read(pump_project(signal, never_read=never), "speed") == ((309, 2), (313, 2))
    assert registers_to_read(pump_project(word("speed", 0)), "speed") == ((0, 5),)
    assert registers_to_read(pump_project(word("speed", 65_535)), "speed") == ((65_534, 2),)


def test_only_numbers_in_registers_have_several_ways() -> None:
    project = pump_project(
        word("speed", 310),
        word("name", 320, encoding="string", length=4),
        RegisterSignal(name="on", follower="pump", table="coil", number=1),
        BitSignal(name="bit", bit=Bit(of="speed", number=1)),
        word("lost", 400_000),
    )
    assert [can_be_explained(project, name) for name in ("speed", "name", "on", "bit", "lost", "?")] == [
        True, False, False, False, False, False,
    ]  # fmt: skip


def taken(words: dict[int, int], unit: int = 17) -> RegisterSnapshot:
    held: dict[RegisterPlace, int] = {("holding", at): word for at, word in words.items()}
    when = datetime.datetime(2026, 3, 1, tzinfo=datetime.UTC)
    return RegisterSnapshot("any name", unit, "", "from-1", when, {**held, ("input", 310): 9})


def test_a_snapshot_serves_as_well_as_the_line_and_may_hold_what_must_not_be_read() -> None:
    project = pump_project(word("speed", 311, scale=TENTH), numbering="from-0", unit=17)
    device = change_follower(project, "pump", never_read=(NeverRead(table="holding", first=310, last=310),))
    fast, slow = ({309: 7, 310: word, 311: 9, 312: 0, 400: 1} for word in (417, 250))
    history = [
        moment_in(device, "speed", taken(words))._replace(shown=ShownValue.of(text))
        for words, text in ((fast, "41.7"), (slow, "25.0"))
    ]
    assert sorted(history[0].registers) == [("holding", at) for at in (310, 311, 312)]
    assert explanations(device, "speed", history)[0].address == 310


@pytest.mark.parametrize(
    ("snapshot", "words"),
    [(taken({311: 1}, unit=3), "of unit 3"), (taken({310: 1}), "does not hold the registers of 'speed'")],
)
def test_a_snapshot_of_something_else_is_refused(snapshot: RegisterSnapshot, words: str) -> None:
    project = pump_project(word("speed", 311), numbering="from-0", unit=17)
    with pytest.raises(FanlightError, match=words):
        moment_in(project, "speed", snapshot)
