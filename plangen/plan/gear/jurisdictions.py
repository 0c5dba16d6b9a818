"""The jurisdictions and codes that a spec names."""

from __future__ import annotations

from plangen.spec.model import Spec
from plangen.spec.yaml_source import Node


def named_jurisdictions(spec: Spec) -> list[str]:
    """Return every jurisdiction and code that the spec names, the flag first."""
    use = spec.use
    names = [*([use.registry] if use.registry else []), *use.waters, *(code.code for code in use.codes)]
    return list(dict.fromkeys(names))


def named_in(node: Node) -> list[str]:
    """Return what a spec that isn't validated yet names, so that only the law packs of these are read."""
    use = (node.mapping or {}).get("use")
    keys = (use.mapping or {}) if use else {}
    written = [keys[key] for key in ("registry", "waters") if key in keys]
    codes = (
        [(item.mapping or {}).get("code") for item in (keys["codes"].items or [])] if "codes" in keys else []
    )
    listed = [item for node in written for item in (node.items if node.items is not None else [node])]
    return [str(item.value) for item in (*listed, *codes) if item is not None]
