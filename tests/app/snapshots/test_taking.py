"""Snapshots over real sockets: what is read and what is not, the file, what differs, and that nothing is written."""

from __future__ import annotations

import datetime
import json
import os
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from app.cli.parser import main
from app.client.endpoint import Endpoint
from app.follower.simulation import Simulation
from app.line.engine import Engine
from app.project.model import NeverRead
from app.snapshots.differences import compare
from app.snapshots.files import (
    LARGEST_FILE,
    CannotKeep,
    NotASnapshot,
    open_snapshot,
    save,
    snapshot_of_text,
    text_of_file,
)
from app.snapshots.snapshot import RegisterSnapshot, Said, UnreadableRange
from app.snapshots.taking import CannotTake, RegisterRange, range_of, take
from projects import demo_path
from tests.builders import pump_project, word
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for

PUMP = str(demo_path("booster-pump"))
PROJECT = pump_project(
    word("total", 11, encoding="uint32", write=True),
    word("speed", 15, unit="rpm", write=True),
    max_registers=4,
    numbering="from-1",
    never_read=(NeverRead(first=31, last=32),),
).replace(title="Trial")


KINDS = [
    "tcp",
    "serial-over-tcp",
    pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs a pty")),
]


@pytest.fixture(params=KINDS)
def staged(request: pytest.FixtureRequest) -> Iterator[StagedFollower]:
    follower = StagedFollower(request.param, Registers({10: 1, 11: 2, 14: 1450}), 100)
    follower.start()
    yield follower
    follower.stop()


def running(staged: StagedFollower, *, armed: bool = False) -> Engine:
    engine = Engine(PROJECT, {"bus": staged.endpoint}, armed=["bus"] if armed else [])
    engine.start()
    return engine


def test_signals_and_ranges_are_read_in_small_blocks_around_what_is_never_read(staged: StagedFollower) -> None:
    engine = running(staged)
    try:
        taken = take(engine, PROJECT, "pump", [range_of(PROJECT.followers[0], "holding:21-40")], line="there")
    finally:
        engine.stop()
    assert {at for _, at in taken.registers} == {10, 11, 14, *range(20, 40)} - {30, 31}
    assert taken.words("holding", 10, 2) == (1, 2)
    assert {said.name: said.text for said in taken.signals} == {"total": "65538", "speed": "1450 rpm"}
    for asked in staged.asked:
        first, count = int.from_bytes(asked.pdu[1:3], "big"), int.from_bytes(asked.pdu[3:5], "big")
        assert asked.function == 3
        assert not {30, 31} & set(range(first, first + count))


@pytest.mark.parametrize("kind", KINDS)
def test_refusals_and_gaps_leave_the_rest_readable(kind: str) -> None:
    """Around registers that are refused (exception 02), too many at once (03), and a follower that is busy (06)."""
    honest = Registers({10: 1, 11: 2, 14: 1450})
    busy = iter([6])

    def answer(asked: Asked) -> Answer:
        if {22, 23, 36} & set(range(asked.address, asked.address + asked.count)):
            return [asked.framed(bytes((asked.function | 0x80, 2)))]
        if asked.function == 3 and asked.address == 24 and (code := next(busy, 0)):
            return [asked.framed(bytes((0x83, code)))]
        if asked.function in (1, 2):
            return [asked.framed(bytes((asked.function | 0x80, 1)))]
        return honest(asked)

    with StagedFollower(kind, answer, 100) as staged:
        engine = running(staged)
        try:
            wanted = [range_of(PROJECT.followers[0], text) for text in ("holding:21-40", "coil:1-9")]
            taken = take(engine, PROJECT, "pump", wanted)
        finally:
            engine.stop()
    assert {at for table, at in taken.registers if table == "holding"} == (
        {10, 11, 14, *range(20, 40)} - {22, 23, 30, 31, 36}
    )
    assert all(taken.registers["holding", at] == at for at in range(32, 36))
    assert [(each.table, each.first, each.last) for each in taken.not_readable] == [
        ("coil", 0, 8),
        ("holding", 22, 23),
        ("holding", 36, 36),
    ]
    assert "illegal function (01)" in taken.not_readable[0].reason
    assert "illegal data address (02)" in taken.not_readable[1].reason
    assert [asked for asked in staged.asked if asked.function > 4] == []


