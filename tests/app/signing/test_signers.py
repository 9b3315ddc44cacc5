"""Whose signatures count, as OpenSSH reads it too; and the commands for whoever has only OpenSSH."""

from __future__ import annotations

import os
import subprocess
import time
from datetime import UTC, datetime
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given, settings, strategies as st

from app.signing.public_key import PublicKey
from app.signing.signers import (
    BadSigners,
    Shell,
    load_signers,
    look_command,
    signed_by,
    signers_line,
    verify_command,
)
from app.signing.sshsig import sign
from tests.app.signing.openssh import NAMESPACE, needs_ssh_keygen, ssh_keygen

PRIVATE = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
KEY = PublicKey.of(PRIVATE)
OTHER = PublicKey.of(Ed25519PrivateKey.from_private_bytes(bytes(32)))
RSA = "ssh-rsa AAAAB3NzaC1yc2EAAAADAQABAAAAgQC7"
NAME = "tech@example.invalid"
NOON = datetime(2027, 6, 1, 12, tzinfo=UTC)


def test_a_line_is_read_as_it_was_written(tmp_path: Path) -> None:
    (tmp_path / "signers").write_text(
        f"# who may sign\n\n{signers_line(NAME, KEY, NAMESPACE)}\r\n"
        '"a@example.invalid,b@example.invalid" valid-after="20270301Z",valid-before="202803011200Z" '
        f"{OTHER.text} a remark\n"
        f"c@example.invalid {RSA}\n"
        f"d@example.invalid cert-authority {OTHER.text}\n"
    )
    first, second = load_signers(tmp_path / "signers")
    assert (first.names, first.key, first.namespaces) == ((NAME,), KEY, (NAMESPACE,))
    assert first.refusal(NAMESPACE, NOON) == ""
    assert first.refusal("file", NOON) == "the key is not for signatures of this kind (file)"
    assert second.names == ("a@example.invalid", "b@example.invalid")
    assert second.refusal("file", NOON) == ""
    assert second.refusal("file", datetime(2027, 1, 1, tzinfo=UTC)) == "the key counts from 2027-03-01 00:00 UTC on"
    assert second.refusal("file", datetime(2028, 3, 2, tzinfo=UTC)) == "the key counted until 2028-03-01 12:00 UTC"


def test_a_key_belongs_to_the_first_signer_for_whom_it_counts(tmp_path: Path) -> None:
    (tmp_path / "signers").write_text(
        f'former@example.invalid valid-before="20270101Z" {KEY.text}\n{NAME} {KEY.text}\nb@example.invalid {KEY.text}\n'
    )
    signers = load_signers(tmp_path / "signers")
    assert signed_by(signers, KEY, NAMESPACE, NOON).name == NAME
    assert signed_by(signers, KEY, NAMESPACE, NOON).refusal == ""
    only = signed_by(signers[:1], KEY, NAMESPACE, NOON)
    assert (only.name, only.refusal) == ("former@example.invalid", "the key counted until 2027-01-01 00:00 UTC")
    nobody = signed_by(signers, OTHER, NAMESPACE, NOON)
    assert (nobody.name, nobody.refusal) == ("", "the key is not among the signers")


def test_all_bad_lines_are_told(tmp_path: Path) -> None:
    lines = {
        "somebody": "line 1: a name and a key are needed",
        "a ssh-ed25519 %%%": "line 2: this key is damaged",
        f'b valid-after="soon" {KEY.text}': "line 3: 'soon' is not a time such as 20270301",
        f"c =x {KEY.text}": "line 4: '=x' are not options",
        f'd purpose="file" {KEY.text}': "line 5: 'purpose=\"file\"' are not options",
        f'e namespaces="a",namespaces="b" {KEY.text}': "line 6: namespaces stands twice",
        f'f valid-after="20270301",valid-before="20270301" {KEY.text}': "line 7: valid-before is not later than",
        f'g namespaces="a", {KEY.text}': "line 8: an option is missing behind the comma",
        f'"h {KEY.text}': "line 9: a name that is not between two quotation marks",
        f'i valid-before="20271301" {KEY.text}': "line 10: '20271301' is not a time",
        f'j valid-before="00010101" {KEY.text}': "line 11: '00010101' is not a time",
        f"k cert-authority=x {KEY.text}": "line 12: 'cert-authority=x' are not options",
        f"l {KEY.text.replace('ssh-ed25519', 'ssh-ed25591')}": "line 13: this is a key of the kind 'ssh-ed25591'",
        f"{KEY.text}": "line 14: a name and a key are needed",
    }
    (tmp_path / "signers").write_text("\n".join(lines))
    with pytest.raises(BadSigners) as told:
        load_signers(tmp_path / "signers")
    assert [words for words in lines.values() if words not in str(told.value)] == []


