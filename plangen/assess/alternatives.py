"""Readings of which one suffices: once one way is done, the check doesn't wait for the others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from plangen.assess.model import ReadingVerdict
from plangen.plan.alternatives import way_of
from plangen.plan.model import Expectation

#: A way with a reading of the first verdict isn't finished, one with the second is finished and undecided.
_OPEN, _UNDECIDED = "not-done", "limited"


def one_suffices(
    readings: Sequence[ReadingVerdict], expected: Mapping[str, Expectation]
) -> tuple[ReadingVerdict, ...]:
    """Return the readings, those still open as not needed where another way of their group is done."""
    ways: dict[tuple[str, str], list[ReadingVerdict]] = {}
    for reading in readings:
        way = way_of(expected[reading.id]) if reading.id in expected else None
        if way is not None:
            ways.setdefault(way, []).append(reading)
    finished = {
        way: own
        for way, own in ways.items()
        if all(one.verdict != _OPEN for one in own) and any(one.verdict != "does-not-apply" for one in own)
    }
    return tuple(
        _not_needed(reading, finished, way_of(expected[reading.id])) if reading.id in expected else reading
        for reading in readings
    )


def _not_needed(
    reading: ReadingVerdict,
    finished: Mapping[tuple[str, str], Sequence[ReadingVerdict]],
    way: tuple[str, str] | None,
) -> ReadingVerdict:
    if way is None or reading.verdict not in (_OPEN, _UNDECIDED):
        return reading
    others = [own for other, own in finished.items() if other[0] == way[0] and other != way]
    if reading.verdict == _UNDECIDED:
        others = [own for own in others if all(one.verdict != _UNDECIDED for one in own)]
    if not others:
        return reading
    named = ", ".join(one.reading for own in others for one in own)
    return reading.model_copy(update={"verdict": "does-not-apply", "reason": f"not needed beside {named}"})
