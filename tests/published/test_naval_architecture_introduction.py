"""Runs over the measured mile: 8 V = V1 + 3 V2 + 3 V3 + V4.

E. C. Tupper, Introduction to Naval Architecture, pp. 244 and 245,
https://digilib.universitaspertamina.ac.id/ebook/Introduction%20to%20Naval%20Architecture/files/basic-html/page260.html
"""

import pytest

from plangen.formulas.reciprocal_runs import mean_of_means
from tests.assess.building import worked_out


@pytest.mark.parametrize("runs", [4, 5, 6])
def test_current_quadratic_in_time_cancels(runs: int) -> None:
    # p. 244: the tide taken as a0 + a1 t + a2 t^2.
    current = [1.0 - 0.3 * time + 0.02 * time**2 for time in range(runs)]
    speeds = [10.0 + (-1) ** time * drift for time, drift in enumerate(current)]
    assert mean_of_means(speeds) == pytest.approx(10.0)


def test_mean_of_means_as_a_figure_of_the_report() -> None:
    # p. 245: 8 V = V1 + 3 V2 + 3 V3 + V4; one knot more in one run moves V by its weight over eight.
    speeds = {1.0: 10.0, 2.0: 9.0, 3.0: 10.5, 4.0: 9.5}
    before = worked_out("mean-of-means", {"runs": speeds}).value
    assert before is not None
    for run, weight in zip(speeds, (1, 3, 3, 1), strict=True):
        faster = {**speeds, run: speeds[run] + 1.0}
        assert worked_out("mean-of-means", {"runs": faster}).value == pytest.approx(before + weight / 8)


def test_four_runs_at_each_engine_speed_cancel_a_tide_quadratic_in_time() -> None:
    # p. 244: the tide taken as a0 + a1 t + a2 t^2.
    current = [1.0 - 0.3 * time + 0.02 * time**2 for time in range(4)]
    names = ("outward", "back", "outward_again", "back_again")
    readings = {
        name: {rpm: speed + (-1) ** time * current[time] for rpm, speed in ((1500.0, 5.5), (3000.0, 10.0))}
        for time, name in enumerate(names)
    }
    found = worked_out("mean-of-runs", readings)
    assert dict(found.values) == {1500.0: pytest.approx(5.5), 3000.0: pytest.approx(10.0)}


def test_mean_of_runs_is_no_harmonic_mean() -> None:
    # The note on harmonic means: 20 and 10 have the mean 15, not 13.3.
    assert worked_out("mean-of-runs", {"outward": 20.0, "back": 10.0}).value == 15.0
