"""A register or a coil that no signal names, as a binding: its raw word, written and read back like any signal's."""

from __future__ import annotations

from app.language import mark
from app.project.binding import Binding, Unbound, bindings
from app.project.model import Project, RegisterSignal
from app.signals.numbering import LAST_ADDRESS, NotARegister, Numbering, Table, documented_number, register_text
from app.signals.scaling import STRAIGHT_THROUGH


def bind_register(project: Project, follower: str, table: Table, address: int) -> Binding:
    """The binding of one raw word, 0..65535, or one coil at a wire address. Its signal is called after the register.

    Raises KeyError for an unknown follower; Unbound if the table can only be read, if there is no such address, or if
    a signal names the register: its limits would be passed by.
    """
    device = project.follower_named[follower]
    if table in ("discrete", "input"):
        raise Unbound(mark("project", "the table '{table}' is read-only"), table=table)
    if not 0 <= address <= LAST_ADDRESS:
        raise Unbound(mark("signals", "address {address} is not in 0..{last}"), address=address, last=LAST_ADDRESS)
    for name, bound in bindings(project).items():
        its_own = bound.follower.name == follower and bound.table == table
        if its_own and bound.address <= address < bound.address + bound.count:
            raise Unbound(mark("project", "signal '{name}' uses this register"), name=name)
    number = number_of(device.numbering, table, address)
    name = register_text(table, number)
    while name in project.signal_named:
        name += "'"
    signal = RegisterSignal(name=name, follower=follower, table=table, number=number, write=True)
    # The word itself, whatever the order of the bytes of a value is.
    return Binding(signal, signal, device.replace(byte_order="high-first"), table, address, 1, STRAIGHT_THROUGH)


def number_of(numbering: Numbering, table: Table, address: int) -> int:
    """The number in the follower's own numbering; the wire address where that has no unmistakable number."""
    try:
        return documented_number(numbering, table, address)
    except NotARegister:
        return address
