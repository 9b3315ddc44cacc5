"""What validation finds, in our own words."""

from __future__ import annotations

import pytest

from app.project_file.files import ProjectFileError, parse

HEAD = 'format = 2\n[panel]\nstart = "run"\n[[screen]]\nname = "run"\n'
SIGNAL = '[[signal]]\nname = "x"\n'
LINE = '[[line]]\nname = "hall"\n'
FIELD = '[[screen.field]]\nsignal = "x"\n'
HELD = SIGNAL + "held = 1\n"


def problems(text: str) -> list[str]:
    with pytest.raises(ProjectFileError) as caught:
        parse(text)
    return [str(problem) for problem in caught.value.problems]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("format = 2\n", "project: 'panel' is missing; add [panel] with start = the name of the first screen"),
        ("format = 2\npanel = 5\n", "panel: must be a table, not a whole number"),
        ("format = 2\n[panel]\nstart = 5\n", "panel, start: must be a text, not a whole number"),
        ("format = 2\n[panel]\n[[screen]]\nname='a'\n", "panel: 'start' is missing; enter the first screen"),
        (HEAD + '[line]\nname = "hall"\n', "line: needs a list of tables; write [[line]] instead of [line]"),
        (
            HEAD + "[screen.field]\nwidth = 5\n",
            "screen 'run', field: needs a list of tables; write [[screen.field]] instead of",
        ),
        (HEAD + LINE, "line 'hall': 'kind' is missing; write 'serial', 'tcp' or 'serial-over-tcp'"),
        (
            HEAD + LINE + 'kind = "tpc"\n',
            "line 'hall', kind: must be 'serial', 'tcp' or 'serial-over-tcp', not 'tpc'; did you mean 'tcp'?",
        ),
        (HEAD + LINE + "kind = 5\n", "line 'hall', kind: must be 'serial', 'tcp' or 'serial-over-tcp', not 5"),
        (
            HEAD + LINE + 'kind = "tcp"\nhost = "h"\nbaud = 9600\n',
            "line 'hall': 'baud' is not a key of a line of kind 'tcp'; possible keys: name, kind, host, port, "
            "timeout_ms",
        ),
        (HEAD + LINE + 'kind = "tcp"\nhost = ""\n', "line 'hall', host: is empty"),
        (
            HEAD + LINE + 'kind = "tcp"\nhost = "h"\nport = 70000\n',
            "line 'hall', port: must be at most 65535, not 70000",
        ),
        (
            HEAD + LINE + 'kind = "serial"\ndevice = "d"\nstop_bits = 3\n',
            "line 'hall', stop_bits: must be 1 or 2, not 3",
        ),
        (HEAD + '[[line]]\nkind = "tcp"\nhost = "h"\n', "line 1: 'name' is missing"),
        (HEAD + SIGNAL, "signal 'x': 'follower' is missing"),
        (HEAD + SIGNAL + "held = true\n", "signal 'x', held: must be a number, not true or false"),
        (HEAD + SIGNAL + "held = nan\n", "signal 'x', held: must be a finite number"),
        (HEAD + SIGNAL + "held = 1e99\n", "signal 'x', held: has more than 40 digits"),
        (HEAD + HELD + "step = 0\n", "signal 'x', step: must be a number above 0, not 0"),
        (HEAD + HELD + "decimals = 1.5\n", "signal 'x', decimals: must be a whole number, not a number with decimals"),
        (HEAD + HELD + "decimals = 10\n", "signal 'x', decimals: must be at most 9, not 10"),
        (HEAD + HELD + "limits = 5\n", "signal 'x', limits: must be a list, not a whole number"),
        (HEAD + HELD + "limits = [5]\n", "signal 'x', limits: needs 2 numbers, not 1"),
        (HEAD + HELD + "limits = [1, 2, 3]\n", "signal 'x', limits: can have at most 2, not 3"),
        (HEAD + HELD + "limits = [2, 'a']\n", "signal 'x', limits, item 2: must be a number, not a text"),
        (HEAD + HELD + "limits = [5, 1]\n", "signal 'x': the lower limit 5 is above the upper limit 1"),
        (HEAD + HELD + "unit = '12345678901234567'\n", "signal 'x', unit: has 17 characters; at most 16 are allowed"),
        (HEAD + HELD + "notes = 1979-05-27\n", "signal 'x', notes: must be a text, not a date or time"),
        (HEAD + HELD + "texts = { a = 'b' }\n", "signal 'x', state texts, a: 'a' is not a whole number"),
        (HEAD + HELD + "write = true\n", "signal 'x': 'write' is not a key of a held value"),
        (HEAD + SIGNAL + "bit = { of = 'x' }\n", "signal 'x', bit: 'number' is missing"),
        (
            HEAD + '[[signal]]\nname = " x"\nheld = 1\n',
            "name: starts or ends with a space, or contains a control character; remove it",
        ),
        (HEAD + '[[signal]]\nname = ""\nheld = 1\n', "signal 1, name: is empty"),
        (
            HEAD + SIGNAL + "follower = 'p'\nregister = 1\nstart_value = [1]\n",
            "signal 'x', start_value: must be a number or a text, not a list",
        ),
        (
            HEAD + SIGNAL + "follower = 'p'\nregister = 1\nstart_value = inf\n",
            "signal 'x', start_value: must be a finite number",
        ),
        (
            HEAD + SIGNAL + "follower = 'p'\nregister = 1\nscale = { raw = [0, 1], valeu = [0, 1] }\n",
            "did you mean 'value'?",
        ),
        (HEAD + FIELD + "at = [0]\nwidth = 1\n", "screen 'run', field 1, at: needs 2 numbers, not 1"),
        (
            HEAD + FIELD + "at = [0, 'a']\nwidth = 1\n",
            "screen 'run', field 1, at, item 2: must be a whole number, not a text",
        ),
        (
            HEAD + FIELD + "at = [0, 0]\nwidth = 1\nblink = { signal = 'x', is = 'over' }\n",
            "screen 'run', field 1, blink, is: must be 'set', 'clear', 'above', 'below' or 'equal', not 'over'",
        ),
        (HEAD.replace('name = "run"', 'name = "run"\ntext = ["a", 5]'), "screen 'run', text, row 2: must be a text"),
        (
            HEAD + '[[screen_change]]\nto = "run"\n',
            "screen change 1: a screen change needs exactly one of 'key', 'when' and 'idle_s'",
        ),
        (HEAD + '[[screen_change]]\nkey = "up"\n', "screen change 1: 'to' is missing"),
        (
            HEAD + '[[accepted]]\nrule = "x"\nabout = "y"\nreason = "z"\nwhy = 1\n',
            "accepted 1: 'why' is not a key of an accepted finding; possible keys: rule, about, reason",
        ),
        (
            HEAD + HELD + "[[action]]\nkey = 'up'\ndo = 'write'\nsignal = 'x'\nvalue = 'y'\n",
            'action 1, value: must be a number or { from = "the name of a held value" }, not a text',
        ),
        (
            HEAD + HELD + "[[action]]\nkey = 'up'\ndo = 'write'\nsignal = 'x'\nvalue = { form = 'x' }\n",
            "action 1, value: 'form' is not a key of a held value reference; did you mean 'from'?",
        ),
        (HEAD + "[sreen]\n", "project: 'sreen' is not a key of a project; did you mean 'screen'?"),
        (HEAD + '["\\u0007\\n"]\n', "project: '??' is not a key of a project"),
    ],
)
def test_the_words(text: str, words: str) -> None:
    found = problems(text)
    assert any(words in problem for problem in found), found
    # No jargon of the libraries, whatever else is told.
    for problem in found:
        for jargon in ("nput should", "Decimal", "tuple", "dict", "instance", "pydantic", "validat", "union", "tag"):
            assert jargon not in problem


def test_a_wrong_value_of_two_kinds_is_told_once() -> None:
    text = HEAD + HELD + "[[action]]\nkey = 'up'\ndo = 'write'\nsignal = 'x'\nvalue = ['y']\n"
    assert problems(text) == [
        'action 1, value: must be a number or { from = "the name of a held value" }, not a list',
    ]


def test_many_mistakes_are_cut_short() -> None:
    text = HEAD + "[[screen_change]]\n" * 5000
    with pytest.raises(ProjectFileError) as caught:
        parse(text)
    assert 1 < len(caught.value.problems) <= 3000
    assert str(caught.value).endswith("more")
    assert len(str(caught.value).splitlines()) < 40
