"""The JSON Schema of the spec, short forms included, by which an editor completes keys."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from plangen.spec.model import Spec
from plangen.spec.model.base import OfKind, quantity_schema
from plangen.spec.quantity import KINDS
from plangen.spec.shape import shapes

_NAMES = {
    quantity_schema(OfKind(name, signed))["pattern"]: f"{name} signed" if signed else name
    for name in KINDS
    for signed in (False, True)
}


def spec_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a spec file."""
    schema = Spec.model_json_schema()
    definitions = schema.get("$defs", {})
    for name, model in _models(Spec).items():
        definition = definitions[name]
        _add_short_forms(definition, model)
        definition["properties"] |= {
            "remove": {"type": "boolean", "description": "yes: this item of the spec below isn't aboard"},
            "add": {
                "type": "boolean",
                "description": "yes: the spec below has no such item, this one is new",
            },
            "count": {"type": "integer", "minimum": 0, "description": "short form: so many of these"},
        }
        definition.pop("required", None)
    _add_short_forms(schema, Spec)
    text = {"type": "string"}
    schema["properties"]["extends"] = {
        "anyOf": [text, {"type": "array", "items": text}],
        "description": "spec files in the same folder over which this one is laid",
    }
    schema.pop("required", None)
    schema = _quantities_once(schema)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "plangen vessel spec",
        **schema,
    }


def _quantities_once(schema: dict[str, Any]) -> dict[str, Any]:
    """Write each kind of quantity once, and refer to it."""
    named: dict[str, Any] = {}

    def visit(value: Any) -> Any:
        if isinstance(value, list):
            return [visit(item) for item in value]
        if not isinstance(value, dict):
            return value
        pattern = value.get("pattern")
        if not isinstance(pattern, str) or pattern not in _NAMES:
            return {key: visit(item) for key, item in value.items() if key != "within"}
        name = f"quantity-{_NAMES[pattern].replace(' ', '-')}"
        named[name] = {key: value[key] for key in ("type", "pattern", "examples")}
        return {
            "$ref": f"#/$defs/{name}",
            **{key: item for key, item in value.items() if key not in named[name]},
        }

    result: dict[str, Any] = visit(schema)
    result["$defs"] |= dict(sorted(named.items()))
    return result


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
            if name == "formerly":
                properties[name] = {"anyOf": [properties[name]["items"], properties[name]]}
            continue
        one = {"$ref": f"#/$defs/{shape.model.__name__}"}
        description = model.model_fields[name].description or ""
        forms: list[dict[str, Any]] = [one, {"type": "boolean"}, {"type": "string"}]
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
