"""Signed records: who has signed, what was changed, and that OpenSSH alone tells the same."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from app.signing.keys import make_key
from app.signing.signers import signers_line
from app.trial_record.record import NAMESPACE, CannotUseRecord, FileUsed, save_record
from app.trial_record.verifying import sign_record, signature_file, verify_record
from tests.app.trial_record.test_record import made


@pytest.fixture
def record(tmp_path: Path) -> Path:
    path = tmp_path / "pump.trial.json"
    (tmp_path / "pump.trial.fanrec").write_bytes(b"curves")
    digest = "b75d4b0a9d1ee1e22b1b1e1ba0f1ff19bd3b1ad5c1ef4f6b7b6b3d3c2b1a0f9e"
    save_record(replace(made(), recordings=(FileUsed("pump.trial.fanrec", "", digest),)), path)
    return path


@pytest.fixture
def whole(tmp_path: Path) -> Path:
    path = tmp_path / "whole.trial.json"
    save_record(made(), path)
    return path


def test_a_record_is_good_if_it_is_signed_and_nothing_was_changed(whole: Path, tmp_path: Path) -> None:
    assert not verify_record(whole).good, "not signed"
    key = make_key(tmp_path / "key")
    assert sign_record(whole, key) == signature_file(whole)
    found = verify_record(whole)
    assert found.good
    assert found.signatures[0].fingerprint == key.fingerprint
    assert any("compare its fingerprint" in line for line in found.words())
    (tmp_path / "signers").write_text(signers_line("tech@example.invalid", key.public, NAMESPACE))
    known = verify_record(whole, tmp_path / "signers")
    assert known.good
    assert known.signatures[0].who == "tech@example.invalid"
    assert known.plain()["signatures"][0]["known"] is True


def test_a_signature_of_somebody_else_does_not_count_where_signers_are_named(whole: Path, tmp_path: Path) -> None:
    sign_record(whole, make_key(tmp_path / "key"))
    other = make_key(tmp_path / "other").public
    (tmp_path / "signers").write_text(signers_line("other@example.invalid", other, NAMESPACE))
    found = verify_record(whole, tmp_path / "signers")
    assert not found.good
    assert any("DOES NOT COUNT" in line and "not among the signers" in line for line in found.words())


def test_a_signature_by_a_key_that_had_ended_does_not_count_and_says_so(whole: Path, tmp_path: Path) -> None:
    key = make_key(tmp_path / "key")
    sign_record(whole, key)
    (tmp_path / "signers").write_text(f'tech@example.invalid valid-before="20200101Z" {key.public.text}\n')
    found = verify_record(whole, tmp_path / "signers")
    assert not found.good
    assert (found.signatures[0].who, found.signatures[0].known) == ("tech@example.invalid", False)
    assert any(
        "DOES NOT COUNT: signed by tech@example.invalid, but the key counted until 2020-01-01" in line
        for line in found.words()
    )


def test_a_second_person_countersigns_the_same_record(whole: Path, tmp_path: Path) -> None:
    first, second = make_key(tmp_path / "first"), make_key(tmp_path / "second")
    sign_record(whole, first)
    with pytest.raises(CannotUseRecord, match="by the same key already"):
        sign_record(whole, first)
    assert sign_record(whole, second) == signature_file(whole, 2)
    assert [each.fingerprint for each in verify_record(whole).signatures] == [first.fingerprint, second.fingerprint]


def test_a_record_that_was_changed_is_refused_and_not_countersigned(whole: Path, tmp_path: Path) -> None:
    sign_record(whole, make_key(tmp_path / "key"))
    whole.write_bytes(whole.read_bytes().replace(b"M. Tester", b"N. Tester"))
    found = verify_record(whole)
    assert not found.good
    assert "not as it was signed" in found.signatures[0].wrong
    with pytest.raises(CannotUseRecord, match="not as it was signed"):
        sign_record(whole, make_key(tmp_path / "other"))


def test_an_unfinished_record_is_not_signed(tmp_path: Path) -> None:
    save_record(replace(made(), finished=False).judged(), tmp_path / "r.trial.json")
    with pytest.raises(CannotUseRecord, match="was not finished, and is not signed"):
        sign_record(tmp_path / "r.trial.json", make_key(tmp_path / "key"))


def test_the_files_that_belong_to_it_are_looked_at(record: Path, tmp_path: Path) -> None:
    sign_record(record, make_key(tmp_path / "key"))
    found = verify_record(record)
    assert [each.state for each in found.files] == ["changed"]
    assert not found.good
    (tmp_path / "pump.trial.fanrec").unlink()
    assert [each.state for each in verify_record(record).files] == ["missing"]
    assert verify_record(record).good, "a file that was not handed over is told, and proves nothing"


def test_on_windows_the_command_is_for_the_command_prompt_and_says_so(
    whole: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sign_record(whole, make_key(tmp_path / "key"))
    monkeypatch.setattr("app.trial_record.verifying.usual_shell", lambda: "cmd")
    *_, command, note = replace(verify_record(whole), file=r"C:\pump room\r.json").words()
    assert command.endswith(r'< "C:\pump room\r.json"')
    assert "PowerShell has no '<'" in note


@pytest.mark.skipif(shutil.which("ssh-keygen") is None, reason="OpenSSH is not installed")
def test_a_computer_without_this_program_verifies_it(whole: Path, tmp_path: Path) -> None:
    key = make_key(tmp_path / "key")
    sign_record(whole, key)
    words = ["ssh-keygen", "-Y", "check-novalidate", "-n", NAMESPACE, "-s", str(signature_file(whole))]
    told = subprocess.run(words, input=whole.read_bytes(), capture_output=True, check=False)
    assert told.returncode == 0
    assert key.fingerprint.encode() in told.stdout
