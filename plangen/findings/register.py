"""The instrument register: a surveyor's or yard's own instruments, each with its accuracy and its calibration."""

from __future__ import annotations

import datetime
import re
from typing import Annotated, Literal

from pydantic import Field

from plangen.findings.model import Day
from plangen.plan.base import PlanModel

#: Where the accuracy of one reading begins in what somebody wrote under `with:`.
_STATED_FROM = re.compile(r"\s*(?:±|\+/-|\+-).*", re.DOTALL)

Standing = Literal["in-date", "ran-out", "before-the-first", "unknown-day", "none-stated"]


class Calibration(PlanModel):
    """One calibration: on which day, and until when it holds."""

    calibrated: Day
    calibration_due: Day | None = None
    certificate: str | None = None

    def covers(self, day: datetime.date) -> bool:
        """Tell whether the calibration holds on a day; on the day on which it is due it still does."""
        return self.calibrated <= day and (self.calibration_due is None or day <= self.calibration_due)


class OwnInstrument(PlanModel):
    """One instrument of the register.

    `kind` is its id in the catalogue. The greatest error is `accuracy` + `accuracy_percent` of the reading +
    `accuracy_digits` times the `resolution`; where none is stated, the catalogue's for the kind holds. `earlier` are the
    calibrations before the last one.
    """

    id: str
    kind: str
    maker: str | None = None
    model: str | None = None
    serial: str | None = None
    accuracy: str | None = None
    accuracy_percent: Annotated[float, Field(ge=0, le=100)] | None = None
    accuracy_digits: Annotated[int, Field(ge=0, le=1000)] | None = None
    resolution: str | None = None
    calibrated: Day | None = None
    calibration_due: Day | None = None
    certificate: str | None = None
    earlier: tuple[Calibration, ...] = ()
    #: The catalogue's words for the kind, and the fixed part of the error in `unit`; set when the register is read.
    title: str = ""
    error_fixed: float | None = None
    unit: str = ""

    @property
    def states_accuracy(self) -> bool:
        """Tell whether the register states how good the instrument is."""
        return self.error_fixed is not None or self.accuracy_percent is not None

    @property
    def accuracy_text(self) -> str:
        """Write the accuracy as makers do."""
        parts = [
            f"{self.accuracy_percent:g} % of reading" if self.accuracy_percent else "",
            self.accuracy or "",
            f"{self.accuracy_digits} digits of {self.resolution}" if self.accuracy_digits else "",
        ]
        stated = " + ".join(part for part in parts if part)
        return f"± ({stated})" if " + " in stated else f"± {stated}" if stated else ""

    @property
    def words(self) -> str:
        """Name the instrument for people.

        >>> OwnInstrument(id="M-01", kind="multimeter", title="Digital multimeter", serial="77").words
        'M-01 (Digital multimeter, serial 77)'
        """
        made = " ".join(part for part in (self.maker, self.model) if part)
        parts = [made or self.title or self.kind, f"serial {self.serial}" if self.serial else ""]
        return f"{self.id} ({', '.join(part for part in parts if part)})"

    def standing(self, day: datetime.date | None) -> Standing:
        """Tell whether the instrument was in calibration on a day."""
        held = list(self.earlier)
        if self.calibrated is not None:
            last = Calibration(calibrated=self.calibrated, calibration_due=self.calibration_due)
            held.append(last)
        if not held:
            if self.calibration_due is None:
                return "none-stated"
            return "unknown-day" if day is None else "in-date" if day <= self.calibration_due else "ran-out"
        if day is None:
            return "unknown-day"
        if any(one.covers(day) for one in held):
            return "in-date"
        return "before-the-first" if day < min(one.calibrated for one in held) else "ran-out"

    def ran_out_on(self, day: datetime.date) -> datetime.date | None:
        """Return the last day of the calibration that had run out by a day."""
        ends = [one.calibration_due for one in self.earlier] + [self.calibration_due]
        return max((end for end in ends if end is not None and end < day), default=None)


class Register(PlanModel):
    """The instruments of one surveyor or yard."""

    instruments: tuple[OwnInstrument, ...] = ()

    def named(self, written: str) -> OwnInstrument | None:
        """Return the instrument that somebody wrote: its id or its serial number, with or without an accuracy behind it.

        >>> one = OwnInstrument(id="M-01", kind="multimeter", serial="77 A")
        >>> [Register(instruments=(one,)).named(text) is one for text in ("m-01", "77 a", "M-01 ± 0.1 V", "M-1")]
        [True, True, True, False]
        """
        wanted = folded(_STATED_FROM.sub("", written))
        by_id = next((one for one in self.instruments if folded(one.id) == wanted), None)
        if by_id is not None:
            return by_id
        serials = [one for one in self.instruments if one.serial and folded(one.serial) == wanted]
        return serials[0] if len(serials) == 1 else None

    def all_named(self, written: str) -> tuple[OwnInstrument, ...]:
        """Return every instrument of an id or a serial number: a meter for several quantities stands once for each."""
        wanted = folded(written)
        return tuple(
            one for one in self.instruments if wanted in (folded(one.id), folded(one.serial or one.id))
        )

    def only_one_of(self, kind: str | None) -> OwnInstrument | None:
        """Return the register's instrument of a kind where it has exactly one."""
        alike = [one for one in self.instruments if one.kind == kind]
        return alike[0] if len(alike) == 1 else None

    @property
    def names(self) -> tuple[str, ...]:
        """Return the ids of the instruments."""
        return tuple(one.id for one in self.instruments)


def folded(text: str) -> str:
    """Return a text without regard to case and blanks."""
    return " ".join(text.casefold().split())
