"""Whose signatures count: a file as `ssh-keygen` calls it allowed signers (ALLOWED SIGNERS in its manual), and how
somebody without this program verifies a signature."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from app.errors import FanlightError
from app.language import mark, translate
from app.signing.sshsig import BadSignature, PublicKey

LARGEST_FILE: Final = 1024 * 1024
_KINDS: Final = ("ssh-", "ecdsa-", "sk-")
_OPTION: Final = re.compile(r'(?P<name>[a-z-]+)(?:="(?P<value>[^"]*)")?(?:,|$)')


class BadSigners(FanlightError):
    """A file of signers cannot be used; the message names the lines."""


@dataclass(frozen=True, slots=True)
class Signer:
    """One line: who, with which key, for which purposes (none: all), and from when to when."""

    names: tuple[str, ...]
    key: PublicKey
    namespaces: tuple[str, ...] = ()
    after: datetime | None = None
    before: datetime | None = None

    def may_sign(self, namespace: str, at: datetime) -> bool:
        """Whether a signature for this purpose, made then, counts."""
        known = not self.namespaces or namespace in self.namespaces
        return known and (self.after is None or at >= self.after) and (self.before is None or at < self.before)


def load_signers(path: Path) -> tuple[Signer, ...]:
    """The signers in a file. Keys of other kinds than ed25519 are left out. Raises BadSigners with all bad lines."""
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
        text = content.decode("utf-8-sig")
    except OSError as why:
        raise BadSigners(
            mark("signing", "{file} cannot be read: {why}"), file=path, why=why.strerror or str(why)
        ) from None
    except UnicodeDecodeError:
        raise BadSigners(mark("signing", "{file} is not a text file"), file=path) from None
    if len(content) > LARGEST_FILE:
        raise BadSigners(mark("signing", "{file} is too large for a file of signers"), file=path)
    found: list[Signer] = []
    wrong: list[str] = []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        try:
            found += _signer(line)
        except (BadSignature, ValueError) as why:
            wrong.append(translate("signing", "line {number}: {why}").format(number=number, why=why))
    if wrong:
        raise BadSigners(mark("signing", "{file}: {wrong}"), file=path, wrong="; ".join(wrong[:20]))
    return tuple(found)


def signers_line(name: str, key: PublicKey, namespace: str) -> str:
    """The line to hand over for one's own key, by another way than the signature."""
    return f'{name} namespaces="{namespace}" {key.text}'


def verify_command(file: str, signature: str, name: str, namespace: str, signers: str = "allowed_signers") -> str:
    """The command that verifies a signature where there is nothing but OpenSSH, as sh and cmd take it."""
    words = ("ssh-keygen", "-Y", "verify", "-f", signers, "-I", name, "-n", namespace, "-s", signature)
    return f"{' '.join(map(_quoted, words))} < {_quoted(file)}"


def look_command(file: str, signature: str, namespace: str) -> str:
    """The command that tells which key has signed, for whoever compares its fingerprint by eye."""
    words = ("ssh-keygen", "-Y", "check-novalidate", "-n", namespace, "-s", signature)
    return f"{' '.join(map(_quoted, words))} < {_quoted(file)}"


def _signer(line: str) -> Iterator[Signer]:
    names, rest = _first_word(line.strip())
    options, key = ("", rest) if rest.startswith(_KINDS) else _first_word(rest)
    if not key:
        raise ValueError(translate("signing", "needs a name and a key"))
    if not key.startswith("ssh-ed25519 "):
        return
    values: dict[str, str] = {}
    at = 0
    while at < len(options):
        option = _OPTION.match(options, at)
        if option is None:
            raise ValueError(translate("signing", "'{options}' are not options").format(options=options[at : at + 40]))
        values[option["name"]] = option["value"] or ""
        at = option.end()
    if "cert-authority" in values:
        return
    yield Signer(
        tuple(names.strip('"').split(",")),
        PublicKey.from_text(key),
        tuple(filter(None, values.get("namespaces", "").split(","))),
        _time(values.get("valid-after")),
        _time(values.get("valid-before")),
    )


def _first_word(text: str) -> tuple[str, str]:
    """The first word of a line, in which blanks may stand between quotation marks, and what follows."""
    found = re.match(r'(?:"[^"]*"|[^\s"])+', text)
    return ("", text) if found is None else (found[0], text[found.end() :].strip())


def _time(text: str | None) -> datetime | None:
    """YYYYMMDD[HHMM[SS]][Z] of such a file; without Z it is the time of this computer."""
    if text is None:
        return None
    digits = text.removesuffix("Z")
    forms = {8: "%Y%m%d", 12: "%Y%m%d%H%M", 14: "%Y%m%d%H%M%S"}
    if len(digits) not in forms:
        raise ValueError(translate("signing", "'{text}' is not a time such as 20270301").format(text=text[:20]))
    time = datetime.strptime(digits, forms[len(digits)])
    return time.replace(tzinfo=UTC) if text.endswith("Z") else time.astimezone(UTC)


def _quoted(word: str) -> str:
    """A word that sh and cmd read alike, as long as it has no quotation mark in it."""
    if re.fullmatch(r"[\w@%+=:,./-]+", word, re.ASCII):
        return word
    return shlex.quote(word) if any(letter in word for letter in '"$`\\!%') else f'"{word}"'
