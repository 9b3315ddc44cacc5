"""The command line: one command, a verb a job. It speaks English, whatever the window speaks: scripts read it."""

from __future__ import annotations

import argparse
import errno
import gc
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any, Final, NoReturn

from app.cli.outcome import COULD_NOT_RUN, put, say, take_any_letter
from app.errors import FanlightError
from app.signals.visible import visible


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command with `argv` (without the program's name) and return its exit status."""
    take_any_letter()
    words = _with_verb(sys.argv[1:] if argv is None else argv)
    gc.disable()  # what is imported is no garbage
    try:
        args = _parser(words[0]).parse_args(words)
        import logging
    finally:
        gc.freeze()  # else all of it would be looked through at once
        gc.enable()

    logging.getLogger("pymodbus").addHandler(logging.NullHandler())
    logging.getLogger("pymodbus").propagate = False
    try:
        status: int = args.run(args)
        if sys.stdout is not None:  # the GUI entry point of Windows has none
            sys.stdout.flush()
    except FanlightError as why:
        return _complain(f"{why.place}: {why}" if why.place else str(why))
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        # Whoever read our output stopped reading; leave without a second complaint when Python flushes.
        sys.stdout = None
        return COULD_NOT_RUN
    except OSError as why:
        if why.errno not in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO):
            raise
        sys.stdout = None
        return _complain(
            "the output cannot be written: the disk is full or failing; free some space, or write elsewhere"
        )
    return status


def _complain(message: str) -> int:
    say(message)
    return COULD_NOT_RUN


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        self.exit(COULD_NOT_RUN, visible(f"{self.prog}: {message}; try '{self.prog} --help'") + "\n")


def _with_verb(argv: Sequence[str]) -> list[str]:
    """`fanlight [PROJECT]` is short for `fanlight window [PROJECT]`."""
    words = list(argv)
    if words and (words[0] in VERBS or words[0] in ("-h", "--help", "--version")):
        return words
    if len(words) > 1 and not any(word.startswith("-") for word in words[:2]):
        _parser().error(f"'{words[0]}' is not a command; the commands are {', '.join(VERBS)}")
    return ["window", *words]


class _Version(argparse.Action):
    """Tells the version, and looks for it only when it is asked for."""

    def __call__(self, parser: argparse.ArgumentParser, *_asked: Any) -> NoReturn:
        from importlib.metadata import version

        put(f"fanlight {version('fanlight')}")
        parser.exit()


def _parser(chosen: str = "") -> argparse.ArgumentParser:
    """The parser of the command. A verb that was chosen is the only one that it knows, and that is imported."""
    parser = _Parser(
        prog="fanlight",
        description="Design small text panels for Modbus devices, test them, and hand them over.",
        epilog="'fanlight PROJECT' opens the window. "
        "Exit status: 0 no problems, 1 problems or differences found, 2 could not run.",
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="show the version of this program and exit")
    verbs = parser.add_subparsers(metavar="COMMAND", required=True)
    for name in [chosen] if chosen in VERBS else VERBS:
        module, help_text = VERBS[name]
        verb = verbs.add_parser(name, help=help_text, description=help_text)
        if name == chosen:
            found = import_module(f"app.cli.verbs.{module}")
            getattr(found, f"{name}_arguments")(verb)
            verb.set_defaults(run=getattr(found, name))
    return parser


VERBS: Final = {
    "window": ("window", "open the window"),
    "demo": ("window", "open the window on a demo project, live against its simulated device"),
    "check": ("design", "check the design of a project"),
    "compare": ("design", "show what differs between two project files"),
    "plan": ("design", "show which registers are read together, and how long that takes"),
    "follower": ("follower", "simulate the devices of a project until interrupted"),
    "read": ("read", "read the signals of a project"),
    "line": ("line", "show each transaction of the line as it happens, its bytes explained"),
    "panel": ("panel", "operate the panel in the terminal"),
    "record": ("recordings", "record what is read from a project's lines, until interrupted"),
    "export": ("recordings", "write a recording as text for a spreadsheet or a script"),
    "snapshot": ("snapshots", "read all readable registers of a device into a file"),
    "trial": ("trials", "run a trial: press, expect, ask, and keep a record of what was seen"),
    "propose": ("trials", "make a trial from a project: each screen change, entry, limit, text and action"),
    "verify": ("trials", "tell whether the record of a trial is as it was signed, and by whom"),
    "ports": ("ports", "list the serial ports of this computer"),
    "find": ("find", "find out what is on an unknown line: settings, units, registers"),
    "match": ("match", "find the register that holds what a display shows, in snapshots"),
    "differences": ("snapshots", "show what differs between two snapshots of registers"),
}
"""The module of each verb in `app/cli/verbs`, with a function of its name and one with `_arguments`; and its help."""
