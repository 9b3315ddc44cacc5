"""Whose signatures count: a file as `ssh-keygen` calls it allowed signers (ALLOWED SIGNERS in its manual), and how
somebody without this program verifies a signature."""

from __future__ import annotations

import os
import re
import shlex
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Final, Literal

from app.errors import FanlightError
from app.language import mark, translate
from app.signing.public_key import BadKey, PublicKey

LARGEST_FILE: Final = 1024 * 1024
"""Bytes of such a file at most."""
MOST_TOLD: Final = 20
"""Bad lines that a message names at most."""

Shell = Literal["sh", "cmd"]
"""Who reads a command: a shell of POSIX, or the command prompt of Windows. PowerShell reads neither: it has no `<`."""

_KINDS: Final = ("ssh-", "ecdsa-", "sk-")
_OTHER_KINDS: Final = (
    *("ssh-rsa", "ssh-dss", "ecdsa-sha2-nistp256", "ecdsa-sha2-nistp384", "ecdsa-sha2-nistp521"),
    *("sk-ssh-ed25519@openssh.com", "sk-ecdsa-sha2-nistp256@openssh.com"),
)
_OPTION: Final = re.compile(r'(?P<name>[a-z-]+)(?:="(?P<value>(?:\\"|[^"])*)")?', re.IGNORECASE)
_VALUED: Final = ("namespaces", "valid-after", "valid-before")
_WORD: Final = re.compile(r'(?:\\"|"(?:\\"|[^"])*"|[^\s"])+', re.ASCII)
_NAMES: Final = re.compile(r'(?:"(?P<quoted>[^"]+)"|(?P<plain>[^\s"]+))(?=\s|$)', re.ASCII)
_NO_NAME: Final = re.compile(r'[\x00-\x1f\x7f"*?!,\\]|^\s*$|^\s|\s$')
_TIMES: Final = {8: "%Y%m%d", 12: "%Y%m%d%H%M", 14: "%Y%m%d%H%M%S"}


class BadSigners(FanlightError):
    """A file of signers cannot be used, or a line for it cannot be made; the message names the lines."""


@dataclass(frozen=True, slots=True)
class Signer:
    """One line: who, with which key, for which purposes (none: all), from when to when, both included.

    Names and purposes are patterns, with `*`, `?`, and `!` before what is left out.
    """

    names: tuple[str, ...]
    key: PublicKey
    namespaces: tuple[str, ...] = ()
    after: datetime | None = None
    before: datetime | None = None

    def refusal(self, namespace: str, at: datetime) -> str:
        """Why a signature by this key for this purpose, made then, does not count; empty if it does."""
        if self.namespaces and not _matches(namespace, self.namespaces):
            return translate("signing", "the key is not for signatures of this kind ({namespace})").format(
                namespace=namespace
            )
        if self.after is not None and at < self.after:
            return translate("signing", "the key counts from {time:%Y-%m-%d %H:%M} UTC on").format(time=self.after)
        if self.before is not None and at > self.before:
            return translate("signing", "the key counted until {time:%Y-%m-%d %H:%M} UTC").format(time=self.before)
        return ""


@dataclass(frozen=True, slots=True)
class SignedBy:
    """Who of the signers has a key, and why a signature by it does not count; an empty `refusal`: it does."""

    name: str
    refusal: str


def signed_by(signers: Iterable[Signer], key: PublicKey, namespace: str, at: datetime) -> SignedBy:
    """Whether a signature by `key`, for a purpose, made at that time, is one of these signers'."""
    found = [SignedBy(each.names[0], each.refusal(namespace, at)) for each in signers if each.key == key]
    unknown = SignedBy("", translate("signing", "the key is not among the signers"))
    return min(found, key=lambda each: bool(each.refusal), default=unknown)


def load_signers(path: Path) -> tuple[Signer, ...]:
    """The signers in a file. Keys of other kinds than ssh-ed25519, and of authorities for certificates, are left out,
    since no signature by them is verified here. Raises BadSigners with all bad lines."""
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadSigners(mark("signing", "{file} is not a text file"), file=path) from None
    except (OSError, ValueError) as why:
        raise BadSigners(
            mark("signing", "{file} cannot be read: {why}"), file=path, why=getattr(why, "strerror", None) or str(why)
        ) from None
    if len(content) > LARGEST_FILE:
        raise BadSigners(mark("signing", "{file} is too large for a file of signers"), file=path)
    found: list[Signer] = []
    wrong: list[str] = []
    # By line feeds alone, as OpenSSH counts lines: nothing else ends a remark.
    for number, line in enumerate(text.split("\n"), 1):
        line = line.strip(" \t\r")
        if not line or line.startswith("#"):
            continue
        try:
            found += _signer(line)
        except (BadKey, _BadLine) as why:
            wrong.append(translate("signing", "line {number}: {why}").format(number=number, why=why))
    if wrong:
        more = len(wrong) - MOST_TOLD
        if more > 0:
            wrong[MOST_TOLD:] = [translate("signing", "and {count} more").format(count=more)]
        raise BadSigners(mark("signing", "{file}: {wrong}"), file=path, wrong="; ".join(wrong))
    return tuple(found)


