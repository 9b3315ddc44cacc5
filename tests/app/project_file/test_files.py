"""Project files: read with all problems at once, saved whole or not at all."""

from __future__ import annotations

import os
import shutil
import stat
import subprocess
import sys
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest

from app import edits
from app.project.model import Field, Project, Screen
from app.project_file import files
from app.project_file.files import ProjectFileError, ProjectSaveError, dump, has_comments, load, parse, save
from tests.builders import fresh_project

HEAD = 'format = 2\n[panel]\nstart = "run"\n'
SCREEN = '[[screen]]\nname = "run"\n'


def problems(text: str | bytes) -> list[str]:
    with pytest.raises(ProjectFileError) as caught:
        parse(text)
    return [str(problem) for problem in caught.value.problems]


# Reading


def test_the_least_project() -> None:
    assert parse(HEAD + SCREEN).screens == (Screen(name="run"),)


def test_a_byte_order_mark_does_no_harm() -> None:
    text = HEAD + SCREEN
    assert parse(b"\xef\xbb\xbf" + text.encode()) == parse("\ufeff" + text) == parse(text)


def test_lines_may_end_as_on_windows() -> None:
    text = HEAD + SCREEN
    assert parse(text.replace("\n", "\r\n").encode()) == parse(text)


def test_numbers_are_read_exactly() -> None:
    signal = '[[signal]]\nname = "x"\nheld = 0.1\nlimits = [0, 1e3]\n'
    read = parse(HEAD + signal + SCREEN).signal_named["x"]
    assert read.limits == (Decimal(0), Decimal(1000))
    assert getattr(read, "held") == Decimal("0.1")  # noqa: B009 (only one form of signal has it)


def test_all_problems_are_told_at_once_in_the_order_of_the_file() -> None:
    text = (
        'format = 2\n[panel]\nstart = "rum"\nrows = "four"\n'
        '[[line]]\nname = "hall"\nkind = "serial"\ndevice = "COM3"\nbaud = "fast"\n'
        '[[follower]]\nname = "pump"\nline = "hal"\n'
        '[[signal]]\nname = "speed"\nfollower = "pump"\nregister = 1\nwidht = 4\n'
        '[[screen]]\nname = "run"\n'
        '[[screen.field]]\nat = [0, 0]\nwidth = 5\nsignal = "speed"\n'
        '[[screen.field]]\nat = [1, 0]\nwidth = 5\nsignal = "sped"\n'
        '[[screen]]\nname = "run"\n'
        '[[screen_change]]\nkey = "rihgt"\nto = "next"\n'
    )
    assert problems(text) == [
        "panel, rows: must be a whole number, not a text",
        "panel: start screen 'rum' does not exist; did you mean 'run'?",
        "line 'hall', baud: must be a whole number, not a text",
        "device 'pump': line 'hal' does not exist; did you mean 'hall'?",
        "signal 'speed': 'widht' is not a key of a signal; possible keys: name, follower, table, register, encoding, "
        "length, word_order, scale, unit, decimals, hex, limits, step, texts, texts_in, write, every_ms, refresh_ms, "
        "start_value, drive_role, notes",
        "screen 'run', field 2: signal 'sped' does not exist; did you mean 'speed'?",
        "screen 2: has the same name as screen 1, 'run'; each screen needs a unique name",
        "screen change 1: key 'rihgt' does not exist; did you mean 'right'?",
    ]


def test_the_attribute_names_of_the_program_are_no_keys() -> None:
    assert problems('format = 2\n[panel]\nstart = "run"\n[[screens]]\nname = "run"\n')[-1].startswith(
        "project: 'screens' is not a key of a project; did you mean 'screen'?"
    )


def test_the_problems_are_told_with_the_file(tmp_path: Path) -> None:
    path = tmp_path / "pump.toml"
    path.write_text(HEAD + 'title = "x"\n', encoding="utf-8")
    with pytest.raises(ProjectFileError) as caught:
        load(path)
    assert str(caught.value) == (
        f"{path}: 2 problems\n"
        "  panel: 'title' is not a key of a panel; possible keys: rows, columns, repertoire, keys, "
        "languages, language, start, entry, messages, messages_in\n"
        "  panel: start screen 'run' does not exist"
    )
    assert caught.value.path == path
    assert not caught.value.unreadable


