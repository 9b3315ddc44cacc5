"""Any block of any project, copied and pasted anywhere."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings, strategies as st

from app.edits import Block, EditRefused, cells_of, move_block, paste_cells, paste_screens, screens_of
from app.edits.rows import full_rows
from app.project.history import EditHistory
from app.project.model import Field, Project
from app.project.references import problems_of_names
from app.project_file.files import dump, parse
from tests.fuzz.test_project import projects

SLOW = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


@st.composite
def blocks(draw: st.DrawFn, project: Project) -> Block:
    """A block within the panel, small enough that it often fits elsewhere."""
    panel = project.panel
    rows, columns = draw(st.integers(1, min(3, panel.rows))), draw(st.integers(1, min(12, panel.columns)))
    top = draw(st.integers(0, panel.rows - rows))
    return Block(top, draw(st.integers(0, panel.columns - columns)), rows, columns)


def cells(project: Project, name: str, block: Block) -> list[str]:
    rows = full_rows(project, project.screen_named[name].text)[block.top : block.top + block.rows]
    return [row[block.left : block.left + block.columns] for row in rows]


def fields_in(project: Project, name: str, block: Block) -> list[Field]:
    return [
        field.replace(at=(field.at[0] - block.top, field.at[1] - block.left))
        for field in project.screen_named[name].fields
        if block.holds(field)
    ]


@SLOW
@given(st.data())
def test_pasted_cells_equal_copied_cells_and_undo_brings_the_former_project_back(data: st.DataObject) -> None:
    source = data.draw(projects())
    target = data.draw(st.one_of(st.just(source), projects()))
    name = data.draw(st.sampled_from(sorted(source.screen_named)))
    block = data.draw(blocks(source))
    piece = cells_of(source, name, block)
    assert parse(dump(piece)) == piece
    screen = data.draw(st.sampled_from(sorted(target.screen_named)))
    there = data.draw(blocks(target))
    history = EditHistory(target)
    try:
        after = paste_cells(target, piece, screen, there.top, there.left, renaming=data.draw(st.booleans()))
    except EditRefused:
        return
    pasted = Block(there.top, there.left, block.rows, block.columns)
    assert not problems_of_names(after)
    if target is source:
        assert cells(after, screen, pasted) == cells(source, name, block)
    came, were = fields_in(after, screen, pasted), fields_in(source, name, block)
    assert [(field.at, field.width, field.kind) for field in came[-len(were) :] if were] == [
        (field.at, field.width, field.kind) for field in were
    ]
    history.record(after, "Paste")
    assert history.undo() == target
    assert history.redo() == after


@SLOW
@given(st.data())
def test_a_block_moved_away_and_back_is_where_it_was(data: st.DataObject) -> None:
    project = data.draw(projects())
    name = data.draw(st.sampled_from(sorted(project.screen_named)))
    block = data.draw(blocks(project))
    there = data.draw(blocks(project))
    down, right = there.top - block.top, there.left - block.left
    try:
        after = move_block(project, name, block, down, right)
    except EditRefused:
        return
    characters = "".join(project.screen_named[name].text).replace(" ", "")
    assert sorted("".join(after.screen_named[name].text).replace(" ", "")) == sorted(characters), "no text is lost"
    assert len(after.screen_named[name].fields) == len(project.screen_named[name].fields)
    if not any(block.moved(down, right).touches(field) for field in project.screen_named[name].fields):
        apart = abs(down) >= block.rows or abs(right) >= block.columns
        free = not any(row.strip(" ") for row in cells(project, name, block.moved(down, right)))
        if apart and free:
            back = move_block(after, name, block.moved(down, right), -down, -right)
            assert back.screen_named[name].fields == project.screen_named[name].fields
            assert full_rows(back, back.screen_named[name].text) == full_rows(project, project.screen_named[name].text)


@SLOW
@given(projects(), projects())
def test_screens_go_from_any_project_to_any_other(source: Project, target: Project) -> None:
    piece = screens_of(source, source.screen_named)
    try:
        after = paste_screens(target, piece, renaming=True)
    except EditRefused:
        return
    assert not problems_of_names(after)
    assert len(after.screens) == len(source.screens) + len(target.screens)
    assert after.screens[: len(target.screens)] == target.screens
    assert parse(dump(after)) == after
