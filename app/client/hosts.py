"""Whether two names of a host lead to the same one, told in time: a name server may take half a minute to answer.

Names are looked up in threads of their own, and what came is kept for a minute. What is not known in time counts as
not known: then the names alone decide.
"""

from __future__ import annotations

import socket
import threading
import time
from ipaddress import IPv6Address, ip_address
from typing import Final

WAITED_S: Final = 0.2
"""So long a window may stand still unnoticed (common practice, no source)."""
KEPT_S: Final = 60.0
_HERE: Final = "this computer"

_kept: dict[str, _LookUp] = {}
_lock = threading.Lock()


class _LookUp:
    """Of one name. Its thread ends with it, and keeps nobody from ending."""

    def __init__(self, host: str) -> None:
        self.addresses: frozenset[str] = frozenset()
        self.begun = time.monotonic()
        self._host = host
        self._done = threading.Event()
        threading.Thread(target=self._run, name="host name", daemon=True).start()

    def _run(self) -> None:
        try:
            found = socket.getaddrinfo(self._host, None, type=socket.SOCK_STREAM)
            self.addresses = frozenset(_plain(str(address[0])) for *_, address in found)
        except (OSError, UnicodeError):
            pass  # whoever connects to it is told
        finally:
            self._done.set()

    def within(self, waited_s: float) -> frozenset[str]:
        """Since it began: whoever asks often does not wait each time."""
        self._done.wait(max(0.0, self.begun + waited_s - time.monotonic()))
        return self.addresses


def look_up(host: str) -> None:
    """Begin to find out where a name leads, for whoever asks `same_host` later."""
    _addresses(_name(host))


def same_host(one: str, other: str, waited_s: float = WAITED_S) -> bool:
    """Whether both names, or addresses, are of one host as far as that is known within `waited_s` seconds."""
    names = _name(one), _name(other)
    if names[0] == names[1]:
        return True
    asked = [_addresses(name) for name in names]
    first, second = (one.within(waited_s) if isinstance(one, _LookUp) else one for one in asked)
    return not first.isdisjoint(second)


def _name(host: str) -> str:
    return host.strip().casefold().rstrip(".")


def _addresses(name: str) -> frozenset[str] | _LookUp:
    plain = _plain(name)
    if plain != name or _is_address(name):
        return frozenset((plain,))
    with _lock:
        known = _kept.get(name)
        if known is None or time.monotonic() - known.begun > KEPT_S:
            known = _kept[name] = _LookUp(name)
        return known


def _plain(host: str) -> str:
    """An address in one way: each of its own is this computer, and IPv4 in the dress of IPv6 is IPv4."""
    if host == "localhost":
        return _HERE
    if not _is_address(host):
        return host
    address = ip_address(host)
    if isinstance(address, IPv6Address) and address.ipv4_mapped is not None:
        address = address.ipv4_mapped
    return _HERE if address.is_loopback or address.is_unspecified else str(address)


def _is_address(host: str) -> bool:
    try:
        ip_address(host)
    except ValueError:
        return False
    return True
