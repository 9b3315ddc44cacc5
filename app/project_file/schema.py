"""The JSON Schema of the project file, for editors that complete and check as one types.

`python -m app.project_file.schema` writes it anew to resources/project.schema.json, after every change of the models.
It says less than the program: names that point to nothing and the like are found only by loading.
"""

from __future__ import annotations

import json
import sys
from importlib.resources import files
from pathlib import Path
from typing import Any, Final

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from app.project.attributes import ATTRIBUTES
from app.project.model import Part, Project

SCHEMA_FILE: Final = "project.schema.json"
"""Its name in resources/."""


class _OfTheFile(GenerateJsonSchema):
    """What the file can hold: a plain number where the models have `Decimal`, nothing where they have None."""

    def decimal_schema(self, schema: core_schema.DecimalSchema) -> JsonSchemaValue:  # noqa: ARG002
        return {"type": "number"}

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        told = super().default_schema(schema)
        if told.get("default", ...) is None:
            del told["default"]
        return told

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


def schema() -> dict[str, Any]:
    """The schema, made from the models."""
    made = schema_of(Project)
    _require(made, "format")
    for line in ("SerialLine", "TcpLine", "SerialOverTcpLine"):
        _require(made["$defs"][line], "kind")
    for signal in ("RegisterSignal", "BitSignal", "HeldSignal"):
        for key, told in made["$defs"][signal]["properties"].items():
            if hint := ATTRIBUTES[key].hint:
                told.setdefault("description", f"{hint}.")
    return {"$schema": GenerateJsonSchema.schema_dialect, "title": "Fanlight project", **made}


def schema_of(model: type[Part]) -> dict[str, Any]:
    """The schema of a file that a model is the whole of."""
    return _tidy(model.model_json_schema(by_alias=True, schema_generator=_OfTheFile))  # type: ignore[no-any-return]


def _tidy(node: Any) -> Any:
    """Without titles that only repeat the key, and with the bounds of numbers in the schema's own words."""
    if isinstance(node, list):
        return [_tidy(item) for item in node]
    if not isinstance(node, dict):
        return node
    tidy = {key: _tidy(value) for key, value in node.items() if not (key == "title" and isinstance(value, str))}
    tidy.pop("max_digits", None)
    for ours, theirs in (("gt", "exclusiveMinimum"), ("ge", "minimum"), ("le", "maximum")):
        if isinstance(tidy.get(ours), int | float) and "type" in tidy:
            tidy[theirs] = tidy.pop(ours)
    if tidy.get("type") == "number" and isinstance(tidy.get("default"), str):
        tidy["default"] = json.loads(tidy["default"])  # pydantic writes decimals as texts
    if "patternProperties" in tidy:
        tidy["additionalProperties"] = False
    return tidy


def schema_text() -> str:
    """The schema as its file has it."""
    return json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"


def _require(table: dict[str, Any], key: str) -> None:
    """What has a default in the models and yet must be said in the file."""
    table["required"] = [key, *(other for other in table.get("required", []) if other != key)]


def main() -> int:
    """Write the schema anew."""
    path = Path(str(files("resources"))) / SCHEMA_FILE
    path.write_text(schema_text(), encoding="utf-8", newline="\n")
    sys.stdout.write(f"written: {path}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
