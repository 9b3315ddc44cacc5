"""The JSON Schema of the trial file, for editors that complete and check as one types.

`python -m app.trial.schema` writes it anew to resources/trial.schema.json, after every change of the models.
"""

from __future__ import annotations

import json
import sys
from importlib.resources import files
from pathlib import Path
from typing import Any, Final

from pydantic.json_schema import GenerateJsonSchema

from app.project_file.schema import schema_of
from app.trial.script import Trial

SCHEMA_FILE: Final = "trial.schema.json"
"""Its name in resources/."""


def schema_text() -> str:
    """The schema as its file has it."""
    made: dict[str, Any] = schema_of(Trial)
    made["required"] = ["format", *(key for key in made.get("required", []) if key != "format")]
    whole = {"$schema": GenerateJsonSchema.schema_dialect, "title": "Fanlight trial", **made}
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"


def main() -> int:
    """Write the schema anew."""
    path = Path(str(files("resources"))) / SCHEMA_FILE
    path.write_text(schema_text(), encoding="utf-8", newline="\n")
    sys.stdout.write(f"written: {path}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
