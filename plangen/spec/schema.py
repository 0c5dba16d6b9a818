"""The JSON Schema of the spec, short forms included, by which an editor completes keys."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from plangen.spec.model import Spec
from plangen.spec.shape import shapes


def spec_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a spec file."""
    schema = Spec.model_json_schema()
    definitions = schema.get("$defs", {})
    models = _models(Spec)
    for name, definition in definitions.items():
        if name in models:
            _add_short_forms(definition, models[name])
            definition.setdefault("properties", {})["fitted"] = {
                "type": "boolean",
                "description": "no: this item of the model isn't aboard",
            }
            definition["properties"]["count"] = {
                "type": "integer",
                "minimum": 0,
                "description": "short form: so many of these",
            }
            definition.pop("required", None)
    _add_short_forms(schema, Spec)
    text = {"type": "string"}
    schema["properties"]["extends"] = {
        "anyOf": [text, {"type": "array", "items": text}],
        "description": "spec files in the same folder over which this one is laid",
    }
    schema.pop("required", None)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "plangen vessel spec",
        **schema,
    }


def _models(model: type[BaseModel]) -> dict[str, type[BaseModel]]:
    found: dict[str, type[BaseModel]] = {}
    for shape in shapes(model).values():
        if shape.model is not None and shape.model.__name__ not in found:
            found[shape.model.__name__] = shape.model
            found.update(_models(shape.model))
    return found


def _add_short_forms(definition: dict[str, Any], model: type[BaseModel]) -> None:
    properties = definition["properties"]
    for name, shape in shapes(model).items():
        if shape.model is None:
            continue
        one = {"$ref": f"#/$defs/{shape.model.__name__}"}
        description = model.model_fields[name].description or ""
        forms: list[dict[str, Any]] = [one, {"type": "boolean"}]
        if shape.is_list:
            items = {"anyOf": [one, {"type": "string"}]} if shape.named else one
            forms = [
                {"type": "array", "items": items},
                *forms,
                {"type": "integer", "minimum": 0, "maximum": 200},
            ]
        properties[name] = {"anyOf": forms, "description": description}
        if shape.singular:
            properties[shape.singular] = {**properties[name], "description": f"the same as {name}"}