def test_of_very_many_bad_lines_the_first_are_told_and_how_many_follow(tmp_path: Path) -> None:
    (tmp_path / "signers").write_text("somebody\n" * 1000)
    with pytest.raises(BadSigners, match=r"line 20: .*; and 980 more$"):
        load_signers(tmp_path / "signers")


def test_what_is_no_file_of_signers_is_refused_in_words(tmp_path: Path) -> None:
    (tmp_path / "bytes").write_bytes(b"\xff\xfe\0")
    (tmp_path / "large").write_bytes(b"#" * (1024 * 1024 + 1))
    for file in ("bytes", "large", "none", "a\0b", "."):
        with pytest.raises(BadSigners):
            load_signers(tmp_path / file)


@pytest.mark.parametrize("end", ["\r", "\x0b", "\x0c", "\x1c", "\x85", "\u2028"])
def test_only_a_line_feed_ends_a_remark(tmp_path: Path, end: str) -> None:
    (tmp_path / "signers").write_text(f"# a remark{end}{NAME} {KEY.text}\n", encoding="utf-8", newline="")
    assert load_signers(tmp_path / "signers") == ()


@settings(deadline=None)
@given(st.binary(max_size=80) | st.text(max_size=80).map(str.encode))
def test_anything_is_read_or_refused_in_words(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "signers"
    path.write_bytes(content + b" " + KEY.text.encode())
    try:
        found = load_signers(path)
    except BadSigners:
        found = ()
    assert all(each.key == KEY and each.names for each in found)


# The same as OpenSSH's own program ------------------------------------------------------------------------------------


@needs_ssh_keygen
@pytest.mark.parametrize(
    "options",
    [
        "",
        'namespaces="trial@fanlight"',
        'namespaces="file,trial@fanlight"',
        'namespaces="file"',
        'namespaces=""',
        'namespaces="trial@*"',
        'namespaces="*,!trial@fanlight"',
        'namespaces="!trial@fanlight,*"',
        'namespaces="!file,*"',
        'namespaces="!file"',
        'namespaces="tria?@fanlight"',
        'namespaces="[t]rial@fanlight"',
        'namespaces="Trial@fanlight"',
        'NameSpaces="trial@fanlight"',
        'namespaces="a",namespaces="trial@fanlight"',
        'namespaces="trial@fanlight',
        "namespaces=trial@fanlight",
        'namespaces="trial@fanlight",',
        "namespaces",
        "cert-authority",
        "Cert-Authority",
        'valid-after="20270601Z"',
        'valid-after="202706011200Z"',
        'valid-after="20270601120001Z"',
        'valid-before="20270601Z"',
        'valid-before="20270601120000Z"',
        'valid-before="20270601115959z"',
        'valid-before="20270602UTC"',
        'valid-after="20270101Z",valid-before="20280101Z"',
        'valid-after="20280101Z",valid-before="20270101Z"',
        'valid-after="20270101Z",valid-after="20270102Z"',
        'valid-after="2027060Z"',
        'valid-after="20271301Z"',
        'valid-after="2027-06-01"',
        'valid-after=""',
        'valid-after="20270601"',
        'valid-before="202706011200"',
        "purpose",
        ",",
    ],
)
def test_options_mean_what_openssh_takes_them_for(tmp_path: Path, options: str) -> None:
    assert counts_here(tmp_path, f"{NAME} {options} {KEY.text}") == counts_there(tmp_path, NAME)


def test_a_day_that_there_is_not_is_told_here(tmp_path: Path) -> None:
    """OpenSSH takes it for one in March."""
    (tmp_path / "signers").write_text(f'{NAME} valid-after="20270230Z" {KEY.text}')
    with pytest.raises(BadSigners, match="'20270230Z' is not a time"):
        load_signers(tmp_path / "signers")


@needs_ssh_keygen
@pytest.mark.skipif(not hasattr(time, "tzset"), reason="needs time zones by environment")
@pytest.mark.parametrize("zone", ["UTC+5", "UTC-5"])
@pytest.mark.parametrize("option", ["valid-after", "valid-before"])
def test_a_time_without_a_zone_is_that_of_the_computer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, zone: str, option: str
) -> None:
    with monkeypatch.context() as patched:
        patched.setenv("TZ", zone)
        time.tzset()
        here = counts_here(tmp_path, f'{NAME} {option}="202706011200" {KEY.text}')
        there = counts_there(tmp_path, NAME)
    time.tzset()
    assert here == there == ((zone == "UTC-5") == (option == "valid-after"))


