"""The rows of the snag sheets: a settlement where a row names a check, something also found where it names none."""

from __future__ import annotations

import re
from collections.abc import Mapping

from pydantic import ValidationError

from plangen.collect.list_lines import photo_names
from plangen.collect.pdf_fields import FieldValue
from plangen.findings.days import day_of
from plangen.findings.model import AlsoFound, Settlement
from plangen.plan.model import Plan

_SETTLEMENTS = {
    "mended-before-handover": ("before handover", "mended before"),
    "mended-by-date": ("by a date", "by date", "mended by", "held back"),
    "price-reduced": ("price",),
    "accepted": ("accept",),
    "disputed": ("disput",),
}


_CELL = re.compile(r"snag/(?P<row>[0-9]+)/(?P<column>[a-z]+)(?:/(?P<choice>[a-z-]+))?")


def snag_rows(
    others: dict[str, FieldValue], plan: Plan, is_this_plan: bool
) -> tuple[dict[str, Settlement], tuple[AlsoFound, ...], list[str]]:
    """Take the rows of the snag sheets out of the other fields; what fits nothing is a remark.

    A row names a check by its code, which counts only on a sheet of this plan, or by its id.
    """
    ids = {check.id.casefold(): check.id for check in plan.checks}
    if is_this_plan:
        for check in plan.checks:
            ids |= {
                code.casefold(): check.id for code in (check.code, *(e.code for e in check.expect)) if code
            }
    snags: dict[str, Settlement] = {}
    found: list[AlsoFound] = []
    remarks: list[str] = []
    for row, cells in _cells(others).items():
        id = ids.get(cells.get("check", "").casefold())
        settlement = _settlement(cells) if id is not None else None
        also = _also_found(cells) if id is None else None
        if id is not None and settlement is not None and id not in snags:
            snags[id] = settlement
        elif also is not None:
            found.append(also)
        else:
            said = "; ".join(f"{column} {text}" for column, text in cells.items())
            remarks.append(f"snag sheet, row {row}: {said}")
    return snags, tuple(found), remarks


def _cells(others: dict[str, FieldValue]) -> dict[str, dict[str, str]]:
    rows: dict[str, dict[str, str]] = {}
    for name in list(others):
        match = _CELL.fullmatch(name)
        if match is None:
            continue
        own, column, value = rows.setdefault(match["row"], {}), match["column"], others.pop(name)
        text = match["choice"] if match["choice"] and value is True else str(value)
        own[column] = f"{own[column]} and {text}" if column in own else text
    return rows


def _also_found(cells: Mapping[str, str]) -> AlsoFound | None:
    """Return a row that names no check; nothing where it doesn't say what was found."""
    own = ("found", "place", "photo", "grade")
    settled = _settlement({column: text for column, text in cells.items() if column not in own})
    if not cells.get("found") or settled is None:
        return None
    grade = cells.get("grade")
    notes = [
        settled.note,
        f"check {cells['check']}" if cells.get("check") else None,
    ]
    try:
        return AlsoFound.model_validate(
            {
                **settled.model_dump(),
                "note": "; ".join(note for note in notes if note) or None,
                "what": cells["found"],
                "place": cells.get("place"),
                "grade": grade,
                "photos": photo_names(cells.get("photo", "")),
            }
        )
    except ValidationError:
        return None


def _settlement(cells: Mapping[str, str]) -> Settlement | None:
    """Return a row of the snag sheet as a settlement; what doesn't fit a key of its own goes into the note."""
    typed = cells.get("settlement", "").casefold().replace("-", " ")
    way = next((way for way, words in _SETTLEMENTS.items() if any(word in typed for word in words)), None)
    due = day_of(cells.get("by", ""))
    money = re.fullmatch(r"[0-9][0-9 ]*(\.[0-9]{2})? [A-Z]{3}", cells.get("sum", ""))
    kept = {"check", "who", *(["by"] if due else []), *(["sum"] if money else [])}
    exact = typed in (way or "").replace("-", " ")
    rest = [
        f"{column} {text}"
        for column, text in cells.items()
        if column not in kept and not (column == "settlement" and exact)
    ]
    try:
        return Settlement.model_validate(
            {
                "settlement": way,
                "who": cells.get("who"),
                "due": due,
                "sum": money[0] if money else None,
                "note": "; ".join(rest) or None,
            }
        )
    except ValidationError:
        return None
