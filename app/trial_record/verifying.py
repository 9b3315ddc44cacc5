"""Whether a record is as it was signed, by whom, and whether the files that belong to it are whole."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final

from app.language import mark, translate
from app.project_file.replace_file import write_first
from app.signing.keys import SigningKey
from app.signing.signers import Signer, load_signers, look_command, signed_by, usual_shell, verify_command
from app.signing.sshsig import LARGEST_SIGNATURE, BadSignature, verify
from app.trial_record.record import NAMESPACE, CannotUseRecord, TrialRecord, read_record, record_in

MOST_SIGNATURES: Final = 9
"""Of one record: its tester's and those of who countersigns."""


@dataclass(frozen=True, slots=True)
class SignatureFound:
    """One signature of a record: the file, whose key, what that person is called among the signers, and what is wrong.

    `wrong` is empty if the record is as it was signed; `known` tells whether the signer is among those who count, and
    `refusal` why not.
    """

    file: str
    fingerprint: str = ""
    who: str = ""
    known: bool = False
    wrong: str = ""
    refusal: str = ""


@dataclass(frozen=True, slots=True)
class FileFound:
    """A file that belongs to a record: whole, changed, or missing."""

    file: str
    state: str


@dataclass(frozen=True, slots=True)
class Verification:
    """What was found. `good` if it is signed, every signature is, and no file was changed; missing ones are told."""

    file: str
    record: TrialRecord
    signatures: tuple[SignatureFound, ...]
    files: tuple[FileFound, ...]
    signers: str = ""
    """The file of signers that was asked for; empty: none was."""

    @property
    def good(self) -> bool:
        """Whether the record can be trusted as far as the keys can."""
        whole = all(each.state != "changed" for each in self.files)
        counted = all(not each.wrong and (each.known or not self.signers) for each in self.signatures)
        return bool(self.signatures) and counted and whole

    def plain(self) -> dict[str, Any]:
        """As plain tables, for a program to read."""
        return {
            "record": self.file,
            "good": self.good,
            "against": self.record.against,
            "result": self.record.result.value,
            "finished": self.record.finished,
            "by": self.record.by,
            "began": self.record.began.isoformat(),
            "signatures": [
                {"file": each.file, "fingerprint": each.fingerprint, "who": each.who, "known": each.known}
                | {"wrong": each.wrong, "refusal": each.refusal if self.signers else ""}
                for each in self.signatures
            ],
            "files": [{"file": each.file, "state": each.state} for each in self.files],
        }

    def words(self) -> Iterator[str]:
        """In lines for a person; the last ones are the commands for whoever has nothing of ours."""
        record = self.record
        yield translate("trial", "{file}: {result}, against {against}, {began:%Y-%m-%d %H:%M} UTC").format(
            file=self.file, result=record.result.value, against=record.against, began=record.began
        )
        if not self.signatures:
            yield translate("trial", "NOT SIGNED: anybody may have changed it")
        for each in self.signatures:
            if each.wrong:
                yield translate("trial", "{file}: NOT GOOD: {wrong}").format(file=each.file, wrong=each.wrong)
                continue
            who = translate("trial", "whoever has the key {fingerprint}").format(fingerprint=each.fingerprint)
            said = translate("trial", "{file}: good, signed by {who}").format(file=each.file, who=each.who or who)
            if self.signers and each.refusal:
                said = translate("trial", "{file}: DOES NOT COUNT: signed by {who}, but {refusal}").format(
                    file=each.file, who=each.who or who, refusal=each.refusal
                )
            yield said
        for file in self.files:
            yield f"{file.file}: {file.state}"
        good = [each for each in self.signatures if not each.wrong]
        if good and not self.signers:
            yield translate(
                "trial",
                "A signature is worth what you know of the key: compare its fingerprint with the one that its owner "
                "gave you by another way.",
            )
        for each in good[:1]:
            shell = usual_shell()
            yield translate("trial", "Without this program: {command}").format(
                command=look_command(self.file, each.file, NAMESPACE, shell=shell)
            )
            if each.who:
                yield translate("trial", "or: {command}").format(
                    command=verify_command(self.file, each.file, each.who, NAMESPACE, self.signers, shell=shell)
                )
            if shell == "cmd":
                yield translate("trial", "This is for the command prompt (cmd); PowerShell has no '<'.")


def signature_file(record: Path, number: int = 1) -> Path:
    """Where the signature number `number` of a record stands: NAME.trial.json.sig, then NAME.trial.json.2.sig."""
    return record.with_name(f"{record.name}.sig" if number == 1 else f"{record.name}.{number}.sig")


def sign_record(record: Path, key: SigningKey) -> Path:
    """Sign a record that is finished, beside it, as the first or as who countersigns; gives the file.

    Raises CannotUseRecord: an unfinished record, or one that was changed after somebody signed it, is not signed.
    """
    content = read_record(record)
    found = record_in(content, record)
    if not found.finished:
        raise CannotUseRecord(mark("trial", "{file} is of a run that was not finished, and is not signed"), file=record)
    for number in range(1, MOST_SIGNATURES + 1):
        file = signature_file(record, number)
        if not file.exists():
            try:
                write_first(file, key.sign(content, NAMESPACE).encode())
            except OSError as why:
                raise CannotUseRecord(
                    mark("trial", "the signature was not written to {file}: {why}"), file=file, why=why.strerror
                ) from None
            return file
        former = _signature(content, found, file, ())
        if former.wrong:
            raise CannotUseRecord(mark("trial", "{file}: {wrong}"), file=file, wrong=former.wrong)
        if former.fingerprint == key.fingerprint:
            raise CannotUseRecord(mark("trial", "{file} is by the same key already"), file=file)
    raise CannotUseRecord(mark("trial", "{file} has {most} signatures already"), file=record, most=MOST_SIGNATURES)


def verify_record(record: Path, signers: Path | None = None) -> Verification:
    """Look at a record, its signatures, and the files that belong to it. Raises CannotUseRecord, BadSigners."""
    content = read_record(record)
    found = record_in(content, record)
    known = load_signers(signers) if signers is not None else ()
    signatures = [
        _signature(content, found, file, known)
        for number in range(1, MOST_SIGNATURES + 1)
        if (file := signature_file(record, number)).exists()
    ]
    files = [
        FileFound(each.name, _state(record.with_name(Path(each.name).name), each.digest)) for each in found.recordings
    ]
    return Verification(str(record), found, tuple(signatures), tuple(files), "" if signers is None else str(signers))


def _signature(content: bytes, record: TrialRecord, file: Path, signers: tuple[Signer, ...]) -> SignatureFound:
    try:
        with file.open("rb") as source:
            text = source.read(LARGEST_SIGNATURE + 1).decode("ascii", "replace")
        key = verify(content, text, NAMESPACE)
    except (BadSignature, OSError) as why:
        return SignatureFound(str(file), wrong=str(why))
    at = min(record.ended.astimezone(UTC), datetime.now(UTC))
    found = signed_by(signers, key, NAMESPACE, at)
    return SignatureFound(str(file), key.fingerprint, found.name, not found.refusal, refusal=found.refusal)


def _state(file: Path, digest: str) -> str:
    try:
        with file.open("rb") as source:
            return "whole" if hashlib.file_digest(source, "sha256").hexdigest() == digest else "changed"
    except OSError:
        return "missing"
