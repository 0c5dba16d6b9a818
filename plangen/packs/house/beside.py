"""Whether a house file lies beside a spec."""

from __future__ import annotations

from pathlib import Path

#: What a house file is called that is found beside a spec.
HOUSE_FILE = "house.yaml"


def house_beside(spec: Path) -> Path | None:
    """Return the house file that lies beside a spec, if there is one."""
    if spec.name == HOUSE_FILE:
        return None
    for name in (HOUSE_FILE, "house.yml"):
        if (spec.parent / name).is_file():
            return spec.parent / name
    return None
