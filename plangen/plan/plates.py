"""What stands on the plate of a thing: maker, model, serial number, firmware; as one line on paper."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

#: In the order in which they are written on one line, with a stroke between them.
PLATE = ("maker", "model", "serial", "firmware")
PLATE_WORDS: Mapping[str, str] = {
    "maker": "maker",
    "model": "model",
    "serial": "serial number",
    "firmware": "firmware",
}
_BETWEEN = " / "
#: What a line of so many parts gives; the serial number is what is never left out.
_PARTS = {1: ("serial",), 2: ("model", "serial"), 3: ("maker", "model", "serial"), 4: PLATE}
_UNKNOWN = ("", "?", "-", "–", "…")


def plate_of(section: Any) -> dict[str, str]:
    """Return what the spec states of a thing's plate."""
    from plangen.spec.model.base import Equipment

    firmware = section.firmware if isinstance(section, Equipment) else None
    values = {name: getattr(section, name, None) for name in PLATE[:-1]} | {"firmware": firmware}
    return {name: str(value) for name, value in values.items() if value is not None}


def plate_shown(stated: Mapping[str, str]) -> str:
    """Return what is to be read, with what the spec states in its place.

    >>> plate_shown({"maker": "Pattern Diesel", "model": "PD 235"})
    'Pattern Diesel / PD 235 / ?'
    """
    if not stated:
        return "write down the plate"
    names = PLATE if "firmware" in stated else PLATE[:-1]
    return _BETWEEN.join(stated.get(name, "?") for name in names)


def plate_read(typed: object) -> dict[str, str]:
    """Return what was typed of a plate: the serial number alone, or with model, maker and firmware.

    >>> plate_read("Pattern Diesel / PD 235 / 4711"), plate_read(4711), plate_read("PD 235 / 4711")
    ({'maker': 'Pattern Diesel', 'model': 'PD 235', 'serial': '4711'}, {'serial': '4711'}, {'model': 'PD 235', 'serial': '4711'})
    """
    parts = [part.strip() for part in str(typed).split(_BETWEEN, len(PLATE) - 1)]
    return {name: part for name, part in zip(_PARTS[len(parts)], parts, strict=True) if part not in _UNKNOWN}


def differs(stated: str, found: str) -> bool:
    """Tell whether two words of a plate are different ones, capitals, blanks and signs apart.

    >>> differs("PD-235", "pd 235"), differs("PD-235", "PD-280")
    (False, True)
    """
    return _bare(stated) != _bare(found)


def _bare(text: str) -> str:
    return "".join(character for character in text.casefold() if character.isalnum())
