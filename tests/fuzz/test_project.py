"""Any project, any series of edits, any file."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from decimal import Decimal
from functools import cache, partial
from typing import Any, get_args

import pytest
import tomli_w
from hypothesis import HealthCheck, assume, given, settings, strategies as st

from app import edits
from app.edits import EditRefused
from app.edits.several import ListedKind
from app.project.history import EditHistory
from app.project.messages import MESSAGES
from app.project.model import FORMAT, Condition, Field, HeldSignal, Project
from app.project.references import problems_of_names, uses
from app.project_file.files import ProjectFileError, dump, has_comments, parse
from projects import demo_path, demos
from tests.former_formats import FORMAT_1

# Words for names: some alike, some with what must be quoted in TOML.
NAMES = st.sampled_from(
    ["run", "speed", "Speed", "a.b", 'say "hi"', "back\\slash", "µ", "0", "true", "next one", "#", "="]
)
TEXTS = st.text(st.characters(codec="utf-8"), max_size=30)
NUMBERS = st.one_of(
    st.integers(-(2**64), 2**64).map(Decimal),
    st.decimals(-10_000, 10_000, allow_nan=False, allow_infinity=False, places=4),
    st.sampled_from([Decimal("1E+30"), Decimal("-1E-30"), Decimal("0E+5"), Decimal("-0"), Decimal("5.000")]),
)


def names(least: int = 0) -> st.SearchStrategy[list[str]]:
    return st.lists(NAMES, unique=True, min_size=least, max_size=5)


def some(**optional: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({}, optional=optional)


@st.composite
def projects(draw: st.DrawFn) -> Project:
    """A project whose names all lead somewhere."""
    lines, screens, keys = draw(names()), draw(names(1)), draw(st.lists(NAMES, unique=True, max_size=8))
    followers = draw(names()) if lines else []
    signals = draw(names())
    forms = [draw(st.sampled_from(["register", "held"] if followers else ["held"])) for _ in signals]
    with_bits = draw(st.booleans())
    if signals and with_bits:
        forms = [forms[0], *(draw(st.sampled_from([form, "bit"])) for form in forms[1:])]
    words = [name for name, form in zip(signals, forms, strict=True) if form != "bit"]
    held = [name for name, form in zip(signals, forms, strict=True) if form == "held"]

    languages = draw(st.lists(NAMES, unique=True, max_size=3))

    def condition() -> dict[str, Any]:
        comparison = draw(st.sampled_from(["set", "clear", "above", "below", "equal"]))
        made: dict[str, Any] = {"signal": draw(st.sampled_from(signals)), "is": comparison}
        return made | ({"value": draw(NUMBERS)} if comparison in ("above", "below", "equal") else {})

    def pair() -> list[Decimal]:
        return sorted(draw(st.tuples(NUMBERS, NUMBERS)))

    def line(name: str) -> dict[str, Any]:
        kind = draw(st.sampled_from(["serial", "tcp", "serial-over-tcp"]))
        if kind == "serial":
            more = draw(
                some(baud=st.integers(50, 4_000_000), parity=st.sampled_from(["none", "odd"]), stop_bits=st.just(2))
            )
            return {"name": name, "kind": kind, "device": draw(TEXTS.filter(bool)), **more}
        return {"name": name, "kind": kind, "host": draw(TEXTS.filter(bool)), **draw(some(port=st.integers(1, 65_535)))}

    def follower(name: str) -> dict[str, Any]:
        more = some(
            unit=st.integers(0, 247) | st.just(255),
            numbering=st.sampled_from(["from-0", "from-1", "prefixed"]),
            word_order=st.sampled_from(["high-first", "low-first"]),
            byte_order=st.sampled_from(["high-first", "low-first"]),
            max_registers=st.integers(1, 125),
            simulate=st.sampled_from(["bank", "drive"]),
        )
        return {"name": name, "line": draw(st.sampled_from(lines)), **draw(more)}

    def in_languages(texts: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
        return st.dictionaries(st.sampled_from(languages[1:]), texts) if languages[1:] else st.just({})

    def messages() -> st.SearchStrategy[dict[str, str]]:
        return st.dictionaries(st.sampled_from(MESSAGES), TEXTS.filter(bool).map(lambda text: text[:160]), max_size=4)

    def signal(name: str, form: str) -> dict[str, Any]:
        texts = st.dictionaries(st.integers(-(10**6), 10**6).map(str), TEXTS, max_size=8)
        more = some(
            unit=TEXTS.map(lambda text: text[:16]),
            decimals=st.integers(0, 9),
            texts=texts,
            texts_in=in_languages(texts),
            notes=TEXTS,
        )
        made: dict[str, Any] = {"name": name, **draw(more)}
        if draw(st.booleans()):
            made["limits"] = pair()
        if form == "held":
            return made | {"held": draw(NUMBERS)}
        if form == "bit":
            bit = {"of": draw(st.sampled_from(words)), "number": draw(st.integers(0, 63))}
            return made | {"bit": bit, **draw(some(drive_role=st.sampled_from(["run", "fault"])))}
        registers = some(
            table=st.sampled_from(["coil", "discrete", "holding", "input"]),
            encoding=st.sampled_from(["uint16", "float64", "bcd32", "string"]),
            length=st.integers(1, 125),
            word_order=st.sampled_from(["high-first", "low-first"]),
            scale=st.fixed_dictionaries(
                {key: st.lists(NUMBERS, min_size=2, max_size=2, unique=True) for key in ("raw", "value")}
            ),
            write=st.booleans(),
            every_ms=st.integers(10, 3_600_000),
            start_value=st.one_of(NUMBERS, TEXTS),
            drive_role=st.sampled_from(["current", "torque"]),
        )
        follower = draw(st.sampled_from(followers))
        return made | {"follower": follower, "register": draw(st.integers(0, 465_536)), **draw(registers)}

    def field() -> dict[str, Any]:
        made: dict[str, Any] = {
            "at": draw(st.tuples(st.integers(0, 5), st.integers(0, 25))),
            "width": draw(st.integers(1, 20)),
            "signal": draw(st.sampled_from(signals)),
            **draw(some(kind=st.sampled_from(["number", "hexadecimal", "choice", "bar"]), entry=st.booleans())),
        }
        if draw(st.booleans()):
            made["blink"] = condition()
        if draw(st.booleans()):
            made["range"] = pair()
        return made

    def screen(name: str) -> dict[str, Any]:
        rows = st.lists(TEXTS, max_size=5)
        place = st.tuples(st.integers(-10_000, 10_000), st.integers(-10_000, 10_000))
        more = some(text=rows, text_in=in_languages(rows), notes=TEXTS, map=place)
        made: dict[str, Any] = {"name": name, **draw(more)}
        if signals:
            made["field"] = [field() for _ in range(draw(st.integers(0, 3)))]
        return made

    def screen_change() -> dict[str, Any]:
        cause = draw(st.sampled_from(["idle"] + ["key"] * bool(keys) + ["when"] * bool(signals)))
        to = draw(st.sampled_from(screens))
        if cause == "when":
            return {"when": condition(), "to": to}
        begins = draw(some(**{"from": st.sampled_from(screens)}))
        if cause == "idle":
            return {"idle_s": draw(st.integers(1, 86_400)), "to": to, **begins}
        to = draw(st.sampled_from([to, "next", "previous"]))
        return {"key": draw(st.sampled_from(keys)), "to": to, **begins}

    def action() -> dict[str, Any]:
        made: dict[str, Any] = {"signal": draw(st.sampled_from(signals))}
        by_key = draw(st.booleans())
        if keys and by_key:
            made |= {"key": draw(st.sampled_from(keys)), **draw(some(**{"from": st.sampled_from(screens)}))}
            made["do"] = draw(st.sampled_from(["set", "clear", "toggle", "write", "momentary", "begin-entry"]))
        else:
            made |= {"when": condition(), "do": draw(st.sampled_from(["set", "clear", "toggle", "write"]))}
        if made["do"] == "write":
            made["value"] = draw(st.one_of(NUMBERS, *(st.just({"from": name}) for name in held)))
        return made

    panel = some(
        rows=st.integers(1, 64),
        columns=st.integers(1, 132),
        repertoire=st.sampled_from(["ascii", "lcd-kana", "lcd-european"]),
        messages=messages(),
        messages_in=in_languages(messages()),
        entry=some(by=st.just("digit"), begin=NAMES, timeout_s=st.integers(0, 3600)),
        **({"language": st.sampled_from(signals)} if signals else {}),
    )
    return Project.model_validate(
        {
            **draw(some(title=TEXTS, notes=TEXTS)),
            "panel": {"start": draw(st.sampled_from(screens)), "keys": keys, "languages": languages, **draw(panel)},
            "line": [line(name) for name in lines],
            "follower": [follower(name) for name in followers],
            "signal": [signal(name, form) for name, form in zip(signals, forms, strict=True)],
            "screen": [screen(name) for name in screens],
            "screen_change": [screen_change() for _ in range(draw(st.integers(0, 4)))],
            "action": [action() for _ in range(draw(st.integers(0, 3)) if signals else 0)],
        }
    )


SLOW = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


@SLOW
@given(projects())
def test_a_project_saved_and_loaded_is_itself(project: Project) -> None:
    text = dump(project)
    loaded = parse(text)
    assert loaded == project
    assert dump(loaded) == text
    assert parse(text.encode()) == project
    assert not has_comments(text)


@SLOW
@given(projects(), projects())
def test_equal_projects_and_only_those_have_equal_texts(one: Project, other: Project) -> None:
    assert (dump(one) == dump(other)) == (one == other)


@SLOW
@given(projects())
def test_a_project_in_format_1_is_the_same_project(project: Project) -> None:
    tables = tomllib.loads(dump(project), parse_float=Decimal)
    tables["format"] = 1
    tables["turn"] = tables.pop("screen_change", [])
    for signal in tables.get("signal", []):
        if "drive_role" in signal:
            signal["plays"] = signal.pop("drive_role")
    if number := {"lcd-kana": "0", "lcd-european": "2"}.get(tables["panel"]["repertoire"]):
        tables["panel"]["repertoire"] = f"hd44780-a0{number}"
    assert parse(tomli_w.dumps(tables)) == project


# Edits: each takes a project and a source of choices.
Choose = Callable[[st.SearchStrategy[Any]], Any]
ANY = 'abc 0"\\µ'


def _name(choose: Choose, things: Any) -> str:
    """A name of one of `things`, or now and then a wrong one."""
    return str(choose(st.sampled_from([*(thing.name for thing in things), "nowhere"])))


def _index(choose: Choose) -> int:
    return int(choose(st.integers(-1, 4)))


def _held_instead(project: Project, index: int, held: Decimal) -> Project:
    """A signal of another form in the place of one, under its name."""
    name = project.signals[index].name if 0 <= index < len(project.signals) else "nowhere"
    return edits.put_parts(project, "signal", {index: HeldSignal(name=name, held=held)})


def _deleted(kind: ListedKind, project: Project, choose: Choose) -> Project:
    """Some of the parts, or now and then one that is not there."""
    there = range(len(edits.parts_of(project, kind)))
    return edits.delete_parts(project, kind, choose(st.sets(st.sampled_from([*there, *there, len(there)]), max_size=3)))


def _reordered(kind: ListedKind, project: Project, choose: Choose) -> Project:
    """Now and then with an order that leaves one out."""
    order = choose(st.permutations(range(len(edits.parts_of(project, kind)))))
    return edits.order_parts(project, kind, order[choose(st.sampled_from([0, 0, 0, 1])) :])


def _shifted(kind: ListedKind, project: Project, choose: Choose) -> Project:
    chosen, way = choose(st.sets(st.integers(0, 4), max_size=3)), choose(st.sampled_from([-1, 1]))
    order = edits.shifted_order(len(edits.parts_of(project, kind)), chosen, way)
    return edits.order_parts(project, kind, order)


def _copied(kind: ListedKind, project: Project, choose: Choose) -> Project:
    """One part once more at the end, under a name that may be taken."""
    parts = edits.parts_of(project, kind)
    if not parts:
        return project
    part = choose(st.sampled_from(parts))
    return edits.put_parts(project, kind, {}, [part.replace(name=choose(NAMES)) if hasattr(part, "name") else part])


def _exchanged(kind: ListedKind, project: Project, choose: Choose) -> Project:
    """Parts in each other's places, with all that they are: their names too, which their uses follow."""
    parts = edits.parts_of(project, kind)
    return edits.put_parts(project, kind, dict(enumerate(choose(st.permutations(parts)))))


