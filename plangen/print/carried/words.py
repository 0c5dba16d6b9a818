"""Numbers, times and names as the carried sheets write them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

#: Runs of rounds that are written out, and letters of a name that has room in a column.
_MOST_RANGES, _LONGEST_NAME = 5, 9


def counted(number: int, word: str) -> str:
    """Write how many there are.

    >>> counted(1, "round"), counted(12, "check")
    ('1 round', '12 checks')
    """
    return f"{number} {word}{'' if number == 1 else 's'}"


def hours(minutes: float) -> str:
    """Write minutes as hours and minutes, short.

    >>> hours(95), hours(12)
    ('1 h 35', '12 min')
    """
    whole, rest = divmod(round(minutes), 60)
    return f"{whole} h {rest:02d}" if whole else f"{rest} min"


def day_in_words(day: str) -> str:
    """Write a date as it is said; another text stays as it is.

    >>> day_in_words("2027-05-10"), day_in_words("in May")
    ('Monday 10 May 2027', 'in May')
    """
    try:
        given = date.fromisoformat(day)
    except ValueError:
        return day
    return f"{given:%A} {given.day} {given:%B %Y}"


def few_rounds(numbers: Sequence[int]) -> str:
    """Write the numbers of rounds where they are few, and else how many they are."""
    shown = number_ranges(numbers)
    return shown if shown.count(",") < _MOST_RANGES else f"{len(set(numbers))} rounds"


def number_ranges(numbers: Iterable[int]) -> str:
    """Write numbers in order, runs of three and more as a range.

    >>> number_ranges([7, 3, 4, 5, 9, 10])
    '3–5, 7, 9, 10'
    """
    ordered = sorted(set(numbers))
    parts: list[str] = []
    start = 0
    for place, number in enumerate(ordered):
        if place + 1 == len(ordered) or ordered[place + 1] != number + 1:
            run = ordered[start : place + 1]
            parts += [f"{run[0]}–{run[-1]}"] if len(run) > 2 else [str(one) for one in run]
            start = place + 1
    return ", ".join(parts)


def short_names(people: Sequence[str], most: int = _LONGEST_NAME) -> dict[str, str]:
    """Return names as they have room in a column: as they are, the first of them, or initials.

    >>> list(short_names(["A", "Bernadette Oyelaran", "Bernadette Quist-Hansen"]).values())
    ['A', 'BO', 'BQH']
    """
    if all(len(name) <= most for name in people):
        return {name: name for name in people}
    first = {name: name.split()[0] if name.split() else name for name in people}
    initials = {name: "".join(word[0] for word in name.replace("-", " ").split()) for name in people}
    for short in (first, initials):
        fits = all(len(word) <= most for word in short.values())
        if fits and len(set(short.values())) == len(people):
            return short
    return {name: f"{number}" for number, name in enumerate(people, start=1)}


def plain_title(title: str) -> str:
    """Return the title of a round without its kind where its place says it.

    >>> plain_title("Head: port aft head room"), plain_title("Sole up: port hull passage")
    ('Port aft head room', 'Sole up: port hull passage')
    """
    kind, colon, place = title.partition(": ")
    return f"{place[:1].upper()}{place[1:]}" if colon and kind.casefold() in place.casefold() else title
