"""What a field page hands over, read from its file: .json, or the same as .txt. Nothing in it is trusted."""

from __future__ import annotations

import base64
import binascii
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NoReturn

from plangen.collect.field_names import read_plan_value
from plangen.plan.boat_identity import BoatIdentity
from plangen.spec.problems import InputProblems, Mark, Problem

FORMAT = "plangen-field/1"
LARGEST_EXPORT = 268_435_456
LARGEST_PHOTO = 16_777_216
_LONGEST_TEXT = 4_000
_MOST_ROWS = 20_000
_MOST_PHOTOS = 2_000
#: Lists, objects and members in the whole of a file; photos have none of their signs in them.
_MOST_PARTS = 2_000_000
_MOST_POINTS = 200
_MOST_OTHERS = 20
_ACCEPTED = "a file that the field page of this boat handed over, whole"


@dataclass(frozen=True)
class ExportedReading:
    """One reading as it was typed, by whom and when, with what, and which verdict the page showed."""

    check: str
    reading: str
    typed: str | tuple[str | None, ...]
    by: str
    at: str
    used: str = ""
    shown: str = ""


@dataclass(frozen=True)
class ExportedLine:
    """A remark and photos that belong to a check."""

    check: str
    note: str
    photos: tuple[str, ...]
    by: str
    at: str


@dataclass(frozen=True)
class ExportedRound:
    """When a round was done, and by whom."""

    number: str
    start: str
    end: str
    by: str
    at: str


@dataclass(frozen=True)
class ExportedFound:
    """Something found that belongs to no check."""

    what: str
    place: str
    grade: str
    photos: tuple[str, ...]
    by: str
    at: str


@dataclass(frozen=True)
class ExportedSeen:
    """Whether something that was found beside the checks is seen mended."""

    id: str
    mended: bool
    note: str
    by: str
    at: str


@dataclass(frozen=True)
class FieldExport:
    """All that one field page hands over; `earlier` says how many attempts a retest's page knew of each check."""

    name: str
    boat: BoatIdentity
    digest: str
    units: str | None
    attempt: int
    earlier: Mapping[str, int]
    readings: tuple[ExportedReading, ...]
    lines: tuple[ExportedLine, ...]
    rounds: tuple[ExportedRound, ...]
    found: tuple[ExportedFound, ...]
    photos: tuple[tuple[str, bytes], ...]
    seen: tuple[ExportedSeen, ...] = ()
    faults: tuple[str, ...] = ()


def is_export(text: str) -> bool:
    """Tell whether a text looks like the file of a field page, whatever its name ends in."""
    return text.lstrip("\ufeff \t\r\n").startswith("{") and f'"{FORMAT}"' in text[:400]


def read_export(text: str, name: str) -> FieldExport:
    """Read the file of a field page.

    Raises `InputProblems` for what isn't one, or isn't whole; rows that can't be read are faults of the result.
    """
    if len(text) > LARGEST_EXPORT or sum(text.count(mark) for mark in "{[,") > _MOST_PARTS:
        raise _no_export(name, "a larger file than any field page makes")
    try:
        root = json.loads(text.lstrip("\ufeff"), parse_constant=_refuse)
    except (ValueError, RecursionError) as error:
        raise _no_export(name, "no JSON, or not all of it") from error
    if not isinstance(root, dict) or root.get("format") != FORMAT:
        raise _no_export(name, f"a file without format {FORMAT!r}")
    if not isinstance(root.get("boat"), dict) or not _text(root.get("plan")):
        raise _no_export(name, "a file that doesn't say which boat and plan it is of")
    boat, _ = read_plan_value(json.dumps(_identity(root["boat"])))
    faults: list[str] = []
    rows = _Rows(root, faults)
    stray = [_stray(row) for row in rows.of("stray")]
    lines = rows.of("lines")
    used = {_text(row.get("check"), 300): _text(row.get("with"), 200) for row in lines}
    return FieldExport(
        name=name,
        boat=boat,
        digest=_text(root.get("plan")),
        units=units if (units := root.get("units")) in ("metric", "us", "both") else None,
        attempt=max(1, _whole(root.get("attempt"), 1)),
        earlier={
            _text(id): max(0, _whole(count, 0))
            for id, count in (
                root["earlier"] if isinstance(root.get("earlier"), dict) else {}
            ).items()
        },
        readings=tuple(
            one for row in (*rows.of("readings"), *stray) for one in _readings(row, used) if one.typed
        ),
        lines=tuple(
            ExportedLine(_text(row.get("check")), _text(row.get("note")), _names(row), *_signed(row))
            for row in lines
        ),
        rounds=tuple(
            ExportedRound(
                str(_whole(row.get("number"), 0)),
                _text(row.get("from"), 10),
                _text(row.get("to"), 10),
                *_signed(row),
            )
            for row in rows.of("rounds")
        ),
        found=tuple(
            ExportedFound(
                _text(row.get("what")), _text(row.get("place")), _text(row.get("grade")), _names(row), *_signed(row)
            )
            for row in rows.of("also_found")
        ),
        photos=tuple(_photos(rows.of("photos", _MOST_PHOTOS), faults)),
        seen=tuple(
            ExportedSeen(_text(row.get("id"), 300), row.get("mended") is True, _text(row.get("note")), *_signed(row))
            for row in rows.of("also_seen")
        ),
        faults=tuple(faults),
    )  # fmt: skip


