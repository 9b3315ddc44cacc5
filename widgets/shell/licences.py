"""What this program is made of besides itself: the installed packages that it needs, with their licences."""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from platform import python_version
from typing import Final

_NAME: Final = re.compile(r"[A-Za-z0-9._-]+")
_OPTIONAL: Final = re.compile(r";.*\bextra\b")
_CLASSIFIER: Final = re.compile(r"License :: (?:OSI Approved :: )?(.+)")


@dataclass(frozen=True, slots=True)
class Package:
    """A package that this program runs on. `licence` is empty where the package states none."""

    name: str
    version: str
    licence: str


def packages(of: str = "fanlight") -> tuple[Package, ...]:
    """Python; then by name all packages that the installed package `of` needs, those that they need, and so on.

    Left out is what is not installed: another system needs it, or another version of Python.
    """
    found: dict[str, Package] = {}
    waiting = _needs(of)
    while waiting:
        name = waiting.pop()
        alike = re.sub(r"[-_.]+", "-", name).lower()
        if alike not in found and (there := _installed(name)):
            found[alike] = Package(there.name, there.version, licence_of(there))
            waiting += _needs(name)
    python = Package("Python", python_version(), "PSF-2.0")  # as https://spdx.org/licenses/PSF-2.0.html names it
    return (python, *(found[name] for name in sorted(found)))


def licence_of(package: Distribution) -> str:
    """The licence of a package as it states it; empty if it does not.

    Metadata have three places for it: the SPDX expression, the older key, which may hold the whole text instead of a
    name, and the classifiers (https://packaging.python.org/specifications/core-metadata/).
    """
    for key in ("License-Expression", "License"):
        for stated in package.metadata.get_all(key, []):
            if stated.strip() and "\n" not in stated.strip():
                return str(stated.strip())
    classified = map(_CLASSIFIER.fullmatch, package.metadata.get_all("Classifier", []))
    return ", ".join(match[1] for match in classified if match)


def _needs(package: str) -> list[str]:
    there = _installed(package)
    wanted = [] if there is None else there.requires or []
    names = (_NAME.match(each) for each in wanted if not _OPTIONAL.search(each))
    return [name[0] for name in names if name]


def _installed(package: str) -> Distribution | None:
    try:
        return distribution(package)
    except PackageNotFoundError:
        return None
