"""The lines of a line list, as people type them from wet paper: a code, what was read, photos, a remark."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from plangen.findings.days import day_of

_CODE = re.compile(r"(?:[-*•]\s+)?(?P<code>[0-9]+\.[0-9]+[a-z]{0,2})(?!\w|[.,]\S)", re.IGNORECASE)
_AFTER_CODE = re.compile(r"\s*(?:[:=);,.]|[-–—](?=\s))?\s*")
_PHOTO = r"(?:[\w-]*[0-9][\w-]*(?:\.(?:jpe?g|png|heic|webp|gif|tiff?))?)"
_PHOTOS = re.compile(
    rf"[,;]?\s*\b(?:photo|picture|pic)s?\.?\s*(?:no\.?|nos\.?|#)?\s*:?\s*(?P<names>{_PHOTO}(?:\s*(?:,|/|&|\+|\band\b|(?=\s[0-9]+(?:\s|$)))\s*{_PHOTO})*)(?=\s|[,;.)]|$)",
    re.IGNORECASE,
)
_BETWEEN_PHOTOS = re.compile(r"\s*(?:,|/|&|\+|;|\band\b|\s)\s*")
_REMARK = re.compile(r"[,;.]?\s*\b(?:remark|note|rem)s?\s*:\s*", re.IGNORECASE)
_FOUND = re.compile(r"(?:[-*•]\s+)?(?:also\s+)?found\s*[:;]\s*(?P<rest>.*)", re.IGNORECASE | re.DOTALL)
_PLAN = re.compile(r"(?:trial\s+)?(?:plan|digest)\s*[:;=]?\s*(?P<digest>[0-9a-f]{6,64})", re.IGNORECASE)
_BY = re.compile(r"(?:by|who|name)(?:\s*[:;=]\s*|\s+)(?P<by>\S+(?:\s+\S+){0,2})", re.IGNORECASE)
_NEXT = re.compile(
    r"\s+(?=by\s|(?:plan|digest)\s*[:=]?\s*[0-9a-f]{6,64}\b|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}\b|[0-9]{1,2}\.[0-9]{1,2}\.[0-9]{4}\b)",
    re.IGNORECASE,
)
_DAY = re.compile(r"(?:(?:date|day|when|on)(?:\s*[:;=]\s*|\s+))?(?P<day>.+)", re.IGNORECASE | re.DOTALL)


#: Words of a header behind which nothing was filled in.
_EMPTY = ("by", "who", "name", "date", "day", "when", "plan", "digest")


@dataclass(frozen=True)
class ListLine:
    """One line: where it stands, all that was typed, and what of it stands for what.

    `found` is what was found beside all checks; `code` is empty where the line names no reading.
    """

    where: str
    text: str
    code: str = ""
    answer: str = ""
    note: str = ""
    photos: tuple[str, ...] = ()
    found: str = ""


@dataclass(frozen=True)
class Head:
    """What a line says of the lines around it: who read them, on which day, of which plan, in a retest."""

    by: str = ""
    day: str = ""
    plan: str = ""
    is_retest: bool = False


@dataclass(frozen=True)
class LineList:
    """A line list: what it is called, and its lines."""

    name: str
    lines: tuple[ListLine, ...]


def lines_of_text(text: str, name: str) -> LineList:
    """Return the lines of a text in which anything stands."""
    rows = enumerate(text.split("\n"), start=1)
    return LineList(
        name, tuple(line_of(" ".join(row.split()), f"line {n}") for n, row in rows if row.strip())
    )


def line_of(text: str, where: str) -> ListLine:
    """Take a line apart.

    >>> line_of("7.3b 14,1 photo 12", "line 1")
    ListLine(where='line 1', text='7.3b 14,1 photo 12', code='7.3b', answer='14,1', note='', photos=('12',), found='')
    >>> line_of("found: cracked base, cockpit, photos 3 and 4", "line 2").photos
    ('3', '4')
    """
    found = _FOUND.fullmatch(text)
    code = None if found or day_of(text) else _CODE.match(text)
    if code is not None:
        rest = text[code.end() :]
        gap = _AFTER_CODE.match(rest)
        return line_of_parts(where, text, code["code"], rest[gap.end() if gap else 0 :])
    if found is not None:
        rest, photos = _without_photos(found["rest"])
        return ListLine(where, text, photos=photos, found=rest)
    return ListLine(where, text)


def line_of_parts(where: str, text: str, code: str, answer: str, note: str = "", photo: str = "") -> ListLine:
    """Return the line of a code, where photos and remark may stand within what was read or apart from it."""
    rest, photos = _without_photos(answer)
    before, *after = _REMARK.split(rest, maxsplit=1)
    notes = [part for part in (*after, note) if part]
    photos += photo_names(photo)
    return ListLine(where, text, code, before.strip(), "; ".join(notes), tuple(dict.fromkeys(photos)))


def photo_names(text: str) -> tuple[str, ...]:
    """Return the photos that are named in a cell or behind the word photo.

    >>> photo_names("12, 13"), photo_names("IMG_7.jpg and IMG_8.jpg"), photo_names("")
    (('12', '13'), ('IMG_7.jpg', 'IMG_8.jpg'), ())
    """
    return tuple(name for name in _BETWEEN_PHOTOS.split(text.strip()) if name)


def _without_photos(text: str) -> tuple[str, tuple[str, ...]]:
    photos = tuple(name for match in _PHOTOS.finditer(text) for name in photo_names(match["names"]))
    return _PHOTOS.sub("", text).strip() if photos else text.strip(), photos


def head_of(text: str) -> Head | None:
    """Return what a line of the header says, in any order; nothing for a line that says anything else.

    >>> head_of("by AM, 2027-05-10, plan 3f9ac41e")
    Head(by='AM', day='2027-05-10', plan='3f9ac41e', is_retest=False)
    >>> head_of("10.5.2027"), head_of("by the sink it drips") is None, head_of("plan the next visit") is None
    (Head(by='', day='10.5.2027', plan='', is_retest=False), True, True)
    """
    parts = [part.strip() for part in re.split(r"[,;|]\s*", _NEXT.sub(", ", text)) if part.strip()]
    if day_of(text):
        return Head(day=text.strip())
    by: list[str] = []
    day = plan = ""
    is_retest = False
    for part in parts:
        match = _DAY.fullmatch(part)
        if part.casefold().rstrip(": ") in _EMPTY:
            continue
        if (found := _PLAN.fullmatch(part)) and not plan:
            plan = found["digest"].lower()
        elif match and day_of(match["day"]) and not day:
            day = match["day"]
        elif part.casefold() == "retest":
            is_retest = True
        elif name := _BY.fullmatch(part):
            by.append(name["by"])
        elif by and len(part) <= 20 and not any(c.isdigit() for c in part):
            by.append(part)
        else:
            return None
    return Head(", ".join(by), day, plan, is_retest) if parts else None


def heads(lines: Sequence[ListLine]) -> tuple[list[Head], set[int]]:
    """Return what counts as the header of each line, and which lines are the header.

    What is said once holds for the whole list, wherever it stands; what is said again holds from there on.
    """
    said = {
        index: head
        for index, line in enumerate(lines)
        if not line.code and not line.found and (head := head_of(line.text)) is not None
    }
    columns = {
        name: _from_there_on([getattr(said.get(index), name, "") for index in range(len(lines))])
        for name in ("by", "day", "plan")
    }
    is_retest = any(head.is_retest for head in said.values())
    return [
        Head(columns["by"][index], columns["day"][index], columns["plan"][index], is_retest)
        for index in range(len(lines))
    ], set(said)


def _from_there_on(said: Sequence[str]) -> list[str]:
    current = next((one for one in said if one), "")
    result = []
    for one in said:
        current = one or current
        result.append(current)
    return result