def test_a_silent_follower_ends_it_in_words() -> None:
    engine = Engine(PROJECT, {"bus": Endpoint.tcp("127.0.0.1", 9, timeout_ms=50)})
    engine.start()
    try:
        with pytest.raises(CannotTake, match="'pump' does not answer at holding registers 11 to 12"):
            take(engine, PROJECT, "pump")
    finally:
        engine.stop()
    with pytest.raises(CannotTake, match="does not answer"):
        take(engine, PROJECT, "pump")


def test_whoever_watches_can_stop_it(staged: StagedFollower) -> None:
    class Enough(Exception):
        pass

    def stop(_part: float) -> None:
        raise Enough

    engine = running(staged)
    try:
        with pytest.raises(Enough):
            take(engine, PROJECT, "pump", [RegisterRange("holding", 0, 999)], progress=stop)
    finally:
        engine.stop()


def test_a_register_of_no_signal_is_written_only_while_armed(staged: StagedFollower) -> None:
    engine = running(staged)
    try:
        wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
        report = engine.write_register("pump", "holding", 50, 7).result(5)
        assert (report.ok, report.signal) == (False, "holding register 51")
        assert "not armed" in report.reason
        assert [asked for asked in staged.asked if asked.function > 4] == []
        engine.arm("bus")
        report = engine.write_register("pump", "holding", 50, 7).result(5)
        assert (report.ok, report.kept) == (True, Fraction(7))
        assert engine.read("pump", "holding", 50, 1).result(5) == (7,)
    finally:
        engine.stop()


def test_what_the_follower_does_not_have_is_found_register_by_register() -> None:
    simulation = Simulation(PROJECT)
    simulation.start()
    try:
        host, port = simulation.serve_tcp("bus", "127.0.0.1", 0)
        engine = Engine(PROJECT, {"bus": Endpoint.tcp(host, port)})
        engine.start()
        try:
            taken = take(engine, PROJECT, "pump", [RegisterRange("holding", 8, 20)])
        finally:
            engine.stop()
    finally:
        simulation.stop()
    refused = {at for each in taken.not_readable for at in range(each.first, each.last + 1)}
    read = {at for _, at in taken.registers}
    assert {10, 11, 14} <= read
    assert read | refused == set(range(8, 21))
    assert not read & refused
    assert refused


WORDS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
TABLES = st.sampled_from(["coil", "discrete", "holding", "input"])
SNAPSHOTS = st.builds(
    RegisterSnapshot,
    WORDS,
    st.integers(1, 247),
    WORDS,
    st.sampled_from(["from-0", "from-1", "prefixed"]),
    st.datetimes(datetime.datetime(1990, 1, 1), timezones=st.just(datetime.timezone(datetime.timedelta(hours=2)))),
    st.dictionaries(st.tuples(TABLES, st.integers(0, 65_535)), st.integers(0, 1)),
    WORDS,
    st.lists(st.builds(UnreadableRange, TABLES, st.integers(0, 50), st.integers(50, 65_535), WORDS), max_size=3).map(
        tuple
    ),
    st.lists(
        st.builds(Said, WORDS, TABLES, st.integers(0, 65_535), st.integers(1, 125), WORDS, st.booleans()), max_size=3
    ).map(tuple),
    WORDS,
)


@given(SNAPSHOTS)
def test_a_file_brings_back_what_was_written(snapshot: RegisterSnapshot) -> None:
    assert snapshot_of_text(text_of_file(snapshot)) == snapshot


SMALL = RegisterSnapshot(
    "pump", 3, "there", "from-1", datetime.datetime(2026, 3, 1, tzinfo=datetime.UTC), {("holding", 5): 7}
)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("5 = 7", "5 = 70000"), "holding.5"),
        (("5 = 7", "65536 = 7"), "holding.65536"),
        (('follower = "pump"', ""), "key follower"),
        (("format = 1", "format = 9"), "format is 9"),
        (("register snapshot", "menu"), "not a register snapshot"),
        (("unit = 3", "unit ="), "not TOML"),
        (
            ("5 = 7", '5 = 7\n[[not_readable]]\ntable = "coil"\nfirst = -5\nlast = 10\nreason = ""'),
            "not_readable.0..first",
        ),
        (("2026-03-01 00:00:00+00:00", "2026-03-01 00:00:00"), "key taken"),
    ],
)
def test_a_bad_file_is_told_in_words(change: tuple[str, str], words: str, tmp_path: Path) -> None:
    text = text_of_file(SMALL)
    assert change[0] in text
    path = tmp_path / "bad.toml"
    path.write_text(text.replace(*change), encoding="utf-8")
    with pytest.raises(NotASnapshot, match=words):
        open_snapshot(path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="named pipes")
