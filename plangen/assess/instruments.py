"""Which instruments of the register took readings, and which of these were taken out of calibration."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from plangen.assess.model import CheckVerdict, InstrumentUsed, ReadingVerdict
from plangen.findings.register import OwnInstrument, Register


def all_readings(checks: Iterable[CheckVerdict]) -> Iterable[ReadingVerdict]:
    """Yield every reading of every attempt."""
    return (reading for check in checks for attempt in check.attempts for reading in attempt.readings)


def instruments_used(checks: Sequence[CheckVerdict], register: Register) -> tuple[InstrumentUsed, ...]:
    """Return the instruments of the register with which anything was read, in its order."""
    taken = [reading for reading in all_readings(checks) if reading.taken_with]
    readings = Counter(reading.taken_with for reading in taken)
    assumed = Counter(reading.taken_with for reading in taken if reading.taken_with_assumed)
    faulty = Counter(reading.taken_with for reading in taken if reading.instrument_fault)
    return tuple(
        _used(one, readings[one.id], assumed[one.id], faulty[one.id])
        for one in register.instruments
        if readings[one.id]
    )


def _used(own: OwnInstrument, readings: int, assumed: int, faulty: int) -> InstrumentUsed:
    return InstrumentUsed(
        id=own.id,
        kind=own.kind,
        title=own.title,
        maker=own.maker,
        model=own.model,
        serial=own.serial,
        accuracy=own.accuracy_text,
        calibrated=str(own.calibrated) if own.calibrated else None,
        calibration_due=str(own.calibration_due) if own.calibration_due else None,
        certificate=own.certificate,
        readings=readings,
        assumed=assumed,
        out_of_calibration=faulty,
    )


def instrument_faults(checks: Iterable[CheckVerdict]) -> dict[str, int]:
    """Return what is wrong with the instruments that were used, each with how many readings it concerns."""
    return dict(Counter(one.instrument_fault for one in all_readings(checks) if one.instrument_fault))
