"""Whether a house file lies beside a spec."""

from __future__ import annotations

from pathlib import Path

#: What a house file is called that is found beside a spec, and how it may be spelt as well.
HOUSE_FILE = "house.yaml"
HOUSE_FILES = (HOUSE_FILE, "house.yml")


def house_beside(spec: Path) -> Path | None:
    """Return the house file that lies beside a spec, if there is one."""
    if spec.name in HOUSE_FILES:
        return None
    for name in HOUSE_FILES:
        if (spec.parent / name).is_file():
            return spec.parent / name
    return None
