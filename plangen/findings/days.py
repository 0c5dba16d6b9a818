"""Days as people write them, read where there's one way only."""

from __future__ import annotations

import datetime
import re

_MONTHS = {
    name: number
    for number, name in enumerate(
        ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"), start=1
    )
}
_YEAR_FIRST = re.compile(r"([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})")
_YEAR_LAST = re.compile(r"([0-9]{1,2})\s*([-/.])\s*([0-9]{1,2})\s*\2\s*([0-9]{4})")
_DAY_WORD = re.compile(r"([0-9]{1,2})(?:st|nd|rd|th|\.)?\s+([a-z]{3,9})\.?,?\s+([0-9]{4})")
_WORD_DAY = re.compile(r"([a-z]{3,9})\.?\s+([0-9]{1,2})(?:st|nd|rd|th)?,?\s+([0-9]{4})")


def day_of(text: str) -> datetime.date | None:
    """Return the day that was written, or nothing where it may be one or another.

    >>> day_of("2027-03-14"), day_of("14.3.2027") == day_of("March 14, 2027") == day_of("14 Mar 2027")
    (datetime.date(2027, 3, 14), True)
    >>> day_of("3/4/2027") is None, day_of("14/3/2027")
    (True, datetime.date(2027, 3, 14))
    """
    written = text.strip().casefold()
    if match := _YEAR_FIRST.fullmatch(written):
        return _day(match[1], match[2], match[3])
    if match := _YEAR_LAST.fullmatch(written):
        first, second, year = match[1], match[3], match[4]
        if match[2] == "." or first == second or int(first) > 12:
            return _day(year, second, first)
        return _day(year, first, second) if int(second) > 12 else None
    if match := _DAY_WORD.fullmatch(written):
        return _day(match[3], _month(match[2]), match[1])
    if match := _WORD_DAY.fullmatch(written):
        return _day(match[3], _month(match[1]), match[2])
    return None


def last_day_of(text: str) -> datetime.date | None:
    """Return the last day of a month that was written with its year, as expiry dates are.

    >>> last_day_of("2027-02"), last_day_of("05/2027"), last_day_of("Feb 2028"), last_day_of("2027")
    (datetime.date(2027, 2, 28), datetime.date(2027, 5, 31), datetime.date(2028, 2, 29), None)
    """
    written = text.strip().casefold()
    if match := re.fullmatch(r"([0-9]{4})[-/.]([0-9]{1,2})", written):
        first = _day(match[1], match[2], "1")
    elif match := re.fullmatch(r"([0-9]{1,2})[-/.]([0-9]{4})", written):
        first = _day(match[2], match[1], "1")
    elif match := re.fullmatch(r"([a-z]{3,9})\.?,?\s+([0-9]{4})", written):
        first = _day(match[2], _month(match[1]), "1")
    else:
        first = None
    if first is None:
        return None
    return (first + datetime.timedelta(days=31)).replace(day=1) - datetime.timedelta(days=1)


def years_since(typed: object, day: datetime.date | None) -> float | None:
    """Return how many years before a day lies what was typed as a date, month or year; nothing for any other number.

    >>> years_since("2025-05-01", datetime.date(2027, 5, 1)), years_since(2015, datetime.date(2027, 5, 1))
    (2.0, 12.0)
    >>> years_since("1.5", datetime.date(2027, 5, 1)) is None
    True
    """
    if day is None:
        return None
    written = str(typed).strip()
    then = typed if isinstance(typed, datetime.date) else day_of(written) or last_day_of(written)
    if then is not None:
        return round((day - then).days / 365.25, 2)
    return float(day.year - int(written)) if re.fullmatch(r"(19|20)[0-9]{2}", written) else None


def _month(word: str) -> str:
    return str(_MONTHS.get(word[:3], 0))


def _day(year: str, month: str, day: str) -> datetime.date | None:
    try:
        return datetime.date(int(year), int(month), int(day))
    except ValueError:
        return None
