"""Files that are made or replaced in one step."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from app.project_file.replace_file import write_first


@pytest.mark.parametrize("links", [True, False])
def test_a_file_is_made_whole_and_never_over_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, links: bool
) -> None:
    if not links:

        def refused(*_: object) -> None:
            raise OSError(errno.EPERM, "this drive has no links")

        monkeypatch.setattr(os, "link", refused)
    target = tmp_path / "run"
    write_first(target, b"first")
    with pytest.raises(FileExistsError):
        write_first(target, b"second")
    assert target.read_bytes() == b"first"
    assert [each.name for each in tmp_path.iterdir()] == ["run"]
