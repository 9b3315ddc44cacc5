"""Rules about panels in several languages, each on a project that breaks only it."""

from __future__ import annotations

import pytest

from app.checks import Finding, check
from app.project.messages import MESSAGES
from app.project_file.files import parse

GOOD = """\
format = 2

[panel]
rows = 2
columns = 12
keys = ["f1"]
languages = ["english", "deutsch"]
language = "tongue"
start = "run"

[panel.messages_in.deutsch]
MESSAGES

[[line]]
name = "l"
kind = "tcp"
host = "192.0.2.7"

[[follower]]
name = "f"
line = "l"

[[signal]]
name = "tongue"
follower = "f"
register = 1
write = true
limits = [0, 1]
texts = { 0 = "GB", 1 = "DE" }

[[signal]]
name = "state"
held = 0
limits = [0, 1]
texts = { 0 = "halted", 1 = "running" }
texts_in = { deutsch = { 0 = "steht", 1 = "dreht" } }

[[screen]]
name = "run"
text = ["Pump:", ""]

[screen.text_in]
deutsch = ["Pumpe:", ""]

[[screen.field]]
at = [1, 5]
width = 7
signal = "state"
kind = "choice"

[[action]]
key = "f1"
do = "next-language"
""".replace("MESSAGES", "\n".join(f'{message} = "geht nicht"' for message in MESSAGES))


def found(text: str) -> list[Finding]:
    return [
        finding
        for finding in check(parse(text))
        if finding.rule in ("translation-missing", "translation-too-long", "translation-character", "language-choice")
    ]


def test_a_panel_that_is_wholly_translated_has_no_finding() -> None:
    assert found(GOOD) == []
    assert [finding for finding in check(parse(GOOD)) if finding.severity != "note"] == []


@pytest.mark.parametrize(
    ("old", "new", "rule", "severity", "place", "words"),
    [
        (
            '\n[screen.text_in]\ndeutsch = ["Pumpe:", ""]\n',
            "",
            "translation-missing",
            "warning",
            ("screen", 0),
            "its text is not translated into 'deutsch'",
        ),
        (
            '"Pumpe:", ""',
            '"", ""',
            "translation-missing",
            "warning",
            ("screen", 0, "text_in", "deutsch", 0),
            "'Pump:' has no translation in 'deutsch'",
        ),
        (
            '0 = "steht", 1',
            "1",
            "translation-missing",
            "warning",
            ("signal", 1),
            "its text 'halted' is not translated into 'deutsch'",
        ),
        (
            "texts_in = { deutsch = {",
            "notes = '''texts_in = { deutsch = {",
            "translation-missing",
            "warning",
            ("signal", 1),
            "2 of its texts are not translated into 'deutsch', including 'halted'",
        ),
        (
            '"Pumpe:", ""',
            '"Druckerhoehung", ""',
            "translation-too-long",
            "error",
            ("screen", 0, "text_in", "deutsch", 0),
            "the text has 14 characters, the panel 12 columns: 'ng' is lost",
        ),
        (
            '"Pumpe:", ""',
            '"Pumpe:", "", "Ende"',
            "translation-too-long",
            "error",
            ("screen", 0, "text_in", "deutsch", 2),
            "'Ende' is below the last of the panel's 2 rows",
        ),
        (
            '"Pumpe:", ""',
            '"Pumpe:", "   zu lang"',
            "translation-too-long",
            "warning",
            ("screen", 0, "text_in", "deutsch", 1),
            "the field of 'state' hides 'lang'",
        ),
        (
            '"dreht"',
            '"dreht sich"',
            "translation-too-long",
            "error",
            ("screen", 0, "field", 0),
            "'dreht sich', the 'deutsch' text of 'state' for 1, has 10 characters, but the field is 7 wide",
        ),
        (
            '"Pumpe:", ""',
            '"Füllung", ""',
            "translation-character",
            "error",
            ("screen", 0, "text_in", "deutsch", 0),
            "'Füllung' contains 'ü' (U+00FC), missing in the panel's character set 'ascii'; '?' would be shown",
        ),
        (
            '"dreht"',
            '"läuft"',
            "translation-character",
            "error",
            ("signal", 1),
            "'läuft' contains 'ä' (U+00E4)",
        ),
        (
            'language = "tongue"\n',
            "",
            None,
            "",
            (),
            "",
        ),
        (
            "write = true\nlimits",
            "limits",
            "language-choice",
            "error",
            ("action", 0),
            "it is refused: signal 'tongue' is read-only",
        ),
        (
            'limits = [0, 1]\ntexts = { 0 = "GB", 1 = "DE" }',
            'encoding = "string"\nlength = 2',
            "language-choice",
            "error",
            ("panel", "language"),
            "'tongue' is a text and cannot select the language",
        ),
    ],
)
def test_one_thing_wrong_is_one_finding(
    old: str, new: str, rule: str | None, severity: str, place: tuple[object, ...], words: str
) -> None:
    broken = GOOD.replace(old, new, 1)
    if "notes = '''" in new:
        broken = broken.replace('"dreht" } }', "\"dreht\" } }'''", 1)
    assert broken != GOOD
    findings = found(broken)
    if rule is None:
        assert findings == []
        return
    (finding,) = findings
    assert (finding.rule, finding.severity, finding.place) == (rule, severity, place)
    assert words in finding.message
    assert finding.hint


def test_languages_that_nobody_can_choose() -> None:
    text = GOOD.replace('language = "tongue"\n', "").replace('[[action]]\nkey = "f1"\ndo = "next-language"\n', "")
    (finding,) = found(text)
    assert (finding.rule, finding.severity, finding.place) == ("language-choice", "warning", ("panel", "languages"))
    assert "only 'english' is shown" in finding.message


def test_a_choice_of_one_language() -> None:
    text = (
        GOOD.replace("[panel.messages_in.deutsch]", "[panel.messages]")
        .replace('"english", "deutsch"', '"english"')
        .replace('[screen.text_in]\ndeutsch = ["Pumpe:", ""]\n', "")
        .replace('texts_in = { deutsch = { 0 = "steht", 1 = "dreht" } }\n', "")
    )
    assert [(finding.severity, finding.place) for finding in found(text)] == [
        ("error", ("action", 0)),
        ("warning", ("panel", "language")),
    ]


def test_the_signal_that_chooses_the_language_is_used() -> None:
    assert not [finding for finding in check(parse(GOOD)) if finding.rule == "unused"]
