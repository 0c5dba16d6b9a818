"""Probability of conformance against the example of JCGM 106:2012, 7.4, as used in a published article."""

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.verdicts import judge_reading
from plangen.findings.read_register import read_register
from plangen.formulas import OutOfRange
from plangen.formulas.uncertainty import conformance_probability
from plangen.packs.model import Instrument
from tests.assess.building import check, expectation, findings, instrument, plan


def test_example() -> None:
    # result 13.6, standard uncertainty 1.8, limits 12.5 and 16.3; by the tables of the normal distribution
    # 0.9332 - 0.2706 = 0.6626
    assert conformance_probability(13.6, 2 * 1.8, 12.5, 16.3) == pytest.approx(0.6626, abs=2e-4)


def test_two_standard_uncertainties_inside_one_limit() -> None:
    # tables of the normal distribution: Phi(2) = 0.97725
    assert conformance_probability(8.0, 2.0, high=10.0) == pytest.approx(0.97725, abs=1e-5)
    assert conformance_probability(12.0, 2.0, low=10.0) == pytest.approx(0.97725, abs=1e-5)


def test_no_limit_is_refused() -> None:
    with pytest.raises(OutOfRange, match="at least one"):
        conformance_probability(1.0, 0.1)


def test_verdict_of_the_report_on_the_example() -> None:
    # 13.6 with u = 1.8 lies between 12.5 and 16.3 with a probability of 66 % only: no certain pass. The error limit
    # that has this u is 1.8 x sqrt(3) (JCGM 100, 4.3.7, from memory)
    expected = expectation(low=12.5, high=16.3)
    assert judge_reading(expected, 13.6, "meter ± 3.1177", {}, None).verdict == "leaning-pass"


@pytest.mark.parametrize(
    ("reading", "verdict"), [(8.0, "pass"), (8.1, "leaning-pass"), (10.1, "leaning-fail"), (12.1, "fail")]
)
def test_guard_band_as_wide_as_the_expanded_uncertainty(reading: float, verdict: str) -> None:
    # JCGM 106, guarded acceptance (from memory): the acceptance limit lies the guard band below the tolerance limit; U = 2 here
    expected = expectation(high=10.0)
    assert judge_reading(expected, reading, "meter ± 1.7320508", {}, None).verdict == verdict


@pytest.mark.parametrize(
    ("reading", "verdict"), [(8.0, "pass"), (8.1, "leaning-pass"), (10.1, "leaning-fail"), (12.1, "fail")]
)
def test_guard_band_of_an_instrument_of_the_register(reading: float, verdict: str) -> None:
    # the same limits and U = 2 with one's own instrument, where the catalogue's would leave all of them undecided
    own = read_register(
        "instruments: [{id: T-01, kind: meter, accuracy: 1.7320508}]",
        "instruments.yaml",
        {"meter": Instrument(title="Meter", accuracy="50")},
    )
    planned = plan(
        check("heat@pipe", expectation("heat", high=10.0, instrument="meter")),
        kit=[instrument("meter", accuracy_fixed=50.0)],
    )
    (found,) = assess_findings(planned, findings({"heat@pipe": {"heat": reading}}), own).checks
    assert found.verdict == verdict
