"""Which packages the program runs on, with their licences, as Help > About shows them."""

from __future__ import annotations

import tomllib
from importlib.metadata import PathDistribution
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from widgets.shell.help import AboutDialog, program
from widgets.shell.licences import licence_of, packages

OSI = "Classifier: License :: OSI Approved :: "


def installed(folder: Path, name: str, *lines: str) -> PathDistribution:
    """A package as pip leaves it: the metadata in a folder of its own (PEP 376)."""
    place = folder / f"{name.replace('-', '_')}-1.5.dist-info"
    place.mkdir()
    head = ["Metadata-Version: 2.4", f"Name: {name}", "Version: 1.5", *lines]
    (place / "METADATA").write_text("\n".join(head) + "\n\nWhat it is.\n", "utf-8")
    return PathDistribution(place)


def known(name: str) -> str:
    """One spelling of the many that a package's name has (PEP 503)."""
    return name.replace("_", "-").lower()


@pytest.mark.parametrize(
    ("lines", "licence"),
    [
        (["License-Expression: BSD-3-Clause AND Zlib", f"{OSI}MIT License"], "BSD-3-Clause AND Zlib"),
        (["License: LGPL-3.0-only OR GPL-2.0-only"], "LGPL-3.0-only OR GPL-2.0-only"),
        (["License: Permission is granted to anybody\n        to do anything.", f"{OSI}MIT License"], "MIT License"),
        ([f"{OSI}Apache Software License", f"{OSI}BSD License"], "Apache Software License, BSD License"),
        (["Classifier: License :: Public Domain"], "Public Domain"),
        (["License: ", "Classifier: Topic :: Utilities"], ""),
    ],
)
def test_the_licence_is_found_where_a_package_states_it(tmp_path: Path, lines: list[str], licence: str) -> None:
    assert licence_of(installed(tmp_path, "gasket", *lines)) == licence


def test_needs_of_needs_are_listed_once_without_options(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    installed(tmp_path, "winch", "Requires-Dist: steel_rope>=2", 'Requires-Dist: paint; extra == "colour"')
    installed(tmp_path, "steel-rope", "Requires-Dist: winch", "Requires-Dist: hemp; sys_platform == 'elsewhere'")
    installed(tmp_path, "paint")
    monkeypatch.syspath_prepend(str(tmp_path))
    python, *others = packages("winch")
    assert python.name == "Python"
    assert [(each.name, each.version) for each in others] == [("steel-rope", "1.5"), ("winch", "1.5")]
    assert packages("nothing of this name") == (python,)


def test_about_lists_every_package_of_the_program(qtbot: QtBot) -> None:
    dialog = AboutDialog()
    qtbot.addWidget(dialog)
    dialog.show()
    text = (Path(__file__).parents[3] / "pyproject.toml").read_text("utf-8")
    wanted = {known(each.split(">")[0]) for each in tomllib.loads(text)["project"]["dependencies"]}
    column = [dialog.packages.topLevelItem(row) for row in range(dialog.packages.topLevelItemCount())]
    rows = {known(row.text(0)): (row.text(1), row.text(2)) for row in column if row is not None}
    assert wanted <= set(rows)
    assert all(version and licence for version, licence in rows.values())
    # As https://pypi.org/project/pydantic/ and https://doc.qt.io/qtforpython-6/licenses.html state it.
    assert rows["pydantic"][1] == "MIT"
    assert "LGPL-3.0" in rows["pyside6-essentials"][1]
    (copy,) = (each for each in dialog.findChildren(QPushButton) if each.text() == "&Copy as text")
    QTest.mouseClick(copy, Qt.MouseButton.LeftButton)
    copied = QApplication.clipboard().text()
    assert copied.startswith(program())
    assert f"pydantic\t{rows['pydantic'][0]}\tMIT\n" in copied
