"""Writing plain values as YAML text, the same bytes for the same values."""

from __future__ import annotations

import io
from typing import Any

from ruamel.yaml import YAML


def yaml_text(data: Any, heading: str = "") -> str:
    """Return the YAML text of plain values, keys in their own order, below an optional comment line."""
    yaml = YAML(typ="safe", pure=False)
    yaml.default_flow_style = False
    yaml.allow_unicode = True
    yaml.width = 110
    yaml.representer.sort_base_mapping_type_on_output = False
    yaml.representer.ignore_aliases = lambda data: True
    stream = io.StringIO()
    yaml.dump(_plain(data), stream)
    return (f"# {heading}\n" if heading else "") + stream.getvalue()


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    if isinstance(value, float) and value == int(value) and abs(value) < 1e15:
        return int(value)
    return value