class _Rows:
    """The lists of an export, each of which holds only so many rows."""

    def __init__(self, root: Mapping[str, Any], faults: list[str]) -> None:
        self.root = root
        self.faults = faults

    def of(self, key: str, most: int = _MOST_ROWS) -> list[dict[str, Any]]:
        """Return the rows of a list; what isn't one is a fault."""
        given = self.root.get(key)
        if given is None:
            return []
        rows = [row for row in given if isinstance(row, dict)] if isinstance(given, list) else []
        if not isinstance(given, list) or len(rows) < len(given):
            self.faults.append(f"{key}: not as a field page writes it; what can't be read was left out")
        if len(rows) > most:
            self.faults.append(f"{key}: more than {most}; the rest was left out")
        return rows[:most]


def _readings(row: Mapping[str, Any], used: Mapping[str, str]) -> list[ExportedReading]:
    """Return what was typed for a reading, and what others typed for it; `used` are the instruments by check."""
    check, reading = _text(row.get("check"), 300), _text(row.get("reading"), 300)
    by, at = _signed(row)
    own = ExportedReading(
        check, reading, _typed(row.get("typed")), by, at, _text(row.get("with"), 200) or used.get(check, ""), _text(row.get("shown"), 40)
    )  # fmt: skip
    others = row.get("others")
    return [own] + [
        ExportedReading(check, reading, _typed(other.get("typed")), *_signed(other))
        for other in (others if isinstance(others, list) else [])[:_MOST_OTHERS]
        if isinstance(other, dict)
    ]


def _stray(row: Mapping[str, Any]) -> dict[str, Any]:
    """Return a value that the page couldn't place as a row of readings."""
    check, _, reading = _text(row.get("key"), 600).partition("#")
    return {**row, "check": check, "reading": reading}


def _typed(value: object) -> str | tuple[str | None, ...]:
    if isinstance(value, list):
        points = tuple(_text(one) or None for one in value[:_MOST_POINTS])
        return points if any(points) else ""
    return _text(value)


def _text(value: object, longest: int = _LONGEST_TEXT) -> str:
    """Return a text without blank edges and halves of surrogate pairs; a number as it is written."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        value = str(value)
    if not isinstance(value, str):
        return ""
    return value[:longest].encode("utf-16", "surrogatepass").decode("utf-16", "replace").strip()


def _whole(value: object, otherwise: int) -> int:
    return (
        value if isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10_000 else otherwise
    )


def _signed(row: Mapping[str, Any]) -> tuple[str, str]:
    return _text(row.get("by"), 100), _text(row.get("at"), 40)


def _names(row: Mapping[str, Any]) -> tuple[str, ...]:
    names = row.get("photos")
    return tuple(
        dict.fromkeys(
            name
            for one in (names if isinstance(names, list) else [])[:_MOST_PHOTOS]
            if (name := _text(one, 200))
        )
    )


def _photos(rows: list[dict[str, Any]], faults: list[str]) -> list[tuple[str, bytes]]:
    from plangen.collect.field_photos import is_photo

    found: list[tuple[str, bytes]] = []
    for row in rows:
        name, data = _text(row.get("name"), 200), row.get("data")
        content = _decoded(data) if isinstance(data, str) else None
        if not name or content is None or not is_photo(content):
            faults.append(f"photo {name or 'without a name'}: no picture that a camera makes; left out")
            continue
        found.append((name, content))
    return found


def _decoded(data: str) -> bytes | None:
    if len(data) > LARGEST_PHOTO * 4 // 3 + 4:
        return None
    try:
        return base64.b64decode(data, validate=True)
    except (binascii.Error, ValueError):
        return None


def _identity(boat: Mapping[str, Any]) -> dict[str, Any]:
    length, formerly = boat.get("length_hull"), boat.get("formerly")
    return {
        "name": " ".join(_text(boat.get("name"), 300).split()),
        "hull_id": _text(boat.get("hull_id"), 100) or None,
        "hull": _text(boat.get("hull"), 100) or None,
        "length_hull": float(length) if isinstance(length, (int, float)) and abs(length) < 1e6 else None,
        "formerly": [_text(one, 300) for one in formerly[:100]] if isinstance(formerly, list) else [],
    }


def _refuse(constant: str) -> NoReturn:
    raise ValueError(f"{constant} is no JSON")


def _no_export(name: str, found: str) -> InputProblems:
    return InputProblems([Problem(Mark(name), "", found, _ACCEPTED)])
