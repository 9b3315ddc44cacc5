"""Lists as people have them, from the bytes of a file to the edited project."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from app.edits import EditRefused
from app.exchange.column_mapping import memory_text
from app.exchange.delimited import TextWay
from app.exchange.import_plan import ImportTarget, WhatIsThere
from app.exchange.importing import Import, begin, match_again, plan_again, read_again
from app.project.model import BitSignal, Follower, Project, RegisterSignal, TcpLine
from app.project_file.files import dump, parse
from tests.builders import project_of

LINE = TcpLine(name="hall", host="192.0.2.1")
KILN = Follower(name="kiln", line="hall")


def kiln_project(*signals: dict[str, object], numbering: str = "from-0") -> Project:
    return project_of(
        line=[{"name": "hall", "kind": "tcp", "host": "192.0.2.1"}],
        follower=[{"name": "kiln", "line": "hall", "numbering": numbering}],
        signal=list(signals),
    )


def target(there: WhatIsThere = "skip", follower: Follower = KILN) -> ImportTarget:
    return ImportTarget(follower, LINE, there)


def brought(tmp_path: Path, text: str, into: Project | None = None, there: WhatIsThere = "skip") -> Import:
    path = tmp_path / "list.csv"
    path.write_bytes(text.encode())
    into = into or kiln_project()
    follower = into.follower_named["kiln"]
    return begin(path, into, target(there, follower))


def signal(done: Import, name: str) -> RegisterSignal:
    found = done.plan.edit(done.project).signal_named[name]
    assert isinstance(found, RegisterSignal)
    return found


def notes(done: Import, level: str = "fault") -> list[tuple[int, int, str]]:
    return [(note.row, note.column, note.message) for note in done.plan.notes if note.level == level]


def numbers(first: int | str, second: int | str) -> tuple[Decimal, Decimal]:
    return Decimal(first), Decimal(second)


ENGLISH = """\
Kiln controller, register list
Register,Name,Data type,Scale,Unit,Access,Min,Max,Description
40001,Set temperature,UINT,0.1,°C,R/W,0,1200,Wanted temperature
40002,Temperature,INT,x0.1,°C,R,,,
40003-40004,Energy,UDINT,1/1000,MWh,RO,,,
40005,Status,WORD,,,R,,,
40006,Mode,enum16,,,RW,,,
"""

GERMAN = """\
Adresse;Bezeichnung;Datentyp;Faktor;Einheit;Zugriff;Min;Max
0;Solltemperatur;u16;0,1;°C;L/S;0,0;1200,5
1;Isttemperatur;s16;0,1;°C;L;;
2;Durchfluss;Float;;m³/h;L;;
"""


def test_an_english_list_with_a_heading_above_its_titles(tmp_path: Path) -> None:
    done = brought(tmp_path, ENGLISH)
    assert done.matching.heading == 2
    assert done.matching.numbering == "prefixed"
    assert notes(done) == []
    wanted = signal(done, "Set temperature")
    assert (wanted.table, wanted.number, wanted.encoding, wanted.write) == ("holding", 0, "uint16", True)
    assert wanted.scale is not None
    assert (wanted.scale.raw, wanted.scale.value) == (numbers(0, 10), numbers(0, 1))
    assert (wanted.unit, wanted.decimals, wanted.limits) == ("°C", 1, numbers(0, 1200))
    assert wanted.notes == "Wanted temperature"
    assert signal(done, "Temperature").encoding == "int16"
    energy = signal(done, "Energy")
    assert (energy.number, energy.encoding, energy.decimals) == (2, "uint32", 3)
    assert len(done.plan.incoming) == 5


def test_what_each_value_means_is_taken_for_its_texts_whatever_the_title(tmp_path: Path) -> None:
    head = "Adresse;Bezeichnung;Datentyp;Bedeutung\n"
    meant = '0;Modus;u16;"0=Rampe, 1=Fangen, 2=Gleichstrom"\n1;Strom;u16;\n2;Fehler;u16;0: kein, 1: Überstrom\n'
    done = brought(tmp_path, head + meant)
    assert signal(done, "Modus").texts == {"0": "Rampe", "1": "Fangen", "2": "Gleichstrom"}
    assert signal(done, "Fehler").texts == {"0": "kein", "1": "Überstrom"}
    assert not signal(done, "Modus").notes
    done = brought(tmp_path, head + '0;Modus;u16;"0=Rampe, 1=Fangen"\n1;Strom;u16;nur im Lauf\n')
    assert signal(done, "Modus").notes == "0=Rampe, 1=Fangen", "other words stand there too"
    done = brought(tmp_path, head + "0;Modus;u16;1 = siehe Handbuch\n")
    assert signal(done, "Modus").notes == "1 = siehe Handbuch", "one value is no list"
    done = brought(tmp_path, head.replace("Bedeutung", "Notes") + meant)
    assert signal(done, "Fehler").notes == "0: kein, 1: Überstrom", "written as notes"


def test_a_value_that_no_signal_can_have_is_noted_at_its_column(tmp_path: Path) -> None:
    [(row, column, why)] = notes(brought(tmp_path, "Register,Name,Unit,Step\n1,speed,Hz,-1\n"))
    assert (row, column) == (2, 3)
    assert "must be" in why


def test_roles_in_the_simulated_drive_are_taken_with_blanks_and_capitals_too(tmp_path: Path) -> None:
    head = "Register,Name,Drive role\n"
    done = brought(tmp_path, head + "1,command,Control Word\n2,state,status_word\n3,speed,output-frequency\n")
    assert notes(done) == []
    roles = [signal(done, name).drive_role for name in ("command", "state", "speed")]
    assert roles == ["control-word", "status-word", "output-frequency"]
    [(_, _, why)] = notes(brought(tmp_path, head + "1,command,control wort\n"))
    assert "'control-word'" in why


def test_a_german_list_with_decimal_commas(tmp_path: Path) -> None:
    done = brought(tmp_path, GERMAN)
    assert done.way.text.separator == ";"
    assert (done.matching.mark, done.matching.numbering) == (",", "from-0")
    wanted = signal(done, "Solltemperatur")
    assert (wanted.number, wanted.write, wanted.limits) == (0, True, numbers(0, "1200.5"))
    assert signal(done, "Durchfluss").encoding == "float32"


def test_registers_with_0x_are_hexadecimal_except_where_coils_are_counted_so(tmp_path: Path) -> None:
    rows = "0x11,speed,uint16,holding\n0x0010,power,uint16,input\n0x0017,horn,bool,coil\n"
    done = brought(tmp_path, f"Register,Name,Data type,Table\n{rows}")
    assert [signal(done, name).number for name in ("speed", "power", "horn")] == [0x11, 0x10, 17]


def test_bad_rows_are_named_and_the_rest_comes_in(tmp_path: Path) -> None:
    text = "Name,Register,Type,Factor\nA,1,u16,\nB,4000x,u16,\nC,3,nonsense,\nD,4,u16,0\n,5,u16,\nF,6,u16,0.5\n"
    done = brought(tmp_path, text)
    found = notes(done)
    assert [(row, column) for row, column, _ in found] == [(3, 1), (4, 2), (5, 3), (6, 0)]
    assert "'4000x' is not a register number" in found[0][2]
    assert "'nonsense' is not a known data type" in found[1][2]
    assert [incoming.signal.name for incoming in done.plan.incoming] == ["A", "F"]
    assert done.plan.rows == 6
    assert [signal.name for signal in done.plan.edit(done.project).signals] == ["A", "F"]


def test_a_number_that_can_be_read_in_two_ways_waits_for_the_decimal_mark(tmp_path: Path) -> None:
    text = "Name;Register;Type;Max;Min\nA;1;u16;1.500;0\n"
    done = brought(tmp_path, text)
    assert done.matching.mark is None
    assert "can mean 1.500 or 1500" in notes(done)[0][2]
    for mark, value in ((".", "1.5"), (",", 1500)):
        again = match_again(
            done.source,
            done.way,
            done.sheet,
            done.guessed,
            replace(done.matching, mark=mark),  # type: ignore[arg-type]
            done.project,
            target(),
        )
        assert signal(again, "A").limits == numbers(0, value)


@pytest.mark.parametrize(
    ("policy", "names", "register"),
    [("skip", ["A", "B"], 7), ("replace", ["A", "B"], 1), ("rename", ["A", "A 2", "B"], 7)],
)
def test_a_name_that_exists(tmp_path: Path, policy: WhatIsThere, names: list[str], register: int) -> None:
    there = kiln_project({"name": "A", "follower": "kiln", "register": 7})
    done = brought(tmp_path, "Name,Register\nA,1\nB,2\n", there, policy)
    after = done.plan.edit(there)
    assert sorted(after.signal_named) == names
    first = after.signal_named["A"]
    assert isinstance(first, RegisterSignal)
    assert first.number == register
    assert parse(dump(after)) == after


THERE: tuple[dict[str, object], ...] = (
    {"name": "Control word", "follower": "kiln", "register": 7, "drive_role": "control-word", "notes": "ours"},
    {"name": "Start", "bit": {"of": "Control word", "number": 0}},
    {"name": "Level", "follower": "kiln", "table": "input", "register": 7},
)


@pytest.mark.parametrize(
    ("policy", "names"),
    [
        ("skip", ["Control word", "Level", "New", "Start"]),
        ("replace", ["Control word", "Level", "New", "Start"]),
        ("rename", ["Control Word", "Control word", "Level", "New", "Run", "Start"]),
    ],
)
def test_what_is_there_under_another_name_is_known_by_its_place(
    tmp_path: Path, policy: WhatIsThere, names: list[str]
) -> None:
    text = "Name,Register,Bit of,Bit,Unit\nControl Word,7,,,rpm\nRun,,Control Word,0,\nNew,8,,,\n"
    done = brought(tmp_path, text, kiln_project(*THERE), policy)
    after = done.plan.edit(done.project)
    assert sorted(after.signal_named) == names
    word = signal(done, "Control word")
    assert word.unit == ("rpm" if policy == "replace" else "")
    assert (word.drive_role, word.notes) == ("control-word", "ours"), "the list has no column for them"
    assert not notes(done), "none of it is a fault"
    told = [message for _, _, message in notes(done, "aside") + notes(done, "remark")]
    assert any("'Control word'" in message for message in told)
    assert any("'Start'" in message for message in told)
    run = after.signal_named.get("Run")
    assert (run.bit.of == "Control Word") if isinstance(run, BitSignal) else policy != "rename"
    assert parse(dump(after)) == after


def test_an_update_takes_away_what_the_list_leaves_empty(tmp_path: Path) -> None:
    there = kiln_project({"name": "A", "follower": "kiln", "register": 7, "unit": "Hz", "limits": [0, 9], "step": 1})
    done = brought(tmp_path, "Name,Register,Min,Max\nA,7,,\n", there, "replace")
    after = signal(done, "A")
    assert after.limits is None, "its columns are there, and empty"
    assert (after.unit, after.step) == ("Hz", Decimal(1)), "no column is about these"


def test_two_rows_at_one_place_are_two_signals(tmp_path: Path) -> None:
    there = kiln_project({"name": "A", "follower": "kiln", "register": 7})
    done = brought(tmp_path, "Name,Register\nA,7\nB,7\nC,7\n", there, "replace")
    assert sorted(done.plan.edit(there).signal_named) == ["A", "B", "C"]


def test_registers_are_compared_as_their_device_counts_them(tmp_path: Path) -> None:
    there = kiln_project({"name": "A", "follower": "kiln", "register": 7})
    done = brought(tmp_path, "Name,Register\nfirst,40008\nother,40009\n", there, "skip")
    assert done.matching.numbering == "prefixed"
    assert [one.signal.name for one in done.plan.incoming] == ["other"]


def test_what_breaks_a_use_stays_out(tmp_path: Path) -> None:
    there = kiln_project(
        {"name": "word", "follower": "kiln", "register": 7}, {"name": "bit", "bit": {"of": "word", "number": 1}}
    )
    done = brought(tmp_path, "Name,Register,Bit of,Bit\nother,3,,\nword,,other,0\n", there, "replace")
    assert "already has bits" in notes(done)[0][2]
    assert "other" in done.plan.edit(there).signal_named


def test_bits_find_or_bring_their_registers(tmp_path: Path) -> None:
    text = "Name,Register,Type\nstatus,12,WORD\nrunning,12.0,BOOL\nfault,12.3,BOOL\nlamp,99.15,BOOL\n"
    done = brought(tmp_path, text)
    after = done.plan.edit(done.project)
    bits = [signal.bit for signal in after.signals if isinstance(signal, BitSignal)]
    assert [(bit.of, bit.number) for bit in bits] == [("status", 0), ("status", 3), ("holding 99", 15)]
    assert "'holding 99' is added to hold its bits" in notes(done, "remark")[0][2]
    assert parse(dump(after)) == after


def test_followers_that_the_project_lacks_come_in_on_the_line(tmp_path: Path) -> None:
    done = brought(tmp_path, "Name,Device,Register\nA,kiln,1\nB,fan,2\nC,fan,3\n")
    after = done.plan.edit(done.project)
    assert [(follower.name, follower.line, follower.unit) for follower in after.followers] == [
        ("kiln", "hall", 1),
        ("fan", "hall", 2),
    ]
    assert parse(dump(after)) == after


def test_a_new_follower_counts_as_the_list_does(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("Name,Register\nA,40001\nB,40002\n", "utf-8")
    new = Follower(name="new", line="hall")
    done = begin(path, kiln_project(), ImportTarget(new, LINE))
    after = done.plan.edit(kiln_project())
    assert after.follower_named["new"].numbering == "prefixed"
    assert [signal.number for signal in after.signals if isinstance(signal, RegisterSignal)] == [40_001, 40_002]


def test_long_names_are_cut_and_kept_in_the_notes(tmp_path: Path) -> None:
    name = "Temperature of the flue gas behind the second heat exchanger"
    done = brought(tmp_path, f"Name,Register,Notes\n{name} A,1,x\n{name} B,2,\n")
    first, second = (incoming.signal for incoming in done.plan.incoming)
    assert (len(first.name), first.notes) == (40, f"{name} A\nx")
    assert second.name != first.name
    assert second.notes == f"{name} B"


def test_a_list_without_titles_is_known_by_its_contents(tmp_path: Path) -> None:
    done = brought(tmp_path, "Speed,300,UINT\nTorque,301,INT\nCurrent,302,UINT\n")
    assert done.matching.columns == ("name", "register", "encoding")
    assert [signal.name for signal in done.plan.edit(done.project).signals] == ["Speed", "Torque", "Current"]


def test_headings_between_rows_are_set_aside(tmp_path: Path) -> None:
    done = brought(tmp_path, "Name,Register,Type\nMotor,,\nSpeed,1,u16\n\nLine,,\nVoltage,2,u16\n")
    assert [row for row, _, _ in notes(done, "aside")] == [2, 5]
    assert done.plan.rows == 2


def test_a_matching_is_remembered_for_lists_with_the_same_titles(tmp_path: Path) -> None:
    done = brought(tmp_path, "Foo,Bar,Baz\nSpeed,300,x\nTorque,301,y\n")
    assert "notes" not in done.matching.columns
    changed = done.matching.with_key(2, "notes")
    kept = {done.signature(): memory_text(changed)}
    path = tmp_path / "next.csv"
    path.write_text("Foo,Bar,Baz\nCurrent,302,z\n", "utf-8")
    again = begin(path, kiln_project(), target(), lambda key: kept.get(key, ""))
    assert again.from_memory
    assert again.matching.columns[2] == "notes"
    assert signal(again, "Current").notes == "z"


@pytest.mark.parametrize(
    "kept", ["", "x", "[]", "{}", '{"columns": ["name"]}', '{"columns": 3}', '{"columns": [[],[],[]]}']
)
def test_a_memory_that_does_not_fit_is_no_harm(tmp_path: Path, kept: str) -> None:
    path = tmp_path / "list.csv"
    path.write_text("Name,Register,Type\nA,1,u16\n", "utf-8")
    done = begin(path, kiln_project(), target(), lambda _: kept)
    assert not done.from_memory
    assert done.matching.columns == ("name", "register", "encoding")


def test_an_import_that_is_refused_changes_nothing(tmp_path: Path) -> None:
    done = brought(tmp_path, "Name,Register\nA,1\n")
    meanwhile = kiln_project().replace(followers=())
    with pytest.raises(EditRefused, match="'kiln' does not exist"):
        done.plan.edit(meanwhile)
    assert meanwhile == kiln_project().replace(followers=())


def test_another_target_needs_no_second_reading(tmp_path: Path) -> None:
    done = brought(tmp_path, "Name,Register\nA,1\n")
    nobody = plan_again(done, kiln_project(), ImportTarget(None, LINE))
    assert nobody.sheet is done.sheet
    assert nobody.plan.incoming == ()
    assert "no device given" in notes(nobody)[0][2]


def test_a_wrong_separator_is_obeyed_and_doubted(tmp_path: Path) -> None:
    done = brought(tmp_path, "Name,Register\nA,1\n")
    again = read_again(done.source, replace(done.way, text=TextWay(separator=";")), kiln_project(), target())
    assert again.sheet.columns == 1
    assert any("separator" in remark for remark in again.remarks)
    assert again.plan.incoming == ()


def test_a_dash_is_nothing(tmp_path: Path) -> None:
    text = "Name,Register,Type,Factor,Min,Max,Values,Step\nA,1,u16,-,n/a,N/A,-,\u2013\nB,2,u16,0.1,0,5,0=off,1\n"
    done = brought(tmp_path, text)
    assert notes(done) == []
    assert (signal(done, "A").scale, signal(done, "A").limits, signal(done, "A").step) == (None, None, None)


def test_the_order_of_words_comes_from_its_column_or_the_type(tmp_path: Path) -> None:
    rows = (
        "Name;Register;Type;Word order",
        "energy;1;uint32;low-first",
        "flow;3;float32;",
        "total;5;float CDAB;",
        "hours;7;uint32 swapped;ABCD",
        "state;9;uint16;big endian",
        "torque;10;float32;little endian",
        "heat;12;float32;DCBA",
    )
    done = brought(tmp_path, "\n".join(rows))
    orders = {name: signal(done, name).word_order for name in ("energy", "flow", "total", "hours", "state", "torque")}
    assert orders == {
        "energy": "low-first",
        "flow": None,
        "total": "low-first",
        "hours": "high-first",
        "state": None,  # one register has no order of words
        "torque": "low-first",
    }
    assert [(row, column) for row, column, _ in notes(done, "remark")] == [(7, 3)]
    ((row, column, why),) = notes(done)
    assert (row, column) == (8, 3)
    assert "byte order of the device" in why