def test_a_place_leads_a_program_to_the_spot() -> None:
    field = '[[screen.field]]\nat = [0, 0]\nwidth = 5\nsignal = "sped"\n'
    with pytest.raises(ProjectFileError) as caught:
        parse(HEAD + SCREEN + field)
    assert caught.value.problems[0].place == ("screen", 0, "field", 0, "signal")


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "the file is empty; start a new project, or use the backup next to it"),
        (b"  \n\t\n", "the file is empty; start a new project, or use the backup next to it"),
        (b"\x7fELF\x00\x01", "this is not a text file; choose a project file"),
        (b"\xff\xfef\x00o\x00", "the text is UTF-16, not UTF-8; save it again as UTF-8"),
        (b"format = 2\ntitle = '\xe4'", "line 2 contains a character that is not UTF-8; save the file again as UTF-8"),
        (b"format = \n", "line 1, column 10: this is not TOML: invalid value"),
        (b"format = 2\nformat = 2\n", "this is not TOML: cannot overwrite a value"),
        (b"title = 'x", "this is not TOML"),
        (b"a = " + b"[" * 100_000, "tables or lists are nested too deeply"),
        (b"a." * 100_000 + b"a = 1", "tables or lists are nested too deeply"),
        (b"[" + b'"a" . ' * 100_000 + b"a]", "tables or lists are nested too deeply"),
        (b"a = " + b"9" * 10_000, "a number has too many digits"),
        (b"a = 1e9999999999999999999", "a number has too many digits"),
        (b"a = [" + b"1," * 300_000 + b"]", "the file contains more than 200000 values"),
        (b"format = 3", "the file has format 3, but this program reads formats up to 2; open it with a newer Fanlight"),
        (b"format = 0", "there is no format 0; the current format is 2"),
        (b"format = -5", "there is no format -5; the current format is 2"),
        (b"format = " + b"9" * 400, "the file has format with that number"),
    ],
)
def test_what_is_no_project_file(tmp_path: Path, content: bytes, words: str) -> None:
    path = tmp_path / "pump.toml"
    path.write_bytes(content)
    with pytest.raises(ProjectFileError) as caught:
        load(path)
    assert caught.value.unreadable
    assert str(caught.value).startswith(f"{path}: ")
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_format_must_be_given() -> None:
    assert problems(f'[panel]\nstart = "run"\n{SCREEN}') == [
        "project: 'format' is missing; the current format is written 'format = 2'"
    ]
    assert problems(f'format = "1"\n[panel]\nstart = "run"\n{SCREEN}') == [
        "format: must be a whole number, not a text; write 2"
    ]


def test_a_text_of_many_dotted_words_is_no_deep_key() -> None:
    dotted = "a." * 100
    text = f"{HEAD}{SCREEN}text = [\"{dotted}\", '{dotted}']\nnotes = '''\n{dotted}'''\n# {dotted}\n"
    assert parse(text).screens[0] == Screen(name="run", text=(dotted, dotted), notes=dotted)


HOSTILE = [
    '\\"""',
    '"""',
    "'''",
    '"\\"',
    "a.",
    '"a".',
    "'",
    '"',
    "#",
    '"\n',
    "\\",
    "[a.b]\n",
    "a='b'.\n",
    "''''\n",
    "a=1\n",
]