EDITS: list[Callable[[Project, Choose], Project]] = [
    lambda p, c: edits.type_text(
        p, _name(c, p.screens), _index(c), _index(c), c(st.text(ANY, max_size=6)), insert=c(st.booleans())
    ),
    lambda p, c: edits.erase_text(p, _name(c, p.screens), _index(c), _index(c), _index(c), close_up=c(st.booleans())),
    lambda p, c: edits.type_text(p, _name(c, p.screens), _index(c), 0, c(TEXTS)),
    lambda p, c: edits.add_field(
        p,
        _name(c, p.screens),
        Field(at=(_index(c), _index(c)), width=c(st.integers(1, 5)), signal=_name(c, p.signals)),
    ),
    lambda p, c: edits.change_field(p, _name(c, p.screens), _index(c), at=(_index(c), _index(c))),
    lambda p, c: edits.move_fields(p, _name(c, p.screens), {_index(c), _index(c)}, _index(c), _index(c)),
    lambda p, c: edits.change_field(p, _name(c, p.screens), _index(c), width=c(st.integers(0, 20))),
    lambda p, c: edits.change_field(p, _name(c, p.screens), _index(c), blink=Condition(signal=_name(c, p.signals))),
    lambda p, c: edits.delete_fields(p, _name(c, p.screens), [_index(c)]),
    lambda p, c: edits.add_screen(p, c(st.one_of(st.none(), NAMES)), c(st.integers(0, 3))),
    lambda p, c: edits.rename_screen(p, _name(c, p.screens), c(NAMES)),
    lambda p, c: edits.duplicate_screen(p, _name(c, p.screens)),
    lambda p, c: edits.delete_screen(p, _name(c, p.screens), with_screen_changes=c(st.booleans())),
    lambda p, c: edits.move_screen(p, _name(c, p.screens), _index(c)),
    lambda p, c: edits.place_screens(p, {_name(c, p.screens): c(st.tuples(st.integers(), st.integers()))}),
    lambda p, c: edits.reorder_ring(p, _name(c, p.screens), _index(c), [screen.name for screen in p.screens]),
    lambda p, c: edits.relink_ring(
        p, _name(c, p.screens), _index(c), [screen.name for screen in p.screens], c(st.lists(NAMES, max_size=2))
    ),
    lambda p, c: edits.lead_key(p, _name(c, p.screens), c(NAMES), _name(c, p.screens)),
    lambda p, c: edits.add_signal(p, HeldSignal(name=c(NAMES), held=c(NUMBERS))),
    lambda p, c: edits.rename_signal(p, _name(c, p.signals), c(NAMES)),
    lambda p, c: edits.change_signal(p, _name(c, p.signals), decimals=c(st.integers(-1, 10)), name=c(NAMES)),
    lambda p, c: _held_instead(p, _index(c), c(NUMBERS)),
    lambda p, c: edits.duplicate_signal(p, _name(c, p.signals)),
    lambda p, c: edits.change_line(p, _name(c, p.lines), name=c(NAMES), timeout_ms=c(st.integers(0, 500))),
    lambda p, c: edits.change_follower(p, _name(c, p.followers), name=c(NAMES), line=_name(c, p.lines)),
    lambda p, c: edits.add_screen_change(p, edits.screen_change(key=c(NAMES), to=_name(c, p.screens)), _index(c)),
    lambda p, c: edits.edit_screen_change(p, _index(c), to=_name(c, p.screens)),
    lambda p, c: edits.delete_screen_change(p, _index(c)),
    lambda p, c: edits.change_action(p, _index(c), signal=_name(c, p.signals)),
    lambda p, c: edits.set_size(p, c(st.integers(0, 8)), c(st.integers(0, 40))),
    lambda p, c: edits.set_keys(p, c(st.lists(NAMES, max_size=4))),
    lambda p, c: edits.rename_key(p, c(NAMES), c(NAMES)),
    lambda p, c: edits.set_start(p, _name(c, p.screens)),
    lambda p, c: edits.set_languages(p, c(st.permutations((*p.panel.languages, c(NAMES))))[: c(st.integers(0, 3))]),
    lambda p, c: edits.rename_language(p, c(NAMES), c(NAMES)),
    lambda p, c: edits.set_message(p, c(st.integers(0, 3)), c(st.sampled_from(MESSAGES)), c(TEXTS)),
    lambda p, c: edits.fill_messages(p, c(st.integers(0, 3)), c(st.dictionaries(st.sampled_from(MESSAGES), TEXTS))),
    lambda p, c: edits.set_title(p, c(TEXTS)),
    lambda p, c: edits.set_notes(p, c(TEXTS)),
    *(
        partial(edit, kind)
        for kind in get_args(ListedKind)
        for edit in (_deleted, _reordered, _shifted, _copied, _exchanged)
    ),
]


