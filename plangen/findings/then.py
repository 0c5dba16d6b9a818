"""What was expected of attempts before the plan expected something else, so that a result never turns into nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from plangen.findings.identity import Identities
from plangen.findings.model import Then
from plangen.findings.superset import says_something
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.spec.yaml_source import Node

#: What a check needs no more once it is only judged.
_UNNEEDED = (
    "formerly", "code", "do", "protects", "round", "asks_for", "needs", "leaves", "after", "wets", "procedure", "used_boat",
    "derive", "instruments", "cautions", "watch_out",
)  # fmt: skip
#: What of an expectation decides a verdict; everything else may be reworded.
_DECIDING = ("unit", "low", "high", "record", "condition", "valid_if")


def expected_of(plan: Plan | None, identities: Identities) -> dict[str, PlannedCheck]:
    """Return the checks of an earlier plan by the ids that they have today, or had last."""
    found: dict[str, PlannedCheck] = {}
    for check in plan.checks if plan is not None else ():
        found.setdefault(identities.check_id(check.id) or check.id, check)
    return found


def record(records: Sequence[Then], attempts: int, before: PlannedCheck | None) -> tuple[Then, ...]:
    """Return the records with that of a check of the plan before, for the attempts that none covers yet."""
    if before is None or (records and records[-1].attempts >= attempts):
        return tuple(records)
    slim = before.model_copy(update={name: PlannedCheck.model_fields[name].default for name in _UNNEEDED})
    return (*records, Then(attempts=attempts, check=slim))


def still_other(records: Sequence[Then], after: PlannedCheck, entry: Node) -> tuple[Then, ...]:
    """Return the records with only those readings that were typed and are gone, or are judged otherwise by now."""
    today = {expected.id: expected for expected in after.expect}
    typed = _typed(entry)
    found = []
    for one in records:
        other = tuple(e for e in one.check.expect if e.id in typed and not judges_alike(e, today.get(e.id)))
        if other:
            found.append(one.model_copy(update={"check": one.check.model_copy(update={"expect": other})}))
    return tuple(found)


def judges_alike(one: Expectation, other: Expectation | None) -> bool:
    """Tell whether two expectations lead to the same verdict, however they are worded.

    >>> from plangen.plan.model import Cited
    >>> one = Expectation(id="a", reading="level", low=1, shown="≥ 1", basis="maker", source=Cited(id="x"))
    >>> judges_alike(one, one.model_copy(update={"reading": "oil level"})), judges_alike(one, None)
    (True, False)
    """
    if other is None or (one.text is None) != (other.text is None):
        return False
    points = [[(p.point, p.low, p.high) for p in expected.series] for expected in (one, other)]
    return (
        points[0] == points[1]
        and all(getattr(one, name) == getattr(other, name) for name in _DECIDING)
        and (one.text is None or other.text is None or one.text.casefold() == other.text.casefold())
    )


def _typed(entry: Node) -> set[str]:
    found: set[str] = set()
    for attempt in entry.items or []:
        node = (attempt.mapping or {}).get("found")
        readings: Mapping[str, Node] = (node.mapping or {}) if node is not None else {}
        found.update(name for name, value in readings.items() if says_something(value))
    return found
