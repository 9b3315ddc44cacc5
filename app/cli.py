"""The command line: one command, a verb a job. It speaks English, whatever the window speaks: scripts read it."""

from __future__ import annotations

import argparse
import errno
import logging
import sys
from collections.abc import Callable, Sequence
from typing import NoReturn

from app.project.files import ProjectFileError
from app.signals.visible import visible
from app.verbs.design import check, check_arguments, compare, compare_arguments, plan, plan_arguments
from app.verbs.follower import follower, follower_arguments
from app.verbs.line import line, line_arguments
from app.verbs.outcome import COULD_NOT_RUN, CouldNotRun, say, take_any_letter
from app.verbs.panel import panel, panel_arguments
from app.verbs.read import read, read_arguments
from app.verbs.recordings import export, export_arguments, record, record_arguments
from app.verbs.snapshots import differences, differences_arguments, snapshot, snapshot_arguments
from app.verbs.window import demo, demo_arguments, window, window_arguments


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command with `argv` (without the program's name) and return its exit status."""
    take_any_letter()
    args = _parser().parse_args(_with_verb(sys.argv[1:] if argv is None else argv))
    logging.getLogger("pymodbus").addHandler(logging.NullHandler())
    logging.getLogger("pymodbus").propagate = False
    try:
        status: int = args.run(args)
        if sys.stdout is not None:  # the GUI entry point of Windows has none
            sys.stdout.flush()
    except (CouldNotRun, ProjectFileError) as why:
        return _complain(str(why))
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
        _parser().error(f"'{words[0]}' is no verb; the verbs are {', '.join(VERBS)}")
    return ["window", *words]


def _parser() -> argparse.ArgumentParser:
    from importlib.metadata import version

    parser = _Parser(
        prog="fanlight",
        description="Design small text panels for Modbus devices, prove them and hand them over.",
        epilog="'fanlight PROJECT' opens the window. Exit status: 0 fine, 1 something wrong found, 2 could not run.",
    )
    parser.add_argument("--version", action="version", version=f"fanlight {version('fanlight')}")
    verbs = parser.add_subparsers(metavar="VERB", required=True)
    for name, (run, describe, help_text) in VERBS.items():
        verb = verbs.add_parser(name, help=help_text, description=help_text)
        describe(verb)
        verb.set_defaults(run=run)
    return parser


VERBS: dict[str, tuple[Callable[[argparse.Namespace], int], Callable[[argparse.ArgumentParser], None], str]] = {
    "window": (window, window_arguments, "open the window"),
    "demo": (demo, demo_arguments, "open the window on a demo project, live against its simulated follower"),
    "check": (check, check_arguments, "check the design of a project"),
    "compare": (compare, compare_arguments, "show what differs between two project files"),
    "plan": (plan, plan_arguments, "show which registers are read together, and how long it takes"),
    "follower": (follower, follower_arguments, "play the followers of a project until interrupted"),
    "read": (read, read_arguments, "read the signals of a project"),
    "line": (line, line_arguments, "show each transaction of the line as it happens, its bytes explained"),
    "panel": (panel, panel_arguments, "operate the panel in the terminal"),
    "record": (record, record_arguments, "record what is read from a project's lines, until interrupted"),
    "export": (export, export_arguments, "write a recording as text for a spreadsheet or a script"),
    "snapshot": (snapshot, snapshot_arguments, "read all readable registers of a follower into a file"),
    "differences": (differences, differences_arguments, "show what differs between two snapshots of registers"),
}


if __name__ == "__main__":
    raise SystemExit(main())
