"""The check of RTU frames, against the catalogue's check value and pymodbus's own."""

from __future__ import annotations

import random

from pymodbus.framer import FramerRTU

from app.modbus.crc import crc, crc_fits


def test_check_value() -> None:
    # Catalogue of parametrised CRC algorithms, CRC-16/MODBUS: check 0x4B37.
    assert crc(b"123456789") == 0x4B37
    assert crc_fits(b"123456789\x37\x4b")
    assert not crc_fits(b"123456789\x4b\x37")


def test_agrees_with_pymodbus() -> None:
    chance = random.Random(1)
    for _ in range(300):
        data = chance.randbytes(chance.randrange(1, 254))
        # pymodbus gives the two bytes in the order of the wire.
        assert crc(data).to_bytes(2, "little") == FramerRTU.compute_CRC(data).to_bytes(2, "big")
