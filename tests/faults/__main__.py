"""Stages all faults and prints the table of what came of them, as it stands in README.md."""

# ruff: noqa: T201 - a command
from __future__ import annotations

import argparse
import os
import sys
import time
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor

from tests.faults.flips import FLIPPED, Flips, disturbed_line, worst_damage
from tests.faults.repeats import doubled_line, doublings
from tests.faults.stage import RECOVERS_WITHIN, Outcome, staged
from tests.faults.table import ALL, FAULTS, FRAMINGS, RTU, TIMEOUT_MS, StagedFault

AT_ONCE = 4
LINES_WITH_FLIPS = 24
"""Disturbed lines that run at the same time; each waits for most of its time."""
WORST_FRAMES = 1_000_000

_HERE = [framing for framing in ALL if framing != "serial" or os.name == "posix"]


def main() -> int:
    """Exit status 1 if anything was not as demanded."""
    ask = argparse.ArgumentParser(prog="python -m tests.faults", description=__doc__)
    ask.add_argument("--only", metavar="WORD", default="", help="faults with this word in their name")
    ask.add_argument(
        "--flips", metavar="N", type=int, default=0, help="instead: N transactions on lines with flipped bits"
    )
    ask.add_argument(
        "--repeats", metavar="N", type=int, default=0, help="instead: N transactions on lines whose answers come twice"
    )
    arguments = ask.parse_args()
    if arguments.repeats:
        return repeats(arguments.repeats)
    return flips(arguments.flips) if arguments.flips else faults(arguments.only)


def faults(only: str) -> int:
    """Print one row a fault; what was not as demanded goes to standard error."""
    chosen = [fault for fault in FAULTS if only in fault.name]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        futures = [[pool.submit(staged, fault, at) for at in fault.framings if at in _HERE] for fault in chosen]
        outcomes = [[future.result() for future in row] for row in futures]
    print("| fault | framings | named as | wrong values | recovered after |")
    print("| --- | --- | --- | --- | --- |")
    for fault, row in zip(chosen, outcomes, strict=True):
        if row:
            print(_row(fault, row))
    values = sum(outcome.values for row in outcomes for outcome in row)
    wrong = sum(len(outcome.wrong) for row in outcomes for outcome in row)
    print(
        f"\n{values} values read in {sum(map(len, outcomes))} stagings, {wrong} of them wrong. "
        f"Recovery is counted in time-outs of {TIMEOUT_MS} ms from the end of the fault until every signal had a new "
        f"value, the slowest framing of each row; {RECOVERS_WITHIN:.0f} are allowed."
    )
    bad = [outcome for row in outcomes for outcome in row if outcome.problems or outcome.wrong]
    for outcome in bad:
        for text in (*outcome.wrong, *outcome.problems):
            print(f"{outcome.fault.name}, {FRAMINGS[outcome.framing]}: {text}", file=sys.stderr)
    return 1 if bad else 0


def _row(fault: StagedFault, outcomes: Sequence[Outcome]) -> str:
    framings = "all" if fault.framings == ALL else ", ".join(FRAMINGS[outcome.framing] for outcome in outcomes)
    kinds: Counter[str] = Counter()
    for outcome in outcomes:
        kinds.update({str(kind): count for kind, count in outcome.kinds.items()})
    main = str(fault.named) if fault.named else ""
    others = [kind for kind, _ in kinds.most_common() if kind != main]
    named = (main if main in kinds else "") + (f" (also {', '.join(others)})" if others else "")
    wrong = sum(len(outcome.wrong) for outcome in outcomes)
    values = sum(outcome.values for outcome in outcomes)
    times = [outcome.recovered for outcome in outcomes]
    if fault.named is None:
        recovered = "nothing failed" if not kinds else "went on"
    elif None in times:
        recovered = "never"
    else:
        recovered = f"{max(time or 0 for time in times):.1f}"
    return f"| {fault.name} | {framings} | {named.strip() or '-'} | {wrong} of {values} | {recovered} |"


