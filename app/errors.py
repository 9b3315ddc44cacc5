"""The one base of what Fanlight cannot do, for whoever has to tell a person why.

The class is the kind, which code may ask for. The sentence is for people alone, and made where it is shown, in the
language that is spoken there: what is kept is its English template with the parameters. No code reads a sentence.
"""

from __future__ import annotations

from app.language import Template


class FanlightError(Exception):
    """Something cannot be done. As text: what happened and what to do, in one sentence.

    `code` is that sentence in English, before its `parameters` are put in: a template of `app.language.mark`, or a text
    that is whole already. `place` names what it concerns (a file, mostly), where the sentence does not.
    """

    def __init__(self, code: str = "", /, *, place: str = "", **parameters: object) -> None:
        super().__init__(code)
        self.code = code
        self.place = place
        self.parameters = parameters

    def __str__(self) -> str:
        if not isinstance(self.code, Template):
            return self.code
        return self.code.translated().format(**self.parameters)
