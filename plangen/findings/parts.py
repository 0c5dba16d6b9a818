"""The parts of a reading that somebody named as bad."""

from __future__ import annotations

import re

from plangen.findings.model import Typed
from plangen.plan.model import Expectation
from plangen.spec.names import slug

_NO_WITH_PARTS = re.compile(r"(?:no|not)\s*[:;,-]\s*(?P<parts>.+)", re.IGNORECASE | re.DOTALL)
BETWEEN_PARTS = re.compile(r"\s*[,;/]\s*|\s+and\s+")


def bad_parts(expected: Expectation, typed: Typed) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Return the parts that were named as bad, those that the reading has and others; nothing where none was named.

    They may be typed as a list, or as text behind `no:`; a part goes by its words, by some of them that only it
    has, or by its place.
    """
    if not expected.parts or typed is None or isinstance(typed, bool):
        return None
    if isinstance(typed, list):
        named = [str(part) for part in typed if part not in (None, "")]
    else:
        match = _NO_WITH_PARTS.fullmatch(str(typed).strip())
        if match is None:
            return None
        whole = part_meant(match["parts"], expected.parts)
        named = [whole] if whole else [part for part in BETWEEN_PARTS.split(match["parts"]) if part]
    found = [(part, part_meant(part, expected.parts)) for part in named]
    known = tuple(dict.fromkeys(part for _, part in found if part))
    return known, tuple(part for part, meant in found if meant is None)


def part_meant(typed: str, parts: tuple[str, ...]) -> str | None:
    """Return the part that is meant.

    >>> part_meant("vent", ("drain", "vent hose")), part_meant("2", ("drain", "vent hose")), part_meant("hose", ("drain hose", "vent hose"))
    ('vent hose', 'vent hose', None)
    """
    name = slug(typed)
    if typed.strip().isdecimal():
        return parts[int(typed) - 1] if 0 < int(typed) <= len(parts) else None
    exact = [part for part in parts if slug(part) == name]
    like = [part for part in parts if f"-{name}-" in f"-{slug(part)}-"]
    return exact[0] if exact else like[0] if len(like) == 1 else None
