"""Every reading handed on as it arrives, with the registers that it was made of."""

from __future__ import annotations

from app.client.endpoint import Endpoint
from app.follower.simulation import Simulation
from app.line.engine import Engine
from app.line.samples import Sample, SampleBus
from app.project_file.files import parse
from app.signals.reading import NEVER_READ, Quality
from tests.waiting import wait_for

PROJECT = """\
format = 2

[panel]
start = "run"

[[line]]
name = "l"
kind = "tcp"
host = "127.0.0.1"
timeout_ms = 100

[[follower]]
name = "f"
line = "l"

[[signal]]
name = "wide"
follower = "f"
register = 1
encoding = "int32"
every_ms = 20
start_value = -2

[[signal]]
name = "coil"
follower = "f"
table = "coil"
register = 1
every_ms = 20
start_value = 1

[[screen]]
name = "run"
"""


def test_who_subscribes_gets_what_comes_from_then_on_and_only_once() -> None:
    bus = SampleBus()
    assert not bus.wanted
    bus.put("a", 1.0, (1,), NEVER_READ)
    one, other = bus.subscribe(), bus.subscribe()
    assert bus.wanted
    bus.put("b", 2.0, [7, 8], NEVER_READ)
    assert one.take() == [Sample("b", 2.0, (7, 8), NEVER_READ)]
    assert one.take() == []
    one.close()
    one.close()
    bus.put("c", 3.0, (), NEVER_READ)
    assert one.take() == []
    assert [sample.signal for sample in other.take()] == ["b", "c"]


def test_what_nobody_fetches_is_counted_as_lost() -> None:
    bus = SampleBus()
    subscription = bus.subscribe(keep=3)
    for number in range(5):
        bus.put("a", float(number), (number,), NEVER_READ)
    assert subscription.lost == 2
    assert [sample.at for sample in subscription.take()] == [2.0, 3.0, 4.0]


def test_the_engine_hands_on_each_read_and_each_loss() -> None:
    project = parse(PROJECT)
    with Simulation(project) as simulation:
        host, port = simulation.serve_tcp("l", "127.0.0.1", 0)
        engine = Engine(project, {"l": Endpoint.tcp(host, port, timeout_ms=100)})
        subscription = engine.samples.subscribe()
        engine.start()
        try:
            seen: list[Sample] = []

            def counted(name: str) -> int:
                seen.extend(subscription.take())
                return sum(sample.signal == name and sample.reading.good for sample in seen)

            wait_for(lambda: counted("wide") >= 5 and counted("coil") >= 5)
            assert {sample.words for sample in seen if sample.signal == "wide" and sample.reading.good} == {
                (0xFFFF, 0xFFFE)
            }
            assert {sample.words for sample in seen if sample.signal == "coil" and sample.reading.good} == {(1,)}
            times = [sample.at for sample in seen if sample.signal == "wide"]
            assert times == sorted(times)
            simulation.models["f"].silent = True
            seen.clear()
            wait_for(lambda: counted("x") or {s.signal for s in seen if not s.reading.good} == {"wide", "coil"})
            lost = [sample for sample in seen if not sample.reading.good]
            assert {(sample.words, sample.reading.quality) for sample in lost} == {((), Quality.STALE)}
            assert len(lost) == 2, "a loss is told once, not at every failed read"
        finally:
            engine.stop()
