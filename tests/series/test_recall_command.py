"""`plangen recall`, as a yard runs it over its hulls."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from tests.series.building import hull_plan, plangen, write_hull

REGISTER = """instruments:
  - {id: M-01, kind: multimeter, serial: "=A77", accuracy: 0.01 V, calibrated: 2027-01-10, calibration_due: 2027-04-01}
  - {id: M-01-mV, kind: reference-electrode, serial: "=A77"}
  - {id: F-02, kind: flow-meter}
"""


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    """Three hulls below one register."""
    (tmp_path / "instruments.yaml").write_text(REGISTER, encoding="utf-8")
    said = {"with": {"voltage": "M-01"}, "by": "AL"}
    write_hull(
        tmp_path / "101", hull_plan("Hull 101"),
        {"volts@bank": [{"found": {"voltage": 12.5}, "when": "2027-03-01", **said}, {"found": {"voltage": 12.8}, "when": "2027-04-20", **said}]},
    )  # fmt: skip
    write_hull(
        tmp_path / "102",
        hull_plan("Hull 102"),
        {
            "volts@bank": [{"found": {"voltage": 12.7, "terminals-tight": "yes"}, "when": "2027-03-20"}],
            "flow@bilge": {"flow": 31},
        },
    )
    write_hull(tmp_path / "103", hull_plan("Hull 103"), {"flow@bilge": {"flow": 35}})
    return tmp_path


def rows(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_bytes().decode("utf-8-sig"))))


def test_every_reading_of_every_attempt_over_hulls(yard: Path) -> None:
    done = plangen("recall", "M-01", yard / "101", yard / "102", yard / "103", "--csv", yard / "out.csv")
    assert done.returncode == 0, done.stderr
    found = [(row["Hull"], row["Found"], row["Day"], row["How known"]) for row in rows(yard / "out.csv")]
    assert found == [
        ("Hull 101", "12.5 V", "2027-03-01", "said"),
        ("Hull 101", "12.8 V", "2027-04-20", "said"),
        ("Hull 102", "12.7 V", "2027-03-20", "not said, only one of its kind"),
    ]
    assert "3 readings on 2 of 3 hulls" in done.stdout
    assert "1 by assumption" in done.stdout
    assert "1 out of calibration on the day" in done.stdout
    assert "ran out on 2027-04-01" in rows(yard / "out.csv")[1]["Calibration"]


def test_by_serial_number_since_a_day(yard: Path) -> None:
    done = plangen("recall", "=a77", yard / "101", yard / "102", "--since", "2027-03-15")
    assert done.returncode == 0, done.stderr
    assert "12.5 V" not in done.stdout
    assert "2 readings on 2 of 2 hulls" in done.stdout
    assert "M-01-mV" in done.stdout


def test_an_assessment_that_is_up_to_date_says_the_same(yard: Path) -> None:
    fresh = plangen("recall", "M-01", yard / "101").stdout
    assert plangen("assess", yard / "101", "--no-pdf").returncode in (0, 1)
    assert plangen("recall", "M-01", yard / "101").stdout == fresh
    findings = yard / "101" / "findings.yaml"
    findings.write_text(findings.read_text(encoding="utf-8").replace("12.8", "12.9"), encoding="utf-8")
    assert "12.9 V" in plangen("recall", "M-01", yard / "101").stdout
    register = yard / "instruments.yaml"
    register.write_text(
        register.read_text(encoding="utf-8").replace("2027-04-01", "2027-12-01"), encoding="utf-8"
    )
    assert "out of calibration" not in plangen("recall", "M-01", yard / "101").stdout


def test_an_unknown_instrument_is_named_with_the_nearest(yard: Path) -> None:
    done = plangen("recall", "M-1", yard / "101")
    assert done.returncode == 2
    assert "no instrument 'M-1'" in done.stderr
    assert "nearest: M-01" in done.stderr


def test_without_a_register_it_says_where_one_may_lie(tmp_path: Path) -> None:
    write_hull(tmp_path / "deep" / "plans" / "x", hull_plan("X"), {})
    done = plangen("recall", "M-1", tmp_path / "deep" / "plans" / "x")
    assert done.returncode == 2
    assert "--instruments" in done.stderr


def test_a_bad_hull_is_skipped_and_the_others_are_read(yard: Path) -> None:
    (yard / "102" / "findings.yaml").write_text(
        "boat: Hull 102\nchecks: {nonsense@bank: []}\n", encoding="utf-8"
    )
    done = plangen("recall", "M-01", yard / "101", yard / "102")
    assert done.returncode == 1
    assert "102 is left out" in done.stderr
    assert "nonsense@bank" in done.stderr
    assert "2 readings on 1 of 1 hull\n" in done.stdout
    assert plangen("recall", "M-01", yard / "102", yard / "nowhere").returncode == 2


def test_a_register_with_faults_stops_it_before_anything_is_read(yard: Path) -> None:
    (yard / "instruments.yaml").write_text("instruments: [{id: A, kind: multimeterr}]", encoding="utf-8")
    done = plangen("assess", yard / "101", "--no-pdf")
    assert done.returncode == 2
    assert "nearest: multimeter" in done.stderr
    assert not (yard / "101" / "assessment.yaml").exists()
    other = yard / "other.yaml"
    other.write_text(REGISTER, encoding="utf-8")
    done = plangen("assess", yard / "101", "--no-pdf", "--instruments", other)
    assert done.returncode == 1
    assert "calibration of M-01 ran out on 2027-04-01" in done.stdout
