"""The check of frames in RTU framing, apart from everything that makes requests."""

from __future__ import annotations

from typing import Final


def _table() -> tuple[int, ...]:
    found = []
    for byte in range(256):
        for _ in range(8):
            byte = byte >> 1 ^ (0xA001 if byte & 1 else 0)
        found.append(byte)
    return tuple(found)


_TABLE: Final = _table()


def crc(data: bytes) -> int:
    """CRC-16/MODBUS of the bytes, 0..65535; its low byte goes first on the wire (V1.02, section 6.2.2, from memory)."""
    value = 0xFFFF
    for byte in data:
        value = value >> 8 ^ _TABLE[(value ^ byte) & 0xFF]
    return value


def crc_fits(frame: bytes) -> bool:
    """Whether the last two bytes of an RTU frame are the CRC of the others."""
    return crc(frame) == 0