@needs_ssh_keygen
@pytest.mark.parametrize(
    "name", ["tech@example.invalid", "M. Tester", "Jürgen Prüfer", "#5", "it's $5 & more", "(a|b)", "ssh-", "%PATH%"]
)
def test_a_line_to_hand_over_is_read_alike_by_openssh(tmp_path: Path, name: str) -> None:
    line = signers_line(name, KEY, NAMESPACE)
    assert counts_here(tmp_path, line)
    assert load_signers(tmp_path / "signers")[0].names == (name,)
    assert counts_there(tmp_path, name)


@pytest.mark.parametrize("name", ["", " ", " a", "a,b", "a*", "a?", "!a", 'a"b', "a\nb", "a\\"])
def test_a_name_that_would_be_read_as_something_else_is_refused(name: str) -> None:
    with pytest.raises(BadSigners, match="cannot stand among signers"):
        signers_line(name, KEY, NAMESPACE)


def counts_here(folder: Path, line: str) -> bool:
    (folder / "signers").write_text(line + "\n", encoding="utf-8")
    try:
        return not signed_by(load_signers(folder / "signers"), KEY, NAMESPACE, NOON).refusal
    except BadSigners:
        return False


def counts_there(folder: Path, name: str) -> bool:
    (folder / "record.sig").write_text(sign(b"x", PRIVATE, NAMESPACE))
    words = ("-Y", "verify", "-f", folder / "signers", "-I", name, "-n", NAMESPACE, "-s", folder / "record.sig")
    return ssh_keygen(*words, "-O", "verify-time=20270601120000Z", stdin=b"x").returncode == 0


# Commands -------------------------------------------------------------------------------------------------------------


@needs_ssh_keygen
@pytest.mark.skipif(os.name != "posix", reason="needs sh")
@pytest.mark.parametrize(
    "file", ["r.json", "pump room.json", "it's $5.json", "-x.json", 'a"b`c\\d!%e.json', "ä&;(.json"]
)
@pytest.mark.parametrize("name", [NAME, "M. Tester"])
def test_the_commands_do_what_they_say(tmp_path: Path, file: str, name: str) -> None:
    (tmp_path / file).write_bytes(b"a record\n")
    (tmp_path / f"{file}.sig").write_text(sign(b"a record\n", PRIVATE, NAMESPACE))
    (tmp_path / "allowed_signers").write_text(signers_line(name, KEY, NAMESPACE))
    for command in (
        verify_command(file, f"{file}.sig", name, NAMESPACE, shell="sh"),
        look_command(file, f"{file}.sig", NAMESPACE, shell="sh"),
    ):
        told = subprocess.run(["sh", "-c", command], cwd=tmp_path, capture_output=True, check=False, timeout=30)
        assert told.returncode == 0, told.stderr
        assert KEY.fingerprint.encode() in told.stdout


@pytest.mark.parametrize(
    ("shell", "file", "expected"),
    [
        # How the command prompt takes quotation marks: from memory; none of these was run on Windows.
        ("cmd", r"C:\records\r.json", r"-s C:\records\r.json.sig < C:\records\r.json"),
        ("cmd", r"C:\pump room\r.json", r'-s "C:\pump room\r.json.sig" < "C:\pump room\r.json"'),
        ("cmd", "a&b^c.json", '-s "a&b^c.json.sig" < "a&b^c.json"'),
        ("sh", r"a\b.json", r"-s 'a\b.json.sig' < 'a\b.json'"),
    ],
)
def test_a_command_is_quoted_for_who_reads_it(shell: Shell, file: str, expected: str) -> None:
    assert look_command(file, f"{file}.sig", NAMESPACE, shell=shell).endswith(expected)
    assert "<" in look_command("r.json", "r.json.sig", NAMESPACE), "for this computer's shell"
