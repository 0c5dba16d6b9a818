"""The as-built register of a hull: what the spec states of each plate against what was read from it."""

from __future__ import annotations

from typing import Literal

from plangen.assess.model import Assessment, AttemptVerdict, CheckVerdict
from plangen.plan.base import PlanModel
from plangen.plan.model import Plan, PlateReading, RegisterItem
from plangen.plan.plates import PLATE, differs, plate_read

AsBuiltState = Literal["as-specified", "read", "differs", "no-plate", "not-read"]


class AsBuiltLine(PlanModel):
    """One thing aboard: what is expected on its plate, and what was found, by whom and when."""

    item: str
    group: str
    zone: str | None = None
    expected: dict[str, str] = {}
    found: dict[str, str] = {}
    state: AsBuiltState
    different: tuple[str, ...] = ()
    check: str | None = None
    by: str | None = None
    when: str | None = None

    def shown(self, name: str) -> str:
        """Return what is aboard as far as it is known: what was found, else what the spec states."""
        return self.found.get(name) or self.expected.get(name, "")


def as_built_of(plan: Plan, assessment: Assessment) -> tuple[AsBuiltLine, ...]:
    """Return the register: a line for each thing of the plan that has a plate."""
    checks = {check.id: check for check in assessment.checks}
    return tuple(_line(item, checks) for item in plan.as_built)


def _line(item: RegisterItem, checks: dict[str, CheckVerdict]) -> AsBuiltLine:
    read = [(place, one) for place in item.readings if (one := _reading(place, checks)) is not None]
    none = bool(read) and all(verdict == "does-not-apply" for _, (_, _, verdict) in read)
    found: dict[str, str] = {}
    for place, (_, typed, verdict) in read:
        if verdict != "does-not-apply":
            parts = plate_read(typed) if place.whole else {"serial": typed}
            found = {**parts, **found}
    different = tuple(
        name for name in PLATE if name in found and differs(item.stated.get(name, found[name]), found[name])
    )
    state: AsBuiltState = "differs" if different else "no-plate" if none else "not-read"
    if found and not different:
        state = "as-specified" if set(item.stated) & set(found) else "read"
    first = read[0] if read else None
    return AsBuiltLine(
        item=item.item,
        group=item.group,
        zone=item.zone,
        expected=item.stated,
        found={name: found[name] for name in PLATE if name in found},
        state=state,
        different=different,
        check=first[0].check if first else item.readings[0].check if item.readings else None,
        by=first[1][0].by if first else None,
        when=first[1][0].when if first else None,
    )


def _reading(place: PlateReading, checks: dict[str, CheckVerdict]) -> tuple[AttemptVerdict, str, str] | None:
    """Return the last attempt in which a reading was filled in, what was typed and its verdict."""
    check = checks.get(place.check)
    for attempt in reversed(check.attempts if check is not None else ()):
        for reading in attempt.readings:
            if reading.id == place.reading and reading.found:
                return attempt, reading.found, reading.verdict
    return None
