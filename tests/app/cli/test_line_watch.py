"""Watching the lines of a session: what is told, what is only counted, and what is said of lines that are down."""

from __future__ import annotations

from itertools import pairwise

from app.cli.line_watch import LineWatch
from app.client.faults import Fault, FaultKind
from app.client.transactions import KEPT_TRANSACTIONS, Transaction
from app.modbus.requests import read_request
from app.project.model import Project
from app.session.session import Session
from tests.staged_follower import Registers, StagedFollower
from tests.waiting import wait_for
from tests.widgets.bench_project import bench_project

READ = read_request(1, "holding", 310, 1)
GOOD = Transaction(
    at=1.0, line="hall", follower="fan", request=READ, sent=READ.rtu, received=READ.rtu, ms=1.0, fault=None
)
SILENT = GOOD._replace(follower="tank", received=b"", fault=Fault(FaultKind.SILENCE, "unit 2 did not answer"))


def quiet_project() -> Project:
    """The project of the bench with nothing to read, so that only what a test puts into the log is there."""
    project = bench_project()
    return project.replace(signals=(), screens=(project.screens[0].replace(fields=()),), screen_changes=(), actions=())


def test_what_is_new_is_told_once_with_its_bytes_explained() -> None:
    with Session(quiet_project(), "simulated") as session:
        watch = LineWatch(session)
        session.engine.transactions.append(GOOD)
        (told,) = watch.look().transactions
        assert told.transaction is GOOD
        assert told.sent.data == READ.rtu
        assert watch.look().transactions == ()
        assert watch.requests == 1


def test_what_fell_out_of_the_log_is_counted() -> None:
    with Session(quiet_project(), "simulated") as session:
        watch = LineWatch(session)
        for _ in range(KEPT_TRANSACTIONS + 7):
            session.engine.transactions.append(GOOD)
        look = watch.look()
        assert (len(look.transactions), look.missed) == (KEPT_TRANSACTIONS, 7)
        assert watch.look().missed == 0


def test_one_follower_and_faults_only() -> None:
    with Session(quiet_project(), "simulated") as session:
        fan, tank = LineWatch(session, follower="fan"), LineWatch(session, follower="tank")
        faults = LineWatch(session, faults_only=True)
        for each in (GOOD, SILENT, GOOD):
            session.engine.transactions.append(each)
        assert [told.transaction for told in fan.look().transactions] == [GOOD, GOOD]
        assert [told.transaction for told in tank.look().transactions] == [SILENT]
        assert [told.transaction for told in faults.look().transactions] == [SILENT]
        assert (faults.requests, faults.faults) == (3, {FaultKind.SILENCE: 1})
        ((state, figures),) = faults.figures()
        assert state.name == "hall"
        assert figures.transactions == 3


def test_a_line_that_goes_down_and_comes_back_is_told_each_time_once() -> None:
    with StagedFollower("tcp", Registers()) as follower, Session(bench_project(), follower.endpoint) as session:
        watch = LineWatch(session)
        wait_for(lambda: session.snapshot().lines["hall"].connected)
        assert watch.look().lines == ()
        follower.stop()
        told: list[tuple[str, str]] = []

        def listen() -> list[tuple[str, str]]:
            told.extend(watch.look().lines)
            return told

        wait_for(lambda: any("connection to port" in reason for _, reason in listen()))
        follower.start()
        wait_for(lambda: listen()[-1] == ("hall", ""))
        assert all(before != after for before, after in pairwise(told))
