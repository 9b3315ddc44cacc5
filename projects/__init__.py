"""Demo projects with their own scenarios, as files that any project may be made from."""

from __future__ import annotations

from importlib import resources
from pathlib import Path

_SUFFIX = ".toml"


def demos() -> tuple[str, ...]:
    """The names of the demo projects, in the order of the alphabet; the first is the one to show."""
    files = resources.files(__name__).iterdir()
    return tuple(sorted(file.name.removesuffix(_SUFFIX) for file in files if file.name.endswith(_SUFFIX)))


def demo_path(name: str) -> Path:
    """The file of the demo project `name`. Raises LookupError, naming those that there are, if there is none."""
    if name not in demos():
        raise LookupError(f"there is no demo project '{name}'; there are: {', '.join(demos())}")
    return Path(str(resources.files(__name__).joinpath(name + _SUFFIX)))