@SLOW
@given(projects(), st.data())
def test_any_series_of_edits_can_be_taken_back(first: Project, data: st.DataObject) -> None:
    history = EditHistory(first)
    documents = [first]
    for number in data.draw(st.lists(st.integers(0, len(EDITS) - 1), min_size=10, max_size=25)):
        before = dump(history.project)
        try:
            after = EDITS[number](history.project, data.draw)
        except EditRefused:
            continue
        finally:
            assert dump(history.project) == before, "an edit changed the document it was given"
        assert problems_of_names(after) == []
        if after is not history.project:
            documents.append(after)
        history.record(after, "Edit")
    assert parse(dump(history.project)) == history.project
    for document in reversed(documents):
        assert history.project is document
        history.undo()
    assert history.project is first
    for _ in documents:
        history.redo()
    assert history.project is documents[-1]


@SLOW
@given(projects(), st.data())
def test_a_new_name_reaches_every_use(project: Project, data: st.DataObject) -> None:
    assume(project.signals)
    old = data.draw(st.sampled_from(project.signals)).name
    after = edits.rename_signal(project, old, "quite another")
    assert uses(after, "signal", old) == ()
    assert edits.rename_signal(after, "quite another", old) == project


# Bad files


def _opened_or_refused(content: str | bytes) -> None:
    try:
        project = parse(content)
    except ProjectFileError as error:
        problems = error.problems
    else:
        assert parse(dump(project)) == project
        return
    assert problems
    assert all(problem.message for problem in problems)


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=400))
def test_any_bytes_are_refused_in_words(content: bytes) -> None:
    _opened_or_refused(content)


