"""The wheel, installed away from the checkout, runs the main job."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    run([sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory", str(folder)], cwd=ROOT)
    (found,) = folder.glob("fanlight-*.whl")
    return found


def run(command: list[str], **options: object) -> subprocess.CompletedProcess[str]:
    done: subprocess.CompletedProcess[str] = subprocess.run(
        command,
        capture_output=True,
        text=True,
        timeout=100,
        check=False,
        **options,  # type: ignore[call-overload]
    )
    assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    return done


def test_the_wheel_carries_data_and_both_entry_points(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
        (entry_points,) = [name for name in names if name.endswith("entry_points.txt")]
        text = archive.read(entry_points).decode()
    assert "[console_scripts]\nfanlight = " in text
    assert "[gui_scripts]\nfanlight-window = " in text
    assert "resources/project.schema.json" in names
    assert any(name.startswith("projects/") and name.endswith(".toml") for name in names)
    assert not [name for name in names if name.startswith("tests/")]


def test_the_installed_wheel_runs_the_demo_outside_the_checkout(wheel: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    run([sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--target", str(site), str(wheel)])
    (script,) = (site / "bin").glob("fanlight") if os.name == "posix" else (site / "bin").glob("fanlight.exe")
    environment = os.environ | {"PYTHONPATH": str(site), "QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, str(script)] if os.name == "posix" else [str(script)]

    place = run([sys.executable, "-c", "import app; print(app.__file__)"], cwd=tmp_path, env=environment).stdout
    assert Path(place.strip()).is_relative_to(site)

    picture = tmp_path / "demo.png"
    run([*command, "demo", "--grab", str(picture), "--for", "1"], cwd=tmp_path, env=environment)
    assert picture.read_bytes().startswith(b"\x89PNG\r\n\x1a\n")
    assert picture.stat().st_size > 10_000