@pytest.mark.timeout(60)
@pytest.mark.parametrize("piece", HOSTILE)
def test_a_hostile_file_is_refused_soon(piece: str) -> None:
    for start in ("", '"""', "'''", '"', "a = "):
        assert problems(start + piece * (200_000 // len(piece)))


def test_a_missing_file(tmp_path: Path) -> None:
    with pytest.raises(ProjectFileError, match="file not found; check the name and the folder"):
        load(tmp_path / "pump.toml")


def test_a_folder(tmp_path: Path) -> None:
    with pytest.raises(ProjectFileError, match="this is a folder; choose a project file in it"):
        load(tmp_path)


@pytest.mark.skipif(os.name != "posix", reason="named pipes of POSIX")
@pytest.mark.timeout(10)
def test_a_named_pipe_does_not_make_it_wait(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(ProjectFileError, match="this is not a regular file"):
        load(tmp_path / "pipe")


def test_a_file_of_100_mb_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.toml"
    with path.open("wb") as file:
        file.truncate(100 * 1024 * 1024)
    with pytest.raises(ProjectFileError, match="more than 4 MB, too large for a project"):
        load(path)


def test_a_file_that_may_not_be_read(ordinary_user_folder: Path) -> None:
    path = ordinary_user_folder / "pump.toml"
    path.touch(mode=0)
    with pytest.raises(ProjectFileError, match="no permission to read this file"):
        load(path)


def test_a_path_that_cannot_be() -> None:
    with pytest.raises(ProjectFileError, match="cannot be read"):
        load("pump\0.toml")


def test_an_older_format_is_brought_forward() -> None:
    change = '[[turn]]\nkey = "right"\nto = "run"\n'
    old = HEAD.replace("format = 2", "format = 1") + SCREEN + change
    assert parse(old) == parse(HEAD + SCREEN + change.replace("turn", "screen_change"))
    assert parse(old).format == 2
    # What comes out of it is checked like any other file.
    assert problems(old.replace('to = "run"', 'to = "rum"')) == [
        "screen change 1: screen 'rum' does not exist; did you mean 'run'?"
    ]
    # The words of an earlier format are not known in the present one.
    assert problems(HEAD + SCREEN + change)[0].startswith("project: 'turn' is not a key of a project")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a = 1\n", False),
        ("# first\na = 1\n", True),
        ("a = 1 # why\n", True),
        ('a = "# no"\n', False),
        ("a = '# no'\n", False),
        ('a = "\\"# no"\n', False),
        ('a = """\n# no\n"" \\""" # no\n"""\n', False),
        ("a = '''\n# no\n'''\n", False),
        ("a = '''\n# no\n''' # yes\n", True),
        ('a = """x"""" # yes\n', True),
        ('a = "x" # "yes"\n', True),
        ('a = "open # no\n', False),
        ('a = """open\n# no\n', False),
    ],
)
def test_comments_are_found(text: str, expected: bool) -> None:
    assert has_comments(text) is expected


# Saving


def project(title: str = "Booster pump") -> Project:
    return edits.set_title(fresh_project(), title)


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_what_is_saved_is_loaded(tmp_path: Path) -> None:
    save(project(), tmp_path / "pump.toml")
    assert load(tmp_path / "pump.toml") == project()
    assert names_in(tmp_path) == ["pump.toml"]


def test_the_former_file_stays_as_a_backup(tmp_path: Path) -> None:
    path = tmp_path / "pump.toml"
    for title in ("first", "second", "third"):
        save(project(title), path)
    assert load(path).title == "third"
    assert load(tmp_path / "pump.toml.bak").title == "second"
    assert names_in(tmp_path) == ["pump.toml", "pump.toml.bak"]


def test_the_backup_is_made_also_without_hard_links(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_links(self: Path, target: Path) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(Path, "hardlink_to", no_links)
    path = tmp_path / "pump.toml"
    save(project("first"), path)
    save(project("second"), path)
    assert load(tmp_path / "pump.toml.bak").title == "first"
    assert names_in(tmp_path) == ["pump.toml", "pump.toml.bak"]


@pytest.mark.skipif(os.name != "posix", reason="permissions of POSIX")
def test_permissions_are_kept(tmp_path: Path) -> None:
    path = tmp_path / "pump.toml"
    save(project("first"), path)
    path.chmod(0o640)
    save(project("second"), path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.skipif(os.name != "posix", reason="umask of POSIX")
def test_a_new_file_has_the_usual_permissions(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        save(project(), tmp_path / "pump.toml")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "pump.toml").stat().st_mode) == 0o640


@pytest.mark.skipif(os.name != "posix", reason="links need a right on Windows")
def test_a_link_is_followed_and_stays(tmp_path: Path) -> None:
    (tmp_path / "store").mkdir()
    target = tmp_path / "store" / "pump.toml"
    save(project("first"), target)
    link = tmp_path / "link.toml"
    link.symlink_to(target)
    save(project("second"), link)
    assert link.is_symlink()
    assert load(target).title == "second"
    assert names_in(tmp_path / "store") == ["pump.toml", "pump.toml.bak"]
    assert names_in(tmp_path) == ["link.toml", "store"]


def test_the_file_is_text_as_it_was_dumped(tmp_path: Path) -> None:
    save(project("Größe 5 µm"), tmp_path / "pump.toml")
    assert (tmp_path / "pump.toml").read_bytes() == dump(project("Größe 5 µm")).encode()


def test_what_could_not_be_opened_again_is_not_saved(tmp_path: Path) -> None:
    field = Field(at=(0, 0), width=5, signal="sped")
    bad = project().replace(screens=(Screen(name="first", fields=(field,)),))
    path = tmp_path / "pump.toml"
    save(project(), path)
    with pytest.raises(ProjectSaveError, match="screen 'first', field 1: signal 'sped' does not exist"):
        save(bad, path)
    assert load(path) == project()


def test_a_folder_of_that_name(tmp_path: Path) -> None:
    (tmp_path / "pump.toml").mkdir()
    with pytest.raises(ProjectSaveError, match="a folder or a system device has this name; choose another name"):
        save(project(), tmp_path / "pump.toml")
    assert names_in(tmp_path) == ["pump.toml"]


def test_a_folder_that_does_not_exist(tmp_path: Path) -> None:
    with pytest.raises(ProjectSaveError, match="there is no folder"):
        save(project(), tmp_path / "gone" / "pump.toml")


def test_a_backup_that_cannot_be_made_leaves_all_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / "pump.toml"
    save(project("first"), path)
    (tmp_path / "pump.toml.bak").mkdir()
    with pytest.raises(ProjectSaveError, match="was not saved"):
        save(project("second"), path)
    assert load(path).title == "first"
    assert names_in(tmp_path) == ["pump.toml", "pump.toml.bak"]


@pytest.mark.skipif(os.name != "posix", reason="links need a right on Windows")
def test_a_link_in_a_circle(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    with pytest.raises(ProjectSaveError, match="the link leads back to itself"):
        save(project(), tmp_path / "a")
    with pytest.raises(ProjectFileError):
        load(tmp_path / "a")
    assert names_in(tmp_path) == ["a", "b"]


@pytest.fixture
def ordinary_user_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder in which this process has no more rights than an ordinary user."""
    if os.name != "posix":
        pytest.skip("permissions of POSIX")
    import tempfile

    folder = Path(tempfile.mkdtemp())
    root = os.geteuid() == 0
    if root:
        os.chown(folder, 65_534, 65_534)
        os.seteuid(65_534)
    try:
        yield folder
    finally:
        if root:
            os.seteuid(0)
        folder.chmod(0o700)
        shutil.rmtree(folder)


def test_a_read_only_folder(ordinary_user_folder: Path) -> None:
    path = ordinary_user_folder / "pump.toml"
    save(project("first"), path)
    ordinary_user_folder.chmod(0o555)
    with pytest.raises(ProjectSaveError, match="no permission to write there; save in another folder"):
        save(project("second"), path)
    assert load(path).title == "first"
    assert names_in(ordinary_user_folder) == ["pump.toml"]


def test_a_write_protected_file(ordinary_user_folder: Path) -> None:
    path = ordinary_user_folder / "pump.toml"
    save(project("first"), path)
    path.chmod(0o444)
    with pytest.raises(ProjectSaveError, match="the file is write-protected"):
        save(project("second"), path)
    assert load(path).title == "first"


SAVE_ON_A_SMALL_DRIVE = """
import sys
from pathlib import Path
from app import edits
from app.project_file.files import ProjectSaveError, load, save
from tests.builders import fresh_project
folder = Path(sys.argv[1])
if sys.argv[2] == "limit":
    import resource
    resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, 40_000))
small = fresh_project()
save(small, folder / "pump.toml")
large = edits.set_notes(small, "n" * 60_000)
try:
    save(large, folder / "pump.toml")
except ProjectSaveError as why:
    print(why)
print(sorted(path.name for path in folder.iterdir()), load(folder / "pump.toml") == small)
"""


def test_a_full_drive(tmp_path: Path) -> None:
    mounted = f'mount -t tmpfs -o size=48k tmpfs "{tmp_path}" && exec "$0" -c "$1" "{tmp_path}" full'
    if shutil.which("unshare") is None or subprocess.run(["unshare", "-rm", "true"], check=False).returncode:
        pytest.skip("no drive of its own can be mounted here")
    run = subprocess.run(
        ["unshare", "-rm", "sh", "-c", mounted, sys.executable, SAVE_ON_A_SMALL_DRIVE],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(files.__file__).parents[2],
    )
    assert run.stdout.splitlines() == [
        f"{tmp_path / 'pump.toml'} was not saved: the disk is full; free some space, or save somewhere else",
        "['pump.toml'] True",
    ]


@pytest.mark.skipif(os.name != "posix", reason="limits of POSIX")
def test_a_file_that_grows_too_large(tmp_path: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-c", SAVE_ON_A_SMALL_DRIVE, str(tmp_path), "limit"],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(files.__file__).parents[2],
    )
    assert run.stdout.splitlines() == [
        f"{tmp_path / 'pump.toml'} was not saved: the file would exceed the size limit of this account; save "
        f"somewhere else",
        "['pump.toml'] True",
    ]
