"""What the page map says to those who do not see it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QCoreApplication

from widgets.design.page_map.arrows import ArrowItem, InletItem, ScreenChangeItem
from widgets.design.page_map.node import Node

translate = QCoreApplication.translate


def map_in_words(nodes: Mapping[str, Node], screen_change_items: Iterable[ScreenChangeItem]) -> str:
    """The map as a whole, where nothing is selected: how much there is, and what findings are about."""
    said = [
        translate("PageMap", "Screens: {screens}. Arrows: {arrows}").format(
            screens=", ".join(nodes) or "0", arrows=sum(1 for _ in screen_change_items)
        )
    ]
    found = [f"{name}: {node.facts.findings_words}" for name, node in nodes.items() if node.facts.findings_words]
    return ". ".join([*said, *found])


def screen_in_words(node: Node, screen_change_items: Iterable[ScreenChangeItem]) -> str:
    """A screen: what is said of it, what leads there from everywhere, and where its own arrows lead."""
    comes, leads = [], []
    for item in screen_change_items:
        if isinstance(item, InletItem) and item.inlet.to == node.name:
            comes.append(item.label)
        elif isinstance(item, ArrowItem) and item.arrow.from_ == node.name:
            leads.append(f"{item.label} \N{RIGHTWARDS ARROW} {item.arrow.to}")
    facts = node.facts
    said = (node.name, *facts.words, facts.ring_words, facts.findings_words, *comes, *leads)
    return "; ".join(part for part in said if part)


def screen_change_in_words(item: ScreenChangeItem) -> str:
    """The current screen change of an arrow or an inlet, and which of how many it is."""
    cause = item.labels[item.current].text
    text = cause
    if isinstance(item, ArrowItem):
        text = translate("PageMap", "Screen change from {from_} to {to}: {cause}").format(
            from_=item.arrow.from_, to=item.arrow.to, cause=cause
        )
    elif isinstance(item, InletItem):
        text = translate("PageMap", "Screen change from every screen to {to}: {cause}").format(
            to=item.inlet.to, cause=cause
        )
    if len(item.labels) > 1:
        text = translate("PageMap", "{screen_change}; {n} of {count} here").format(
            screen_change=text, n=item.current + 1, count=len(item.labels)
        )
    return text