def signers_line(name: str, key: PublicKey, namespace: str) -> str:
    """The line to hand over for one's own key, by another way than the signature.

    Raises BadSigners for a name that would be read as several, or as a pattern.
    """
    if _NO_NAME.search(name):
        raise BadSigners(
            mark("signing", "'{name}' cannot stand among signers: a name has no quotation marks, commas, *, ? or !"),
            name=name,
        )
    return (
        f'{name if _NAMES.fullmatch(name) and name[0] != "#" else _in_quotes(name)} namespaces="{namespace}" {key.text}'
    )


def usual_shell() -> Shell:
    """Who reads commands on this computer."""
    return "cmd" if os.name == "nt" else "sh"


def verify_command(
    file: str,
    signature: str,
    name: str,
    namespace: str,
    signers: str = "allowed_signers",
    *,
    shell: Shell | None = None,
) -> str:
    """The command that verifies a signature where there is nothing but OpenSSH, in one line."""
    words = ("ssh-keygen", "-Y", "verify", "-f", signers, "-I", name, "-n", namespace, "-s", signature)
    return _command(words, file, shell or usual_shell())


def look_command(file: str, signature: str, namespace: str, *, shell: Shell | None = None) -> str:
    """The command that tells which key has signed, for whoever compares its fingerprint by eye, in one line."""
    words = ("ssh-keygen", "-Y", "check-novalidate", "-n", namespace, "-s", signature)
    return _command(words, file, shell or usual_shell())


def _command(words: Sequence[str], file: str, shell: Shell) -> str:
    quoted = shlex.quote if shell == "sh" else _quoted_for_cmd
    return f"{' '.join(map(quoted, words))} < {quoted(file)}"


def _quoted_for_cmd(word: str) -> str:
    """Between quotation marks nothing but % is special to the command prompt, and only around a variable's name."""
    return word if re.fullmatch(r"[\w@+:./\\-]+", word, re.ASCII) else _in_quotes(word)


def _in_quotes(word: str) -> str:
    return f'"{word}"'


# Reading a line -------------------------------------------------------------------------------------------------------


class _BadLine(FanlightError):
    """Says in words what is wrong with a line."""


def _signer(line: str) -> list[Signer]:
    """The signer of a line; none if no signature by its key is verified here. Raises BadKey, _BadLine."""
    names = _NAMES.match(line)
    if names is None:
        raise _BadLine(translate("signing", "a name that is not between two quotation marks, or not alone there"))
    key, options = line[names.end() :].strip(), ""
    if not key.startswith(_KINDS):
        word = _WORD.match(key)
        options = "" if word is None else word[0]
        key = key[len(options) :].strip()
    if not key.startswith(_KINDS):
        raise _BadLine(translate("signing", "a name and a key are needed, and options only between them"))
    values = _options(options)
    after, before = _time(values.get("valid-after")), _time(values.get("valid-before"))
    if after is not None and before is not None and before <= after:
        raise _BadLine(translate("signing", "valid-before is not later than valid-after"))
    if key.split(maxsplit=1)[0] in _OTHER_KINDS or "cert-authority" in values:
        return []
    namespaces = values.get("namespaces")
    return [
        Signer(
            tuple((names["quoted"] or names["plain"]).split(",")),
            PublicKey.from_text(key),
            () if namespaces is None else tuple(namespaces.split(",")),
            after,
            before,
        )
    ]


def _options(text: str) -> dict[str, str]:
    values: dict[str, str] = {}
    at = 0
    while at < len(text):
        option = _OPTION.match(text, at)
        name = "" if option is None else option["name"].lower()
        known = option is not None and (name in _VALUED if option["value"] is not None else name == "cert-authority")
        if option is None or not known or text[option.end() : option.end() + 1] not in ("", ","):
            raise _BadLine(translate("signing", "'{options}' are not options").format(options=text[at : at + 40]))
        if name in values and name in _VALUED:
            raise _BadLine(translate("signing", "{option} stands twice").format(option=name))
        values[name] = (option["value"] or "").replace('\\"', '"')
        at = option.end() + 1
        if at == len(text):
            raise _BadLine(translate("signing", "an option is missing behind the comma"))
    return values


def _time(text: str | None) -> datetime | None:
    """YYYYMMDD[HHMM[SS]][Z]; without Z (or UTC) it is the time of this computer."""
    if text is None:
        return None
    digits = re.sub(r"(Z|UTC)$", "", text, flags=re.IGNORECASE)
    try:
        if not (digits.isascii() and digits.isdecimal()):
            raise ValueError
        time = datetime.strptime(digits, _TIMES.get(len(digits), ""))
        return time.replace(tzinfo=UTC) if digits != text else time.astimezone(UTC)
    except (ValueError, OverflowError, OSError):
        raise _BadLine(translate("signing", "'{text}' is not a time such as 20270301").format(text=text[:20])) from None


def _matches(text: str, patterns: Iterable[str]) -> bool:
    """Whether one of the patterns is that of a text, and none that begins with ! is."""
    found = False
    for pattern in patterns:
        if fnmatchcase(text, pattern.removeprefix("!").replace("[", "[[]")):
            if pattern.startswith("!"):
                return False
            found = True
    return found
