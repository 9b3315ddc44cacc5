"""A hand that operates a panel by chance and marks what it sees, and what becomes of that when it is run again."""

from __future__ import annotations

from random import Random

from app.noting.case_notes import CaseNotes
from app.panel.state import Mode
from app.project.model import Project
from app.trial.outcome import CaseOutcome, PersonAsked, Reply
from app.trial.runner import Runner
from app.trial.script import Case, Trial
from app.trial.stand import RehearsedStand

DRIVES = {"booster-pump": "pump", "drying-hall": "fan"}
"""The demos, and the drive of each."""
ORDERS = ("external-fault=on", "external-fault=off", "local=on", "local=off", "jammed=on", "jammed=off")


class Agreeing:
    """A person who says yes to everything."""

    def ask(self, question: PersonAsked) -> None:
        """Nothing is weighed."""

    def answer(self) -> Reply:
        return Reply(True)


class Hand:
    """Operates a stand and has it noted."""

    def __init__(self, stand: RehearsedStand) -> None:
        self.stand = stand
        stand.begin()
        self.notes = CaseNotes(stand.project, stand.panel)

    def wait(self, seconds: float) -> None:
        end = self.stand.now() + seconds
        while self.stand.now() < end:
            self.stand.tick()
            self.notes.look()

    def press(self, *keys: str, hold_s: float = 0.1, then_s: float = 0.1) -> None:
        for key in keys:
            self.notes.key_down(key, lambda key=key: self.stand.key_down(key))  # type: ignore[misc]
            self.wait(hold_s)
            self.notes.key_up(key, lambda key=key: self.stand.key_up(key))  # type: ignore[misc]
            self.wait(then_s)

    def order(self, order: str) -> None:
        self.stand.order(order)
        self.notes.order(order)
        self.wait(0.1)


def operated(project: Project, drive: str, seed: int, deeds: int = 40) -> Case:
    """A case of so many deeds and marks by chance."""
    chance = Random(seed)
    hand = Hand(RehearsedStand(project))
    hand.wait(chance.uniform(0.1, 2))
    for _ in range(deeds):
        what = chance.random()
        if what < 0.15:
            watching = hand.stand.panel.state.mode is Mode.WATCH
            hand.wait(chance.choice((0.5, 2, 8, 30) if watching else (0.5, 2)) * chance.random())
        elif what < 0.22:
            hand.order(f"{drive}.{chance.choice(ORDERS)}")
        elif what < 0.45:
            mark(hand, chance)
        elif hand.stand.panel.state.mode is Mode.WATCH:
            hand.press(chance.choice(project.panel.keys), then_s=chance.choice((0.06, 0.3, 1.5)))
        else:
            key = chance.choice(("up", "down", "left", "right", "enter", "enter", "escape", "stop"))
            hand.press(key, hold_s=chance.choice((0.06, 0.1, 0.1, 1.2, 3.3)))
    hand.wait(0.3)
    return hand.notes.case(f"by chance {seed}")


def mark(hand: Hand, chance: Random) -> None:
    """Mark something that is to be seen."""
    notes, project = hand.notes, hand.stand.project
    wait = chance.random() < 0.2
    match chance.randrange(8):
        case 0:
            notes.mark_screen(wait=wait)
        case 1 | 2 | 3:
            notes.mark_row(chance.randrange(project.panel.rows), wait=wait)
        case 4 | 5 | 6:
            notes.mark_signal(chance.choice(project.signals).name, wait=wait)
        case _:
            notes.ask("Is it so?")


def run_again(case: Case, project: Project) -> CaseOutcome:
    """What becomes of the case from the beginning."""
    return Runner(Trial.model_validate({"case": [case]}), RehearsedStand(project), Agreeing()).run().cases[0]
