"""Where a figure comes from, in words: its basis, and the number of its source in the list."""

from __future__ import annotations

from plangen.plan.model import Cited, Expectation, Plan
from plangen.print.words import BASIS_WORDS

_UNREAD = {
    "memory": "from memory, verify",
    "secondary": "as reported",
    "common-practice": "",
    "read": "",
    "computed": "",
    "": "",
}


def source_numbers(plan: Plan) -> dict[str, int]:
    """Return the number under which each source is listed at the end of the plan."""
    return {source.id: number for number, source in enumerate(plan.sources, start=1)}


def basis_text(expected: Expectation, numbers: dict[str, int]) -> str:
    """Write where an expected value comes from: basis, formula, source number and clause."""
    words = BASIS_WORDS.get(expected.basis, expected.basis)
    if expected.computed is not None:
        unit = f" {expected.unit}" if expected.unit else ""
        words += f"; computed {expected.computed:g}{unit}"
    where = source_text(expected.source, numbers)
    return f"{words} {where}".strip() if where else words


def source_text(source: Cited, numbers: dict[str, int]) -> str:
    """Write a source as its number in the list, with the clause."""
    if source.id in ("common-practice", "from-memory"):
        return "(from memory, verify)" if source.id == "from-memory" else ""
    known = _UNREAD.get(source.known_by, "")
    clause = f" {source.clause}" if source.clause else ""
    return f"[{numbers[source.id]}]{clause}{f' ({known})' if known else ''}"