def flips(transactions: int) -> int:
    """Print what came of so many transactions on lines with flipped bits, and of frames damaged at the guard."""
    framings = [framing for framing in RTU if framing in _HERE]
    kinds = [(framing, noise) for framing in framings for noise in (False, True)]
    each = max(1, LINES_WITH_FLIPS // len(kinds))
    began = time.monotonic()
    with ThreadPoolExecutor(each * len(kinds)) as pool:
        futures = [
            pool.submit(disturbed_line, *kind[:1], -(-transactions // (each * len(kinds))), seed, noise=kind[1])
            for seed, kind in enumerate(kinds * each)
        ]
        runs = [future.result() for future in futures]
    print(f"{FLIPPED:.0%} of all bits flipped, in requests and answers:\n")
    print("| framing | noise ahead | transactions | frames damaged | values read | wrong | bound |")
    print("| --- | --- | --- | --- | --- | --- | --- |")
    total = Flips("both", noise=False)
    for framing, noise in kinds:
        part = Flips(framing, noise)
        for one in (one for one in runs if (one.framing, one.noise) == (framing, noise)):
            for whole in (part, total):
                whole.transactions += one.transactions
                whole.damaged_requests += one.damaged_requests
                whole.damaged_answers += one.damaged_answers
                whole.values += one.values
                whole.wrong += one.wrong
                whole.kinds += one.kinds
        print(f"| {FRAMINGS[framing]} | {'three bytes' if noise else 'none'} | {_counts(part)} |")
    print(f"| both | both | {_counts(total)} |\n")
    print("Named: " + ", ".join(f"{kind} {count}" for kind, count in total.kinds.most_common()) + ".\n")
    passed = worst_damage(WORST_FRAMES, seed=1)
    print(
        f"Of {passed.frames} answers with a right head and all else by chance, {passed.by_crc} passed their CRC "
        f"({passed.bound:.1f} expected); the guard let {passed.by_guard} pass, and behind three bytes of noise "
        f"{passed.by_guard_after_noise}."
    )
    print(f"It took {time.monotonic() - began:.0f} s.", file=sys.stderr)
    for text in total.wrong:
        print(text, file=sys.stderr)
    raised = max(passed.by_guard, passed.by_guard_after_noise) > passed.by_crc
    return 1 if raised or len(total.wrong) > max(1, total.bound) else 0


def repeats(transactions: int) -> int:
    """Print what came of so many transactions on lines whose answers come twice, each kind with its share of them."""
    kinds = doublings()
    # Where every answer is doubted few requests go out: a tenth of the others' share is enough there.
    weights = [1 if kind.second or kind.tight else 10 for kind in kinds]
    shares = [-(-transactions * weight // sum(weights)) for weight in weights]
    print("| second answers | on | transactions | unasked answers | good samples | wrong | samples a second |")
    print("| --- | --- | --- | --- | --- | --- | --- |", flush=True)
    asked = samples = 0
    wrong: list[str] = []
    with ThreadPoolExecutor(AT_ONCE) as pool:
        for one in pool.map(doubled_line, kinds, shares, range(len(kinds))):
            counts = f"{one.transactions} | {sum(one.faults.values())} | {one.samples} | {len(one.wrong)}"
            where = "a pty" if one.doubling.pty else "TCP"
            print(f"| {one.doubling.name} | {where} | {counts} | {one.samples / one.seconds:.0f} |", flush=True)
            asked, samples = asked + one.transactions, samples + one.samples
            wrong += one.wrong
    print(f"\n{asked} transactions, {samples} good samples, {len(wrong)} of them wrong.")
    for text in wrong:
        print(text, file=sys.stderr)
    return 1 if wrong else 0


def _counts(flips: Flips) -> str:
    damaged = flips.damaged_requests + flips.damaged_answers
    return f"{flips.transactions} | {damaged} | {flips.values} | {len(flips.wrong)} | {flips.bound:.2f}"


if __name__ == "__main__":
    sys.exit(main())
