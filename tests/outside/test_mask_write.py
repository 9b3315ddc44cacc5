"""The masks that write one bit of a register, against the formula of function code 22.

Source: MODBUS Application Protocol Specification V1.1b3, section 6.16 mask write register (from memory): result =
(current AND and-mask) OR (or-mask AND NOT and-mask); its example: 12h with F2h and 25h becomes 17h.
"""

from __future__ import annotations

import random

import pytest

from app.project.binding import bind
from app.project.model import Project
from app.signals.order import WordOrder


def mask_write(current: int, and_mask: int, or_mask: int) -> int:
    return (current & and_mask) | (or_mask & ~and_mask)


def test_the_example_of_the_specification() -> None:
    assert mask_write(0x12, 0xF2, 0x25) == 0x17


@pytest.mark.parametrize("word_order", ["high-first", "low-first"])
@pytest.mark.parametrize("byte_order", ["high-first", "low-first"])
@pytest.mark.parametrize("encoding", ["uint16", "int16", "uint32", "int64"])
def test_the_masks_change_the_one_bit_of_the_value(encoding: str, word_order: WordOrder, byte_order: WordOrder) -> None:
    chance = random.Random(22)
    width = int(encoding.lstrip("uint"))
    project = Project.model_validate(
        {
            "panel": {"start": "run"},
            "follower": [{"name": "pump", "line": "a", "word_order": word_order, "byte_order": byte_order}],
            "signal": [
                {"name": "word", "follower": "pump", "register": 300, "encoding": encoding},
                *({"name": str(bit), "bit": {"of": "word", "number": bit}} for bit in range(width)),
            ],
        }
    )
    whole = bind(project, "word")
    for bit in range(width):
        registers = [chance.randrange(65_536) for _ in range(width // 16)]
        before = int(whole.decode(registers)[0])
        for state in (0, 1):
            address, and_mask, or_mask = bind(project, str(bit)).mask_write(state)
            written = list(registers)
            written[address - 300] = mask_write(written[address - 300], and_mask, or_mask)
            after = int(whole.decode(written)[0])
            assert after >> bit & 1 == state
            assert (after ^ before) & ~(1 << bit) in (0, -(1 << width)), "another bit of the value changed"
            assert bind(project, str(bit)).encode(state, registers) == tuple(written)
