"""Verdicts with the instruments of the register: their accuracy, their calibration, and names that nobody knows."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.instruments import instrument_faults
from plangen.assess.model import Assessment, ReadingVerdict
from plangen.findings.read_register import read_register
from plangen.findings.register import Register
from plangen.packs.model import Instrument
from plangen.print.report.document import report_html
from tests.assess.building import check, expectation, findings, instrument, plan

CATALOGUE = {
    "meter": Instrument(title="Meter", unit="V", accuracy="0.2 V"),
    "thermometer": Instrument(title="Thermometer", unit="°C", accuracy="1 K"),
}
VOLTS = check("volts@bank", expectation("voltage", low=12.6, unit="V", instrument="meter", shown="≥ 12.6 V"))


def register(*lines: str) -> Register:
    return read_register("instruments:\n" + "".join(f"  - {{{line}}}\n" for line in lines), "r", CATALOGUE)


def assessed(attempt: dict[str, Any], own: Register, day: str | None = "2027-05-14") -> Assessment:
    kit = [instrument("meter", title="Meter", unit="V", accuracy_fixed=0.2)]
    return assess_findings(plan(VOLTS, kit=kit, day=day), findings({VOLTS.id: [attempt]}), own)


def reading(attempt: dict[str, Any], own: Register, day: str | None = "2027-05-14") -> ReadingVerdict:
    return assessed(attempt, own, day).checks[0].attempts[0].readings[0]


GOOD = register(
    "id: M-01, kind: meter, serial: A77, accuracy: 0.02 V, calibrated: 2027-01-10, calibration_due: 2028-01-10"
)


@pytest.mark.parametrize("written", ["M-01", "m-01", "A77"])
def test_its_own_accuracy_takes_the_place_of_the_catalogues(written: str) -> None:
    found = reading({"found": {"voltage": 12.7}, "with": {"voltage": written}}, GOOD)
    assert (found.verdict, found.taken_with, found.taken_with_assumed) == ("pass", "M-01", False)
    assert found.uncertainty == pytest.approx(0.02 * 2 / 3**0.5)
    without = reading({"found": {"voltage": 12.7}}, Register())
    assert (without.verdict, without.taken_with) == ("leaning-pass", None)


def test_the_only_one_of_its_kind_is_taken_where_nobody_says() -> None:
    found = reading({"found": {"voltage": 12.7}}, GOOD)
    assert (found.verdict, found.taken_with, found.taken_with_assumed) == ("pass", "M-01", True)
    by_kind = reading({"found": {"voltage": 12.7}, "with": {"voltage": "Meter"}}, GOOD)
    assert (by_kind.taken_with, by_kind.taken_with_assumed) == ("M-01", True)


def test_of_two_of_a_kind_none_is_taken_unless_named() -> None:
    two = register("id: M-01, kind: meter, accuracy: 0.02 V", "id: M-02, kind: meter, accuracy: 0.3 V")
    assert reading({"found": {"voltage": 12.7}}, two).taken_with is None
    named = reading({"found": {"voltage": 12.7}, "with": {"voltage": "M-02"}}, two)
    assert (named.taken_with, named.verdict) == ("M-02", "leaning-pass")


def test_what_is_written_beside_the_instrument_beats_the_register() -> None:
    found = reading({"found": {"voltage": 12.7}, "with": {"voltage": "M-01 ± 0.5 V"}}, GOOD)
    assert (found.verdict, found.taken_with) == ("leaning-pass", "M-01")


def test_without_a_stated_accuracy_the_catalogues_holds() -> None:
    found = reading({"found": {"voltage": 12.7}}, register("id: M-01, kind: meter"))
    assert (found.verdict, found.taken_with) == ("leaning-pass", "M-01")
    assert "usual for such an instrument" in found.reason


@pytest.mark.parametrize(
    ("attempt_day", "trial_day", "fault"),
    [
        ("2028-01-10", "2027-05-14", None),
        ("2028-01-11", "2027-05-14", "calibration of M-01 ran out on 2028-01-10, before the reading of 2028-01-11"),
        (None, "2028-03-01", "calibration of M-01 ran out on 2028-01-10, before the reading of 2028-03-01"),
        ("2027-01-09", "2027-05-14", "read on 2027-01-09, before the first calibration of M-01 that the register holds"),
        (None, None, "no day is stated, so nobody can say whether M-01 was in calibration"),
    ],
)  # fmt: skip
def test_a_reading_out_of_calibration_is_marked(
    attempt_day: str | None, trial_day: str | None, fault: str | None
) -> None:
    attempt = {"found": {"voltage": 12.9}, "with": {"voltage": "M-01"}, "when": attempt_day}
    whole = assessed(attempt, GOOD, trial_day)
    found = whole.checks[0].attempts[0].readings[0]
    assert (found.verdict, found.instrument_fault) == ("pass", fault)
    (used,) = whole.instruments
    assert (used.readings, used.out_of_calibration) == (1, 1 if fault else 0)
    assert instrument_faults(whole.checks) == ({fault: 1} if fault else {})


def test_an_unknown_instrument_is_named_with_the_nearest_and_the_reading_stays() -> None:
    found = reading({"found": {"voltage": 12.9}, "with": {"voltage": "M-O1"}}, GOOD)
    assert found.instrument_fault == "no instrument 'M-O1' in the register; the nearest is M-01"
    assert (found.verdict, found.value, found.taken_with) == ("pass", 12.9, None)


def test_a_borrowed_one_with_its_accuracy_is_no_fault_and_without_a_register_any_name_will_do() -> None:
    borrowed = {"found": {"voltage": 12.9}, "with": {"voltage": "the yard's meter ± 0.1 V"}}
    assert reading(borrowed, GOOD).instrument_fault is None
    assert (
        reading({"found": {"voltage": 12.9}, "with": {"voltage": "M-O1"}}, Register()).instrument_fault
        is None
    )


def test_what_was_not_read_has_no_instrument() -> None:
    assert assessed({"note": "too late"}, GOOD).instruments == ()
    assert reading({"found": {"voltage": "n/a"}}, GOOD).taken_with is None


def test_the_report_says_which_instruments_with_serial_and_marks_the_reading() -> None:
    attempt = {"found": {"voltage": 12.9}, "when": "2028-01-11"}
    kit = [instrument("meter", title="Meter", unit="V", accuracy_fixed=0.2)]
    planned = plan(VOLTS, kit=kit)
    text = report_html(planned, assess_findings(planned, findings({VOLTS.id: [attempt]}), GOOD))
    assert "A77" in text
    assert "± 0.02 V" in text
    assert text.count("calibration of M-01 ran out on 2028-01-10") == 2
    plain = report_html(planned, assess_findings(planned, findings({VOLTS.id: [attempt]})))
    assert "<h1>Instruments</h1>" not in plain
