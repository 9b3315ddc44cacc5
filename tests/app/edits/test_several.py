"""Several parts at once: replaced with their names exchanged, deleted together, put into another order."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

import pytest
from hypothesis import given, strategies as st

from app.edits import EditRefused
from app.edits.several import delete_parts, order_parts, parts_of, put_parts, shifted_order
from app.project.model import BitSignal, HeldSignal, Project, RegisterSignal
from app.project.references import dangling, use_counts, uses
from tests.big_project import big_project


def source_of_bit(project: Project, index: int) -> str:
    signal = project.signals[index]
    assert isinstance(signal, BitSignal)
    return signal.bit.of


def test_two_signals_exchange_their_names_and_their_uses_follow(project: Project) -> None:
    speed, command = project.signals[:2]
    after = put_parts(project, "signal", {0: speed.replace(name="command"), 1: command.replace(name="speed")})
    assert [part.name for part in after.signals[:2]] == ["command", "speed"]
    assert after.screens[0].fields[0].signal == "command"
    assert source_of_bit(after, 2) == "speed", "the bit follows the word it is taken of"
    assert not dangling(after)


def test_a_bit_changed_together_with_the_name_of_its_word(project: Project) -> None:
    command, running = project.signals[1:3]
    assert isinstance(running, BitSignal)
    after = put_parts(project, "signal", {1: command.replace(name="control"), 2: running.replace(unit="x")})
    assert source_of_bit(after, 2) == "control"
    given_anew = running.replace(bit=running.bit.replace(of="speed", number=3))
    after = put_parts(project, "signal", {1: command.replace(name="control"), 2: given_anew})
    assert source_of_bit(after, 2) == "speed"


def test_what_is_added_and_replaced_in_one_step(project: Project) -> None:
    new = HeldSignal(name="spare", held=Decimal(2))
    after = put_parts(project, "signal", {4: project.signals[4].replace(name="old spare")}, [new])
    assert [part.name for part in after.signals][-2:] == ["old spare", "spare"]
    assert after.signals[0] is project.signals[0]


def test_nothing_new_is_the_same_project(project: Project) -> None:
    assert put_parts(project, "signal", {0: project.signals[0].replace()}) is project
    assert order_parts(project, "signal", range(5)) is project
    assert delete_parts(project, "signal", []) is project


def test_what_cannot_be_put(project: Project) -> None:
    speed, command, running, preset, _ = project.signals
    for parts, words in (
        ({0: speed.replace(name="command")}, "there is already a signal 'command'"),
        ({0: speed.replace(name="x"), 1: command.replace(name="x")}, "there is already a signal 'x'"),
        ({0: speed.replace(follower="fun")}, "device 'fun' does not exist; did you mean 'fan'"),
        ({9: speed}, "there is no signal 10; there are 5"),
        ({3: speed.replace(name="preset")}, "signal 'preset' is not a held value"),
        ({1: running.replace(name="command")}, "signal 'command' is itself a bit"),
    ):
        with pytest.raises(EditRefused, match=words):
            put_parts(project, "signal", parts)
    with pytest.raises(EditRefused, match="line 'hail' does not exist"):
        put_parts(project, "follower", {0: project.followers[0].replace(line="hail")})
    with pytest.raises(EditRefused, match="there is already a signal 'preset'"):
        put_parts(project, "signal", {}, [preset])
    with pytest.raises(EditRefused, match="screen 'rnu' does not exist"):
        put_parts(project, "screen_change", {0: project.screen_changes[0].replace(to="rnu")})
    with pytest.raises(EditRefused, match="key 'f1' does not exist"):
        put_parts(project, "action", {}, [project.actions[1].replace(key="f1")])


def test_a_word_and_its_bits_are_deleted_together(project: Project) -> None:
    with pytest.raises(EditRefused, match="signal 'command' cannot be deleted: it is used by signal 'running'"):
        delete_parts(project, "signal", [1])
    unused = project.replace(screens=(), screen_changes=(), actions=())
    assert [part.name for part in delete_parts(unused, "signal", [1, 2]).signals] == ["speed", "preset", "spare"]
    with pytest.raises(EditRefused, match="'speed', 'running' cannot be deleted: they are used by screen 'run', field"):
        delete_parts(project, "signal", [0, 1, 2])
    assert len(delete_parts(project, "screen_change", [0, 2]).screen_changes) == 1


def test_another_order(project: Project) -> None:
    after = order_parts(project, "signal", [4, 3, 2, 1, 0])
    assert after.signals == tuple(reversed(project.signals))
    with pytest.raises(EditRefused, match="every part once"):
        order_parts(project, "signal", [0, 0, 1, 2, 3])


@given(st.integers(0, 12), st.sets(st.integers(0, 11)), st.sampled_from([-1, 1]))
def test_shifting_moves_each_by_one_place_at_most(count: int, chosen: set[int], way: Literal[-1, 1]) -> None:
    chosen = {index for index in chosen if index < count}
    order = shifted_order(count, chosen, way)
    assert sorted(order) == list(range(count))
    for index in chosen:
        assert order.index(index) - index in (0, way)
    assert [index for index in order if index in chosen] == sorted(chosen)
    assert [index for index in order if index not in chosen] == [n for n in range(count) if n not in chosen]
    stuck = [index for index in chosen if order.index(index) == index]
    edge = sorted(chosen) if way < 0 else sorted(chosen, reverse=True)
    assert set(stuck) == set(edge[: len(stuck)]), "only what stands at the edge, or behind such, stays"


BIG = big_project(screens=12, signals=60)
CHANGES = st.dictionaries(
    st.integers(0, 59),
    st.fixed_dictionaries(
        {},
        optional={
            "name": st.sampled_from([f"signal {n}" for n in range(60)] + ["a", "b", "c"]),
            "unit": st.sampled_from(["", "Hz", "m/s"]),
            "decimals": st.integers(0, 3),
        },
    ),
    max_size=8,
)


@given(CHANGES)
def test_any_bulk_change_leaves_every_name_leading_where_it_led(changes: dict[int, dict[str, object]]) -> None:
    parts = {index: BIG.signals[index].replace(**new) for index, new in changes.items()}
    before = use_counts(BIG, "signal")
    names = [parts.get(n, part).name for n, part in enumerate(BIG.signals)]
    if len(set(names)) < len(names):
        with pytest.raises(EditRefused, match="already"):
            put_parts(BIG, "signal", parts)
        return
    after = put_parts(BIG, "signal", parts)
    assert not dangling(after)
    counts = use_counts(after, "signal")
    for old, new in zip(BIG.signals, after.signals, strict=True):
        assert counts[new.name] == before[old.name]
        if isinstance(old, BitSignal) and isinstance(new, BitSignal):
            place = [part.name for part in BIG.signals].index(old.bit.of)
            assert new.bit.of == after.signals[place].name
    for index, part in enumerate(after.signals):
        if index not in parts and not isinstance(part, BitSignal):
            assert part is BIG.signals[index]


@given(st.sets(st.integers(0, 59), max_size=10))
def test_any_deletion_is_refused_or_leaves_nothing_dangling(indices: set[int]) -> None:
    found = [use for index in indices for use in uses(BIG, "signal", BIG.signals[index].name)]
    staying = {use for use in found if use.place[0] != "signal" or use.place[1] not in indices}
    if staying:
        with pytest.raises(EditRefused) as refused:
            delete_parts(BIG, "signal", indices)
        assert set(refused.value.uses) == staying
        return
    after = delete_parts(BIG, "signal", indices)
    assert not dangling(after)
    assert len(after.signals) == 60 - len(indices)


def test_the_lists_of_all_kinds(project: Project) -> None:
    assert parts_of(project, "line") is project.lines
    assert parts_of(project, "action") is project.actions
    assert isinstance(parts_of(project, "signal")[0], RegisterSignal)
