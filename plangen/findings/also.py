"""Ids for what was found beside all checks, made of what and where it is."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.findings.model import AlsoFound, Findings
from plangen.spec.names import slug


def also_found_ids(findings: Findings) -> Mapping[str, AlsoFound]:
    """Return what was also found by ids made of what and where it is, in the order of the file."""
    found: dict[str, AlsoFound] = {}
    for one in findings.also_found:
        words = slug(" ".join(part for part in (one.what, one.place) if part))[:60].strip("-")
        plain = f"also-found@{words or 'boat'}"
        number, id = 1, plain
        while id in found:
            number += 1
            id = f"{plain}~{number}"
        found[id] = one
    return found
