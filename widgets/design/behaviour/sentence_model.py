"""The sentences in their groups: those of a screen, those of every screen, those that need no key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final, Literal, NamedTuple

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QPersistentModelIndex, Qt

from app.checks.by_part import FindingsByPart
from app.project.model import Project
from widgets.design.behaviour.rule_edits import RuleEdits, RulePlace
from widgets.design.behaviour.sentences import SentencePart, sentence, text_of
from widgets.document.unfinished import BehaviourRule, RuleKind, lacking
from widgets.kit.fuzzy_match import folded
from widgets.kit.plain import plain_tip

GroupKind = Literal["screen", "every", "without"]
_ROOT: Final = QModelIndex()
_TOP: Final = 0
"""The internal number of groups; that of a sentence is the one of its group and 1."""
_FLAGS: Final = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren


class SentenceRow(NamedTuple):
    """A sentence: where its rule stands, and the rule as it is shown."""

    kind: RuleKind
    at: int
    rule: BehaviourRule

    @property
    def place(self) -> RulePlace:
        """Where it stands."""
        return self.kind, self.at


@dataclass
class SentenceGroup:
    """Sentences under one heading. `screen` is that of a group of a screen."""

    kind: GroupKind
    screen: str = ""
    rows: list[SentenceRow] = field(default_factory=list)

    @property
    def key(self) -> tuple[GroupKind, str]:
        """What tells it from others."""
        return self.kind, self.screen


def group_of(rule: BehaviourRule) -> tuple[GroupKind, str]:
    """Where a rule is shown."""
    if rule.from_ is not None:
        return "screen", rule.from_
    return ("every", "") if rule.key is not None else ("without", "")


class SentenceModel(QAbstractItemModel):
    """Groups with their sentences. A change tells of the rows that are other ones now, so the view stays as it is."""

    def __init__(self, edits: RuleEdits) -> None:
        super().__init__()
        self.edits = edits
        self.groups: list[SentenceGroup] = []
        self._found = FindingsByPart()
        self._wanted = ""
        self._screen: str | None = None
        self._texts: dict[int, tuple[BehaviourRule, str]] = {}
        """The sentence of each rule as it was last sought in."""
        self._overrides: list[int] = []
        self.count = 0
        """How many sentences there are, shown or not."""

    @property
    def project(self) -> Project:
        """The project as it is now."""
        return self.edits.project

    # What is shown

    def show(self, found: FindingsByPart, screen: str | None, wanted: str) -> None:
        """Show what there is now: all, or what counts on one `screen`; only sentences with the words `wanted`."""
        self._found, self._screen, self._wanted = found, screen, wanted
        self._overrides = [at for at, each in enumerate(self.project.screen_changes) if each.when is not None]
        now = self._group()
        before = [group.key for group in self.groups]
        if before != [group.key for group in now]:
            self.beginResetModel()
            self.groups = now
            self.endResetModel()
            return
        for at, (old, new) in enumerate(zip(self.groups, now, strict=True)):
            self._bring_up(at, old, new)

    def _bring_up(self, at: int, old: SentenceGroup, new: SentenceGroup) -> None:
        parent = self.index(at, 0)
        before, after = old.rows, new.rows
        less, more = len(before), len(after)
        if less == more:
            old.rows = after
            for number, (one, other) in enumerate(zip(before, after, strict=True)):
                if one.rule is not other.rule:
                    place = self.index(number, 0, parent)
                    self.dataChanged.emit(place, place)
            return
        # One row more or less stands where the first differs: what is below it keeps its place in the view.
        pairs = enumerate(zip(before, after, strict=False))
        first = next((number for number, (one, other) in pairs if one.rule is not other.rule), min(less, more))
        if more > less:
            self.beginInsertRows(parent, first, first + more - less - 1)
            old.rows = after
            self.endInsertRows()
        else:
            self.beginRemoveRows(parent, first, first + less - more - 1)
            old.rows = after
            self.endRemoveRows()

    def _group(self) -> list[SentenceGroup]:
        found: dict[tuple[GroupKind, str], SentenceGroup] = {}
        names = self.project.screen_named if self._screen is None else (self._screen,)
        for name in names:
            found["screen", name] = SentenceGroup("screen", name)
        every, without = SentenceGroup("every"), SentenceGroup("without")
        found[every.key], found[without.key] = every, without
        words = folded(self._wanted).split()
        self.count = 0
        kinds: tuple[RuleKind, RuleKind] = ("screen_change", "action")
        for kind in kinds:
            for index, rule in enumerate(self.edits.rules(kind)):
                self.count += 1
                key = group_of(rule)
                group = found.get(key)
                if group is None:
                    if self._screen is not None:
                        continue
                    group = found[key] = SentenceGroup(*key)  # of a screen that is gone
                if not words or all(word in self._sought_in(rule) for word in words):
                    group.rows.append(SentenceRow(kind, index, rule))
        groups = [group for group in found.values() if group.kind == "screen"]
        if self._screen is None or words:
            groups = [group for group in groups if group.rows]
        return [*groups, every, without]

    def _sought_in(self, rule: BehaviourRule) -> str:
        known = self._texts.get(id(rule))
        if known is None or known[0] is not rule:
            forms = (text_of(sentence(self.project, rule, whole=whole)) for whole in (False, True))
            text = folded(" ".join(forms))
            if len(self._texts) > 4 * self.count + 1_000:
                self._texts.clear()
            known = self._texts[id(rule)] = (rule, text)
        return known[1]

    def row(self, index: QModelIndex | QPersistentModelIndex) -> SentenceRow | None:
        """The sentence at an index; None for a group."""
        if not index.isValid() or index.internalId() == _TOP:
            return None
        group = self.groups[index.internalId() - 1]
        return group.rows[index.row()] if index.row() < len(group.rows) else None

    def group(self, index: QModelIndex | QPersistentModelIndex) -> SentenceGroup:
        """The group at an index, or that of the sentence there."""
        return self.groups[index.row() if index.internalId() == _TOP else index.internalId() - 1]

    def index_of(self, place: RulePlace) -> QModelIndex:
        """Where a rule is shown; not valid if it is not."""
        rule = self.edits.rule(place)
        if rule is not None:
            key = group_of(rule)
            for at, group in enumerate(self.groups):
                if group.key == key:
                    for number, row in enumerate(group.rows):
                        if row.at == place[1] and row.kind == place[0]:
                            return self.index(number, 0, self.index(at, 0))
        return QModelIndex()

    def pieces(self, row: SentenceRow) -> list[SentencePart]:
        """The sentence of a row."""
        return sentence(self.project, row.rule)

    def note(self, row: SentenceRow) -> tuple[str, str]:
        """What is to be said of a row, and its state: `fault`, `caution` or `note`."""
        if self.edits.begun.keeps(row.rule):
            if self.edits.begun.is_new(row.rule):
                return self.tr("not complete: has no effect yet"), "caution"
            return self.tr("not complete: acts as before"), "caution"
        for finding in self._found.about(row.kind, row.at):
            if finding.severity != "note":
                return finding.message, "fault" if finding.severity == "error" else "caution"
        if row.kind == "screen_change" and len(self._overrides) > 1 and row.at == self._overrides[0]:
            return self.tr("before all others"), "note"
        return "", ""

    def title(self, group: SentenceGroup) -> str:
        """The heading of a group."""
        if group.kind == "screen":
            return self.tr("On screen {name}").format(name=group.screen)
        return self.tr("On every screen") if group.kind == "every" else self.tr("Without a key")

    # For the view

    def index(self, row: int, column: int, parent: QModelIndex | QPersistentModelIndex = _ROOT) -> QModelIndex:
        if not parent.isValid():
            return self.createIndex(row, column, _TOP) if 0 <= row < len(self.groups) else QModelIndex()
        if parent.internalId() != _TOP or not 0 <= row < len(self.groups[parent.row()].rows):
            return QModelIndex()
        return self.createIndex(row, column, parent.row() + 1)

    def parent(self, index: QModelIndex | QPersistentModelIndex = _ROOT) -> QModelIndex:  # type: ignore[override]
        if not index.isValid() or index.internalId() == _TOP:
            return QModelIndex()
        return self.createIndex(index.internalId() - 1, 0, _TOP)

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex = _ROOT) -> int:
        if not parent.isValid():
            return len(self.groups)
        return len(self.groups[parent.row()].rows) if parent.internalId() == _TOP else 0

    def columnCount(self, _parent: QModelIndex | QPersistentModelIndex = _ROOT) -> int:
        return 1

    def hasChildren(self, parent: QModelIndex | QPersistentModelIndex = _ROOT) -> bool:
        return self.rowCount(parent) > 0

    def flags(self, index: QModelIndex | QPersistentModelIndex) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled if index.internalId() == _TOP else _FLAGS

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role not in (
            Qt.ItemDataRole.DisplayRole,
            Qt.ItemDataRole.AccessibleTextRole,
            Qt.ItemDataRole.ToolTipRole,
        ):
            return None
        row = self.row(index)
        if row is None:
            return self._group_text(self.group(index), role)
        text = text_of(self.pieces(row))
        if role == Qt.ItemDataRole.DisplayRole:
            return text
        parts = [text, self.note(row)[0]]
        if self.edits.begun.keeps(row.rule):
            parts.append(self.tr("missing: {what}").format(what=", ".join(lacking(row.rule))))
        whole = ". ".join(part for part in parts if part)
        return plain_tip(whole) if role == Qt.ItemDataRole.ToolTipRole else whole

    def _group_text(self, group: SentenceGroup, role: int) -> str | None:
        if role == Qt.ItemDataRole.ToolTipRole:
            return None
        title = self.title(group)
        if role == Qt.ItemDataRole.DisplayRole:
            return title
        return self.tr("{title}, {count}. Insert adds a sentence").format(title=title, count=len(group.rows))

    def counting(self, place: RulePlace) -> Sequence[RulePlace]:
        """The rules whose order among one another counts for the one at a place, in the order they are shown."""
        rule = self.edits.rule(place)
        if rule is None:
            return ()
        key = group_of(rule)
        return [row.place for group in self.groups if group.key == key for row in group.rows if row.kind == place[0]]