def test_pipes_devices_and_endless_files_are_no_snapshots(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", Path(os.devnull)):
        with pytest.raises(NotASnapshot, match="not a regular file"):
            open_snapshot(path)
    with (tmp_path / "endless.toml").open("wb") as file:
        file.truncate(LARGEST_FILE + 1)
    with pytest.raises(NotASnapshot, match="more than 8 MB"):
        open_snapshot(tmp_path / "endless.toml")


@pytest.mark.parametrize("name", ["", "\0", "a" * 5000])
def test_names_that_no_file_can_have_are_told_in_words(name: str, tmp_path: Path) -> None:
    path = tmp_path / name if name else Path()
    with pytest.raises(NotASnapshot, match="cannot be read"):
        open_snapshot(path)
    with pytest.raises(CannotKeep, match="cannot be written"):
        save(SMALL, path)


def test_a_snapshot_saved_again_by_an_editor_with_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    path = tmp_path / "marked.registers.toml"
    path.write_text(text_of_file(SMALL), encoding="utf-8-sig")
    assert open_snapshot(path) == SMALL


def test_values_of_several_registers_differ_as_a_whole() -> None:
    def made(words: tuple[int, int, int], text: str) -> RegisterSnapshot:
        registers = {("holding", 10 + at): word for at, word in enumerate(words)}
        said = (Said("total", "holding", 10, 2, text),)
        return RegisterSnapshot("pump", 3, "", "from-1", SMALL.taken, registers, signals=said)  # type: ignore[arg-type]

    alike = compare(made((0, 1, 5), "1 h"), made((0, 2, 5), "1 h"))[0]
    assert (alike.said_before, alike.said_after) == ("1 h (0 1)", "1 h (0 2)")
    rows = compare(made((0, 1, 5), "1 h"), made((0, 2, 6), "2 h"))
    assert [(row.number, row.signal, row.said_before, row.said_after) for row in rows] == [
        (11, "total", "1 h", "2 h"),
        (13, "", "5", "6"),
    ]


def test_the_command_line_takes_and_compares(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found, left = tmp_path / "found.toml", tmp_path / "left.toml"
    assert main(["snapshot", PUMP, "--via", "simulated", "--to", str(found)]) == 0
    capsys.readouterr()
    assert main(["differences", str(found), str(found)]) == 0
    assert tuple(capsys.readouterr()) == ("", "no differences\n")
    snapshot = open_snapshot(found)
    place = next(place for place in snapshot.registers if place[0] == "holding")
    save(
        RegisterSnapshot(
            snapshot.follower, 1, "", snapshot.numbering, snapshot.taken, {**snapshot.registers, place: 77}
        ),
        left,
    )
    capsys.readouterr()
    assert main(["differences", str(found), str(left), "--json"]) == 1
    told = json.loads(capsys.readouterr().out)["differences"]
    assert [(row["table"], row["address"]) for row in told] == [place]
    assert main(["differences", str(found), "--live", PUMP, "--via", "simulated"]) in (0, 1)
    assert main(["differences", str(found)]) == 2
    assert main(["differences", PUMP, str(found)]) == 2
    assert "not a register snapshot" in capsys.readouterr().err


def test_the_command_line_takes_no_snapshot_over_another_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    found = tmp_path / "as-found.registers.toml"
    found.write_text("the only record of it", encoding="utf-8")
    assert main(["snapshot", PUMP, "--via", "simulated", "--to", str(found)]) == 2
    assert "already exists" in capsys.readouterr().err
    assert found.read_text(encoding="utf-8") == "the only record of it"
    assert main(["snapshot", PUMP, "--via", "simulated", "--to", str(tmp_path / "nowhere" / "found.toml")]) == 2
    assert "no folder" in capsys.readouterr().err


def test_a_follower_that_falls_silent_ends_it_and_names_the_place() -> None:
    staged = StagedFollower("tcp", lambda _asked: (), 50)
    staged.start()
    engine = running(staged)
    try:
        with pytest.raises(CannotTake, match="'pump' does not answer at holding registers 11 to 12"):
            take(engine, PROJECT, "pump")
    finally:
        engine.stop()
        staged.stop()
