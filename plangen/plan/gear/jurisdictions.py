"""The jurisdictions, waters and codes that a spec names."""

from __future__ import annotations

from plangen.spec.yaml_source import Node


def named_in(node: Node) -> list[str]:
    """Return what a spec that isn't validated yet names, so that only the law packs of these are read."""
    use = (node.mapping or {}).get("use")
    keys = (use.mapping or {}) if use else {}
    written = [keys[key] for key in ("registry", "waters", "cruise") if key in keys]
    codes = (
        [(item.mapping or {}).get("code") for item in (keys["codes"].items or [])] if "codes" in keys else []
    )
    listed = [item for node in written for item in (node.items if node.items is not None else [node])]
    return ["-".join(str(item.value).lower().split()) for item in (*listed, *codes) if item is not None]
