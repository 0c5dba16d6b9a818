"""Guard bands and statements of conformity against examples for ILAC-G8:09/2019 and the published risk bounds."""

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.verdicts import judge_reading
from plangen.findings.read_register import read_register
from plangen.formulas import OutOfRange
from plangen.formulas.uncertainty import conformance_probability, conformity
from plangen.packs.model import Instrument
from tests.assess.building import check, expectation, findings, instrument, plan


@pytest.mark.parametrize(
    ("factor", "low", "high"), [(1.0, 9.2, 10.8), (0.83, 9.166, 10.834), (1.5, 9.3, 10.7), (3.0, 9.6, 10.4)]
)
def test_acceptance_limits(factor: float, low: float, high: float) -> None:
    # a metrology post (2024-10-24): limits 10 +- 1, U = 0.2 (inputs secondary)
    for reading, statement in (
        (low + 0.001, "pass"),
        (low - 0.001, "conditional pass"),
        (high - 0.001, "pass"),
        (high + 0.001, "conditional pass"),
    ):
        assert conformity(reading, 0.2, low=9.0, high=11.0, factor=factor) == statement


@pytest.mark.parametrize(
    ("deviation", "statement"),
    [
        (0.0017, "pass"),
        (0.0025, "conditional pass"),
        (0.0035, "conditional fail"),
        (0.0041, "fail"),
        (-0.0041, "fail"),
    ],
)
def test_statements(deviation: float, statement: str) -> None:
    # a calibration article on ILAC-G8: error limit +-0.003 mm, U = 0.0010 mm, acceptance limits +-0.002 mm
    assert conformity(deviation, 0.0010, low=-0.003, high=0.003) == statement


@pytest.mark.parametrize(
    ("factor", "bound"), [(0.0, 50.0), (0.83, 5.0), (1.0, 2.5), (1.5, 0.16), (3.0, 1e-4)]
)
def test_published_risk_bounds(factor: float, bound: float) -> None:
    # a testing body's and a laboratory's decision rules and the metrology post: risk at the limit, percent
    risk = 100 * (1 - conformance_probability(-0.2 * factor, 0.2, high=0.0))
    assert risk <= bound + 1e-9
    # the bounds up to 1.5 are round figures, not loose ones
    assert factor > 1.5 or risk > 0.8 * bound


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="at least one tolerance limit"):
        conformity(1.0, 0.1)
    with pytest.raises(OutOfRange, match="uncertainty is -1"):
        conformity(1.0, -1.0, high=2.0)


@pytest.mark.parametrize(
    ("deviation", "verdict"),
    [
        (0.0017, "pass"),
        (0.0025, "leaning-pass"),
        (0.0035, "leaning-fail"),
        (0.0041, "fail"),
        (-0.0025, "leaning-pass"),
        (-0.0041, "fail"),
    ],
)
def test_verdict_of_the_report(deviation: float, verdict: str) -> None:
    # the calibration article: error limit +-0.003 mm, U = 0.0010 mm, which is 0.000866 mm as a rectangular limit
    expected = expectation(unit="mm", low=-0.003, high=0.003)
    found = judge_reading(expected, deviation, "caliper ± 0.0008660254 mm", {}, None)
    assert found.verdict == verdict


@pytest.mark.parametrize(
    ("reading", "verdict"), [(0.39, "pass"), (0.41, "leaning-pass"), (-0.39, "pass"), (0.62, "fail")]
)
def test_verdict_with_a_band_of_a_fifth(reading: float, verdict: str) -> None:
    # the metrology post: +-0.5 ohm with a band of 0.1 ohm accepts +-0.4 ohm
    expected = expectation(unit="ohm", low=-0.5, high=0.5)
    assert judge_reading(expected, reading, "ohm meter ± 0.08660254 ohm", {}, None).verdict == verdict


@pytest.mark.parametrize(
    ("deviation", "verdict"),
    [(0.0017, "pass"), (0.0025, "leaning-pass"), (0.0035, "leaning-fail"), (0.0041, "fail")],
)
def test_verdict_with_the_accuracy_of_the_register(deviation: float, verdict: str) -> None:
    # the calibration article again: U = 0.0010 mm of one's own caliper takes the place of the catalogue's 0.05 mm
    own = read_register(
        "instruments: [{id: C-01, kind: caliper, accuracy: 0.0008660254 mm}]",
        "instruments.yaml",
        {"caliper": Instrument(title="Vernier caliper", unit="mm", accuracy="0.05 mm")},
    )
    width = check("width@pin", expectation("width", unit="mm", low=-0.003, high=0.003, instrument="caliper"))
    planned = plan(width, kit=[instrument("caliper", unit="mm", accuracy_fixed=0.05)])
    (found,) = assess_findings(planned, findings({"width@pin": {"width": deviation}}), own).checks
    assert found.verdict == verdict