@settings(max_examples=200, deadline=None)
@given(st.text(st.sampled_from("[]{}=.,\"'\\#\n 01e-+_:TZabμ\x00\r\t"), max_size=200))
def test_any_text_is_refused_in_words(text: str) -> None:
    _opened_or_refused(text)


@cache
def _lines(name: str) -> list[str]:
    path = FORMAT_1 / f"{name}.toml" if name == "every-word" else demo_path(name)
    return path.read_text(encoding="utf-8").splitlines(keepends=True)


# fmt: off
VALUES = st.sampled_from([
    "", "true", "1", "-1", "1.5", "nan", "inf", "1e400", "9e-60", "9" * 60, '"x"', "[]", "[1]", "[[[]]]", "{}",
    "{ a = 1 }", "1979-05-27", "07:32:00", "1979-05-27T07:32:00Z",
    "'''", "# x", '"run"', "[1, 2]", '[1, "a"]', "{ is = 5 }", "[{}]",
])
# fmt: on


@pytest.mark.parametrize("name", [*demos(), "every-word"])
@settings(max_examples=100, deadline=None)
@given(st.data())
def test_a_damaged_project_is_refused_in_words(name: str, data: st.DataObject) -> None:
    lines = list(_lines(name))
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(lines) - 1))
        match data.draw(st.sampled_from(["drop", "double", "swap", "value", "key", "byte"])):
            case "drop":
                lines[at] = ""
            case "double":
                lines[at] *= 2
            case "swap":
                other = data.draw(st.integers(0, len(lines) - 1))
                lines[at], lines[other] = lines[other], lines[at]
            case "value" if " = " in lines[at]:
                lines[at] = f"{lines[at].split(' = ')[0]} = {data.draw(VALUES)}\n"
            case "key":
                lines[at] = lines[at].replace("e", data.draw(st.sampled_from(["", "ee", ".", '"', "[", "\x00"])), 1)
            case "byte":
                cut = data.draw(st.integers(0, len(lines[at])))
                lines[at] = lines[at][:cut] + data.draw(st.characters(codec="utf-8")) + lines[at][cut:]
    _opened_or_refused("".join(lines))


TOML = st.recursive(
    st.one_of(st.booleans(), st.integers(), st.text(max_size=5), NUMBERS, st.just(Decimal("NaN"))),
    lambda inside: st.one_of(
        st.lists(inside, max_size=3),
        st.dictionaries(
            st.sampled_from(
                [
                    "name",
                    "signal",
                    "field",
                    "at",
                    "is",
                    "value",
                    "from",
                    "key",
                    "kind",
                    "bit",
                    "held",
                    "of",
                    "plays",
                    "rule",
                ]
            ),
            inside,
            max_size=4,
        ),
    ),
    max_leaves=12,
)


@settings(max_examples=300, deadline=None)
@given(
    st.dictionaries(
        st.sampled_from(
            ["panel", "line", "follower", "signal", "screen", "screen_change", "turn", "action", "accepted", "x"]
        ),
        st.one_of(TOML, st.lists(TOML, max_size=3)),
        max_size=6,
    ),
    st.one_of(TOML, st.integers(0, FORMAT + 1)),
)
def test_any_tables_are_refused_in_words(tables: dict[str, Any], number: Any) -> None:
    _opened_or_refused(tomli_w.dumps({"format": number, **tables}))
