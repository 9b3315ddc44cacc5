"""What single bytes of a frame say, in words."""

from __future__ import annotations

from typing import Final

from pymodbus.framer import FramerRTU

from app.client.faults import EXCEPTIONS, bytes_text, code_text, exception_text
from app.language import mark, translate

FUNCTIONS: Final = {
    1: mark("bus", "read coils"),
    2: mark("bus", "read discrete inputs"),
    3: mark("bus", "read holding registers"),
    4: mark("bus", "read input registers"),
    5: mark("bus", "write single coil"),
    6: mark("bus", "write single register"),
    7: mark("bus", "read exception status"),
    8: mark("bus", "diagnostics"),
    11: mark("bus", "read event counter"),
    12: mark("bus", "read event log"),
    15: mark("bus", "write multiple coils"),
    16: mark("bus", "write multiple registers"),
    17: mark("bus", "report server ID"),
    20: mark("bus", "read file record"),
    21: mark("bus", "write file record"),
    22: mark("bus", "mask write register"),
    23: mark("bus", "read/write multiple registers"),
    24: mark("bus", "read FIFO queue"),
    43: mark("bus", "encapsulated transport"),
}
"""What the standard's functions do."""


def crc_words(covered: bytes, *, fits: bool) -> str:
    """Whether a check sum fits the bytes that it covers, and what would."""
    if fits:
        return translate("bus", "correct")
    due = hex_text(FramerRTU.compute_CRC(covered).to_bytes(2, "big"))
    return translate("bus", "wrong: these bytes give {due}").format(due=due)


def exception_words(code: int) -> str:
    """An exception code, 0 to 255, with its name and its meaning."""
    if code in EXCEPTIONS:
        name, meaning = exception_text(code)
        return f"{name}: {meaning}"
    return translate("bus", "{code}, device-specific: see the manual of the device").format(code=code_text(code))


def instead(found: object, asked: object) -> str:
    """What was found, beside what was asked for."""
    return translate("bus", "{found}; requested: {asked}").format(found=found, asked=asked)


def cut_off(came: int, size: int) -> str:
    """A part of which only some bytes came."""
    return translate("bus", "incomplete: {came} of {size} bytes").format(came=came, size=size)


def data_follow(data: bytes) -> str:
    """A byte count."""
    return translate("bus", "{bytes} of data follow").format(bytes=bytes_text(data[0]))


def switch_text(data: bytes) -> str:
    """The value of function 05."""
    if data in (b"\xff\x00", b"\x00\x00"):
        return translate("bus", "on") if data[0] else translate("bus", "off")
    return translate("bus", "neither FF00h (on) nor 0000h (off)")


def span_text(first: int, last: int) -> str:
    """The registers from one address to another, both included."""
    if first == last:
        return translate("bus", "register {first}").format(first=first)
    return translate("bus", "registers {first} to {last}").format(first=first, last=last)


def bits_text(count: int) -> str:
    """So many bits."""
    return translate("bus", "1 bit") if count == 1 else translate("bus", "{count} bits").format(count=count)


def registers_text(count: int) -> str:
    """So many registers."""
    return translate("bus", "1 register") if count == 1 else translate("bus", "{count} registers").format(count=count)


def bits_set(data: bytes) -> str:
    """The numbers of the bits that are set in a register, lowest first."""
    word = int.from_bytes(data, "big")
    if word == 0xFFFF:
        return translate("bus", "0 to 15")
    return " ".join(str(bit) for bit in range(16) if word >> bit & 1) or translate("bus", "none")


def first_numbers(words: list[int]) -> str:
    """Registers as numbers: the first eight."""
    shown = " ".join(str(word) for word in words[:8])
    return f"{shown} \u2026" if len(words) > 8 else shown


def hex_text(data: bytes) -> str:
    """Bytes in hexadecimal, a blank between them: '03 6B'."""
    return data.hex(" ").upper()
