"""Demo projects with their own scenarios, as files that any project may be made from."""

from __future__ import annotations

from importlib import resources
from pathlib import Path

_SUFFIX = ".toml"
_TRIAL = ".trial.toml"


def demos() -> tuple[str, ...]:
    """The names of the demo projects, in the order of the alphabet; the first is the one to show."""
    names = (file.name for file in resources.files(__name__).iterdir())
    return tuple(
        sorted(name.removesuffix(_SUFFIX) for name in names if name.endswith(_SUFFIX) and not name.endswith(_TRIAL))
    )


def demo_path(name: str) -> Path:
    """The file of the demo project `name`. Raises LookupError, naming those that there are, if there is none."""
    if name not in demos():
        raise LookupError(f"there is no demo project '{name}'; there are: {', '.join(demos())}")
    return Path(str(resources.files(__name__).joinpath(name + _SUFFIX)))


def trial_path(name: str) -> Path:
    """The file of the trial of the demo project `name`. Raises LookupError as `demo_path`."""
    return demo_path(name).with_name(name + _TRIAL)
