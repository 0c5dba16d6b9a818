"""What every verdict needs beside the reading: kit and register, the day of the trial, and the units of bare numbers."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass

from plangen.assess.accuracy import OwnItem, states_accuracy
from plangen.assess.conditions import as_condition
from plangen.assess.model import ReadingVerdict
from plangen.assess.verdicts import judge_reading
from plangen.findings.model import Attempt, Findings
from plangen.findings.parse_reading import as_printed
from plangen.findings.register import OwnInstrument, Register, folded
from plangen.plan.model import Expectation, KitItem, Plan
from plangen.spec.problems import nearest_name


@dataclass(frozen=True)
class _Taken:
    """With which instrument of the register a reading was taken, whether somebody said so, and what is wrong with it."""

    own: OwnInstrument | None = None
    assumed: bool = False
    fault: str | None = None


@dataclass(frozen=True)
class Bench:
    """What every verdict needs beside the reading."""

    kit: Mapping[str, KitItem]
    day: datetime.date | None
    units: str
    register: Register

    def reading(self, expected: Expectation, attempt: Attempt) -> ReadingVerdict:
        """Return the verdict on one reading of an attempt."""
        typed = as_printed(attempt.found.get(expected.id), expected.unit, self.units)
        written = attempt.with_.get(expected.id)
        taken = self._taken(written, expected, attempt.when or self.day)
        used, kit = written, self.kit
        if taken.own is not None and not (written and states_accuracy(written)):
            used, kit = taken.own.id, {**self.kit, taken.own.id.casefold(): _kit_item(taken.own, self.kit)}
        judged = judge_reading(expected, typed, used, kit, self.day)
        if judged.verdict not in ("not-done", "does-not-apply") and (taken.own or taken.fault):
            judged = judged.model_copy(
                update={
                    "taken_with": taken.own.id if taken.own else None,
                    "taken_with_assumed": taken.assumed,
                    "instrument_fault": taken.fault,
                }
            )
        return as_condition(judged) if expected.condition else judged

    def _taken(self, written: str | None, expected: Expectation, day: datetime.date | None) -> _Taken:
        if not self.register.instruments:
            return _Taken()
        if written is None:
            own = self.register.only_one_of(expected.instrument)
            return _Taken(own, True, _calibration_fault(own, day)) if own else _Taken()
        own = self.register.named(written)
        if own is not None:
            return _Taken(own, False, _calibration_fault(own, day))
        kind = self._kind(written)
        if kind is not None:
            own = self.register.only_one_of(kind)
            return _Taken(own, True, _calibration_fault(own, day)) if own else _Taken()
        if states_accuracy(written):
            return _Taken()
        nearest = nearest_name(written, (*self.register.names, *self.kit))
        hint = f"; the nearest is {nearest}" if nearest else ""
        return _Taken(fault=f"no instrument {written!r} in the register{hint}")

    def _kind(self, written: str) -> str | None:
        wanted = folded(written)
        kit = next((id for id, item in self.kit.items() if wanted in (id, folded(item.title))), None)
        return kit or next(
            (one.kind for one in self.register.instruments if wanted in (one.kind, folded(one.title))), None
        )


def bench_of(plan: Plan, findings: Findings, register: Register | None = None) -> Bench:
    """Return what the verdicts on the findings of a plan need."""
    day = datetime.date.fromisoformat(plan.boat.trial_date) if plan.boat.trial_date else None
    kit = {item.id: item for item in plan.kit}
    return Bench(kit, day, findings.units or plan.units, register or Register())


def _kit_item(own: OwnInstrument, kit: Mapping[str, KitItem]) -> KitItem:
    """Return an instrument of the register as kit, with its own accuracy where the register states one."""
    if own.states_accuracy:
        return OwnItem(
            id=own.id, title=own.words, kind="instrument", unit=own.unit, accuracy=own.accuracy_text,
            accuracy_fixed=own.error_fixed, accuracy_percent=own.accuracy_percent, checks=0,
        )  # fmt: skip
    usual = kit.get(own.kind)
    unknown = KitItem(id=own.id, title=own.words, kind="instrument", checks=0)
    return usual.model_copy(update={"title": own.words}) if usual else unknown


def _calibration_fault(own: OwnInstrument, day: datetime.date | None) -> str | None:
    standing = own.standing(day)
    if standing == "ran-out" and day is not None:
        end = own.ran_out_on(day)
        return f"calibration of {own.id} ran out{f' on {end}' if end else ''}, before the reading of {day}"
    if standing == "before-the-first":
        return f"read on {day}, before the first calibration of {own.id} that the register holds"
    if standing == "unknown-day":
        return f"no day is stated, so nobody can say whether {own.id} was in calibration"
    return None
