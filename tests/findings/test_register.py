"""The instrument register: read strictly, and calibrations held against days."""

from __future__ import annotations

import datetime

import pytest

from plangen.findings.read_register import read_register
from plangen.findings.register import OwnInstrument, Register, Standing
from plangen.packs.model import Instrument
from plangen.spec.problems import InputProblems

CATALOGUE = {
    "multimeter": Instrument(title="Digital multimeter", unit="V", accuracy="0.02 V", accuracy_percent=0.5),
    "thermometer": Instrument(title="Contact thermometer", unit="°C", accuracy="1 K"),
    "torch": Instrument(title="Torch", kind="tool"),
}


def read(text: str) -> Register:
    return read_register(text, "instruments.yaml", CATALOGUE)


def faults(text: str) -> str:
    with pytest.raises(InputProblems) as found:
        read(text)
    return str(found.value)


def test_accuracy_is_fixed_and_per_cent_and_digits() -> None:
    # a meter maker's support page (KA-03135): 120 V at ± (1 % + 3 counts) on a range that shows 0.1 V is ± 1.5 V
    (own,) = read(
        "instruments: [{id: M-01, kind: multimeter, accuracy_percent: 1, accuracy_digits: 3, resolution: 0.1 V}]"
    ).instruments
    assert own.error_fixed is not None
    assert own.accuracy_percent is not None
    assert own.error_fixed + 120 * own.accuracy_percent / 100 == pytest.approx(1.5)
    assert own.accuracy_text == "± (1 % of reading + 3 digits of 0.1 V)"


@pytest.mark.parametrize(
    ("accuracy", "kind", "fixed"),
    [
        ("20 mV", "multimeter", 0.02),
        ("± 0.02 V", "multimeter", 0.02),
        ("0.5 °C", "thermometer", 0.5),
        ("0.9 °F", "thermometer", 0.5),
    ],
)
def test_accuracy_may_be_in_another_unit(accuracy: str, kind: str, fixed: float) -> None:
    (own,) = read(f"instruments: [{{id: A, kind: {kind}, accuracy: {accuracy}}}]").instruments
    assert own.error_fixed == pytest.approx(fixed)


def test_a_serial_number_of_digits_is_text() -> None:
    (own,) = read("instruments: [{id: 7, kind: multimeter, serial: 4711}]").instruments
    assert (own.id, own.serial) == ("7", "4711")


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("instruments: [{id: A, kind: multimeterr}]", "nearest: multimeter"),
        ("instruments: [{id: A, kind: torch}]", "no instrument 'torch' in the catalogue"),
        ("instruments: [{id: A, kind: multimeter, serail: 3}]", "nearest: serial"),
        ("instruments: [{id: A, kind: multimeter, accuracy: 2 bar}]", "bar is no unit for a reading in V"),
        ("instruments: [{id: A, kind: multimeter, accuracy_digits: 3}]", "digits without a resolution"),
        ("instruments: [{id: A, kind: multimeter, error_fixed: 3}]", "unknown key 'error_fixed'"),
        (
            "instruments: [{id: A, kind: multimeter, calibrated: 2027-02-01, calibration_due: 2026-02-01}]",
            "before it was calibrated",
        ),
        (
            "instruments:\n  - {id: A, kind: multimeter}\n  - {id: a, kind: thermometer}",
            "instruments.yaml:3:10",
        ),
        ("instrument: []", "nearest: instruments"),
        ("instruments: M-01", "no list of instruments"),
        ("- 1", "no list of instruments"),
        ("instruments: [M-01]", "'M-01'"),
    ],
)
def test_faults_are_named_with_what_is_accepted(text: str, found: str) -> None:
    assert found in faults(text)


def test_all_faults_are_said_at_once() -> None:
    said = faults("instruments: [{id: A, kind: multimeterr}, {id: B, kind: thermometer, accuracy: much}]")
    assert "multimeterr" in said
    assert "much" in said


def test_an_empty_register_is_one() -> None:
    assert read("instruments:").instruments == ()


OWN = OwnInstrument.model_validate(
    {
        "id": "M-01",
        "kind": "multimeter",
        "calibrated": "2027-02-01",
        "calibration_due": "2028-01-31",
        "earlier": [{"calibrated": "2026-01-15", "calibration_due": "2027-01-14"}],
    }
)


@pytest.mark.parametrize(
    ("day", "standing"),
    [
        ("2027-02-01", "in-date"),
        ("2028-01-31", "in-date"),
        ("2028-02-01", "ran-out"),
        ("2026-12-24", "in-date"),
        ("2027-01-20", "ran-out"),
        ("2026-01-14", "before-the-first"),
        (None, "unknown-day"),
    ],
)
def test_a_calibration_holds_to_the_end_of_the_day_on_which_it_is_due(
    day: str | None, standing: Standing
) -> None:
    assert OWN.standing(datetime.date.fromisoformat(day) if day else None) == standing


def test_an_instrument_without_calibration_is_never_out_of_it() -> None:
    own = OwnInstrument(id="S", kind="stopwatch")
    assert own.standing(datetime.date(2030, 1, 1)) == own.standing(None) == "none-stated"
