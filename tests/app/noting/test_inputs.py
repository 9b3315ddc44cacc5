"""What is done to simulated devices becomes orders that do the same to others."""

from __future__ import annotations

from app.follower.operate import operate
from app.follower.simulation import Simulation
from app.noting.inputs import InputsWatched
from tests.builders import demo


def test_what_a_person_does_is_told_once_as_an_order_that_does_the_same() -> None:
    project = demo("booster-pump")
    models, others = Simulation(project).models, Simulation(project).models
    watched = InputsWatched(models)
    assert watched.orders() == ()
    deeds = ("pump.jammed=on", "pump.supply=60", "pump.local=on", "pump.preset=2", "pump.silent=on")
    for deed in deeds:
        operate(models, deed)
    orders = watched.orders()
    assert set(orders) == set(deeds)
    assert watched.orders() == ()
    again = InputsWatched(others)
    for order in orders:
        operate(others, order)
    assert set(again.orders()) == set(deeds)


def test_what_is_undone_is_told_too() -> None:
    models = Simulation(demo("booster-pump")).models
    operate(models, "pump.external-fault=on")
    watched = InputsWatched(models)
    operate(models, "pump.external-fault=off")
    assert watched.orders() == ("pump.external-fault=off",)
