"""Opening the window, on a project, a recording or a demo project."""

from __future__ import annotations

import argparse
import gc
from collections.abc import Sequence
from pathlib import Path

from app.cli.options import seconds
from app.cli.presses import Press, presses
from app.project_file.files import load

WORKSPACES = ("design", "bench", "start-up")
"""In the order of the switcher of the window."""


def window_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight window`."""
    verb.add_argument("project", metavar="PROJECT", nargs="?", help="a project file, or a recording to play")
    _grab(verb)


def window(args: argparse.Namespace) -> int:
    """Open the window."""
    return _open(args, Path(args.project) if args.project else None)


def demo_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight demo`."""
    from projects import demos

    verb.add_argument("name", metavar="NAME", nargs="?", choices=demos(), help=f"one of: {', '.join(demos())}")
    verb.add_argument("--keys", metavar="KEYS", help="press these keys of the panel once it is live")
    _grab(verb)


def demo(args: argparse.Namespace) -> int:
    """Open the window on a demo project, live against its simulated follower."""
    from projects import demo_path, demos

    path = demo_path(args.name or demos()[0])
    return _open(args, path, demo=True, keys=presses(load(path), args.keys) if args.keys else ())


def _grab(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("--grab", metavar="FILE.png", type=Path, help="save a picture of the window, then exit")
    verb.add_argument("--for", dest="for_s", metavar="S", type=seconds, help="seconds to run before the picture")
    verb.add_argument("--palette", choices=["light", "dark"], help="palette of the window; left out: as chosen in it")
    verb.add_argument("--language", choices=["en", "de"], help="language of the window; left out: as chosen in it")
    verb.add_argument("--workspace", choices=WORKSPACES, help="workspace to start with")


def _open(args: argparse.Namespace, project: Path | None, *, demo: bool = False, keys: Sequence[Press] = ()) -> int:
    # Hardly anything that is made until the window stands is garbage; `run_window` lets the collector begin again.
    gc.disable()
    if demo:
        # Before Qt: its hook reads the source of every module that is imported after it.
        import app.events.event_detector
        import app.line.status
        import app.recording.history
        import app.session.session  # noqa: F401
    from widgets.kit.language import Language
    from widgets.kit.palette import Appearance
    from widgets.shell.application import run_window

    return run_window(
        project,
        demo=demo,
        grab=args.grab,
        for_s=args.for_s,
        appearance=Appearance(args.palette) if args.palette else None,
        keys=keys,
        language=Language(args.language) if args.language else None,
        workspace=WORKSPACES.index(args.workspace) if args.workspace else None,
    )
