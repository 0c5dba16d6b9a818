"""Working the figures of a plan out of its judged checks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from plangen.assess.derived.collect import Found, combined, last_reading, places, typed_values
from plangen.assess.derived.data import SINGLE, Data, Point, at_point
from plangen.assess.derived.spread import spread
from plangen.assess.derived.workers import WORKERS
from plangen.assess.model import CheckVerdict
from plangen.formulas import OutOfRange
from plangen.packs.figures import FIGURES
from plangen.plan.model import Plan, PlannedCheck, PlannedFigure, ReadingPlace


@dataclass(frozen=True)
class Outcome:
    """What a figure comes to, or why it comes to nothing."""

    found: Found | None
    fault: str = ""


@dataclass
class Figures:
    """The figures of one plan; each is worked out once, those that it builds on before it."""

    plan: Plan
    checks: Mapping[str, CheckVerdict]
    _done: dict[tuple[str, int], Outcome | None] = field(default_factory=dict)
    _planned: dict[str, PlannedCheck] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._planned = {check.id: check for check in self.plan.checks}

    def outcome(self, check: PlannedCheck, index: int) -> Outcome | None:
        """Return what the figure of a check comes to; nothing where readings are missing."""
        key = (check.id, index)
        if key not in self._done:
            self._done[key] = None
            self._done[key] = self._work_out(check.derive[index])
        return self._done[key]

    def _work_out(self, figure: PlannedFigure) -> Outcome | None:
        kind, worker = FIGURES[figure.figure], WORKERS[figure.figure]
        readings: dict[str, Found] = {}
        for role, several in figure.readings.items():
            parts = [part for place in several if (part := self._reading(place)) is not None]
            together = combined(parts, figure, role) if len(parts) == len(several) else None
            if together is not None:
                readings[role] = together
            elif not kind.readings[role].optional:
                return None
        if kind.one_of and not any(name in readings for name in kind.one_of):
            return None
        data = Data({role: found.values for role, found in readings.items()}, figure.inputs)
        try:
            result = worker.work(data)
        except OutOfRange as error:
            return Outcome(None, str(error))
        if not result:
            return None
        wide = spread(worker.work, data, result, {r: found.uncertainties for r, found in readings.items()})
        uncertainties: Mapping[Point, float | None] = wide or dict.fromkeys(result)
        return _at(figure, Found(result, uncertainties, kind.unit, kind.points or ""))

    def _reading(self, place: ReadingPlace) -> Found | None:
        """Return what was typed for a reading, else the figure that stands for it."""
        verdict, planned = self.checks.get(place.check), self._planned.get(place.check)
        if verdict is None or planned is None:
            return None
        reading = last_reading(verdict, place.reading)
        typed = typed_values(reading) if reading is not None else None
        if typed is not None or (reading is not None and reading.found):
            return typed
        for index, figure in enumerate(planned.derive):
            if figure.gives == place.reading:
                outcome = self.outcome(planned, index)
                return outcome.found if outcome is not None else None
        return None

    def words(self, place: ReadingPlace) -> str:
        """Return the words of a reading."""
        planned = self._planned.get(place.check)
        expected = planned.expect if planned is not None else ()
        return next((e.reading for e in expected if e.id == place.reading), place.reading)

    def disagreement(self, figure: PlannedFigure) -> str | None:
        """Return what two people disagree about among the checks that a figure looks at."""
        said = (
            self.checks[place.check].disagreement for place in places(figure) if place.check in self.checks
        )
        return next((text for text in said if text), None)


def _at(figure: PlannedFigure, found: Found) -> Outcome | None:
    """Return the figure at its one point, where it has one."""
    if figure.at is None or SINGLE in found.values:
        return Outcome(found)
    value = at_point(found.values, figure.at)
    if value is None:
        return None
    known = {
        point: uncertainty for point, uncertainty in found.uncertainties.items() if uncertainty is not None
    }
    return Outcome(Found({SINGLE: value}, {SINGLE: at_point(known, figure.at)}, found.unit))
