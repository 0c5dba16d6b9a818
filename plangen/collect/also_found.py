"""What was found beside all checks, held against what the findings hold of it already."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.findings.model import AlsoFound
from plangen.findings.scalar import scalar

#: What says who saw it and when, and how it ended, which doesn't make it another thing.
_NOT_THE_THING = ("by", "when", "mended")


def not_yet_found(before: Sequence[AlsoFound], found: Sequence[AlsoFound]) -> tuple[AlsoFound, ...]:
    """Return what none of the findings says yet.

    >>> crack = AlsoFound(what="cracked base", place="port", by="AL")
    >>> not_yet_found([crack], [crack, AlsoFound(what="Cracked  base"), AlsoFound(what="cracked base", grade="stop")])
    (AlsoFound(... what='cracked base', ... grade='stop', ...),)
    """
    new: list[AlsoFound] = []
    for one in found:
        if not any(_says(other, one) for other in (*before, *new)):
            new.append(one)
    return tuple(new)


def found_again(before: Sequence[AlsoFound], found: Sequence[AlsoFound]) -> tuple[str, ...]:
    """Return who found, or on which day, what another one had found already."""
    remarks: list[str] = []
    known = list(before)
    for one in found:
        other = next((other for other in known if _says(other, one)), None)
        if other is None:
            known.append(one)
            continue
        if one.by not in (None, other.by) or one.when not in (None, other.when):
            day = f" on {one.when}" if one.when not in (None, other.when) else ""
            remarks.append(f"also found, {other.what}: {one.by or 'somebody'} found it too{day}")
    return tuple(remarks)


def _says(one: AlsoFound, new: AlsoFound) -> bool:
    """Tell whether something that was found is the same as the new one, with all that this one says."""
    for name in AlsoFound.model_fields:
        value, mine = getattr(new, name), getattr(one, name)
        if name in _NOT_THE_THING or value in (None, ()):
            continue
        same = set(value) <= set(mine) if name == "photos" else _words(value) == _words(mine)
        if not same:
            return False
    return True


def _words(value: object) -> str:
    return " ".join(str(value).split()).casefold()


def also_found_lines(found: AlsoFound, indent: int) -> tuple[str, ...]:
    """Return the lines of something found whose dash stands at the indent."""
    inner = " " * (indent + 2)
    lines = []
    for name in (
        "what",
        "place",
        "grade",
        "photos",
        "by",
        "when",
        "settlement",
        "urgency",
        "who",
        "due",
        "sum",
        "note",
        "mended",
    ):
        value = getattr(found, name)
        if value in (None, ()):
            continue
        if name == "photos":
            text = f"[{', '.join(scalar(one, in_list=True) for one in value)}]"
        else:
            dated = name in ("when", "due", "mended")
            text = "yes" if value is True else str(value) if dated else scalar(str(value))
        lines.append(f"{inner}{name}: {text}")
    return (f"{' ' * indent}- {lines[0].lstrip()}", *lines[1:])
