"""What a simulated follower says it is: functions 17, report server ID, and 43/14, read device identification.

Forms and rules: MODBUS Application Protocol Specification V1.1b3, sections 6.13 and 6.21 (from memory).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from typing import Final

from pymodbus.constants import DeviceInformation, ExcCodes
from pymodbus.pdu.mei_message import ReadDeviceInformationResponse

from app.project.model import Follower, Project

REPORT_SERVER_ID: Final = 17
ENCAPSULATED: Final = 43
DEVICE_IDENTIFICATION: Final = 14
"""The one kind of what function 43 encapsulates that is answered."""

_LONGEST: Final = 120
"""Bytes of one text; a title may be longer."""
_CONFORMITY: Final = 0x82
"""The regular identification, as a stream and object by object."""
_RUNNING: Final = 0xFF
"""Of function 17: a follower that answers runs."""
_VENDOR, _PRODUCT, _REVISION, _PRODUCT_NAME, _MODEL = 0, 1, 2, 4, 5


class Identity:
    """The texts of one follower. There is no company behind it: as its vendor stands the title of the project."""

    def __init__(self, project: Project, follower: Follower) -> None:
        self._unit = follower.unit
        self._texts = {
            _VENDOR: project.title or "Fanlight",
            _PRODUCT: follower.name,
            _PRODUCT_NAME: f"simulated {follower.simulated.model}",
            _MODEL: f"unit {follower.unit}",
        }

    @property
    def objects(self) -> Mapping[int, bytes]:
        """The objects of function 43/14 by number: ASCII, as the specification wants it."""
        return {number: _ascii(text) for number, text in sorted({**self._texts, _REVISION: _revision()}.items())}

    def answer(self, pdu: bytes) -> bytes:
        """The answer to a request of one of the two functions, well-formed or not, as a PDU."""
        if pdu[0] == REPORT_SERVER_ID:
            if len(pdu) != 1:
                return _refusal(pdu, ExcCodes.ILLEGAL_VALUE)
            data = bytes((self._unit, _RUNNING)) + self.objects[_PRODUCT]
            return bytes((REPORT_SERVER_ID, len(data))) + data
        if pdu[1:2] != bytes((DEVICE_IDENTIFICATION,)):
            return _refusal(pdu, ExcCodes.ILLEGAL_FUNCTION)
        if len(pdu) != 4 or not DeviceInformation.BASIC <= pdu[2] <= DeviceInformation.SPECIFIC:
            return _refusal(pdu, ExcCodes.ILLEGAL_VALUE)
        code, first, objects = pdu[2], pdu[3], self.objects
        if code == DeviceInformation.SPECIFIC:
            if first not in objects:
                return _refusal(pdu, ExcCodes.ILLEGAL_ADDRESS)
            wanted = {first: objects[first]}
        else:
            level = {number: text for number, text in objects.items() if code > DeviceInformation.BASIC or number <= 2}
            # A stream that is asked to begin where there is nothing begins anew.
            wanted = {number: text for number, text in level.items() if number >= first} if first in level else level
        response = ReadDeviceInformationResponse(read_code=code, information=dict(wanted))
        response.conformity = _CONFORMITY
        return bytes((ENCAPSULATED,)) + response.encode()


def _refusal(pdu: bytes, code: ExcCodes) -> bytes:
    return bytes((pdu[0] | 0x80, code))


def _ascii(text: str) -> bytes:
    """A text in ASCII: letters without their accents, and question marks for what has no such letter."""
    letters = unicodedata.normalize("NFKD", " ".join(text.split()))
    bare = "".join(letter for letter in letters if letter.isprintable() and not unicodedata.combining(letter))
    return bare.encode("ascii", "replace")[:_LONGEST]


@cache
def _revision() -> str:
    """The version of this program."""
    try:
        return version("fanlight")
    except PackageNotFoundError:
        return "0"
