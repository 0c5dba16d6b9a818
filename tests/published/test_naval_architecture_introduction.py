"""An introduction to naval architecture, p. 245: four runs over the mile, 8 V = V1 + 3 V2 + 3 V3 + V4."""

import pytest

from plangen.formulas.reciprocal_runs import mean_of_four_runs, mean_of_means, mean_of_two_runs


@pytest.mark.parametrize(("run", "weight"), [(0, 1.0), (1, 3.0), (2, 3.0), (3, 1.0)])
def test_weights_of_four_runs(run: int, weight: float) -> None:
    # p. 245: one knot more in one run moves the mean by its weight over eight.
    speeds = [10.0, 9.0, 10.5, 9.5]
    faster = [speed + (index == run) for index, speed in enumerate(speeds)]
    assert mean_of_four_runs(*faster) - mean_of_four_runs(*speeds) == pytest.approx(weight / 8.0)


@pytest.mark.parametrize("runs", [4, 5, 6])
def test_current_quadratic_in_time_cancels(runs: int) -> None:
    # p. 244: the tide taken as a0 + a1 t + a2 t^2.
    current = [1.0 - 0.3 * time + 0.02 * time**2 for time in range(runs)]
    speeds = [10.0 + (-1) ** time * drift for time, drift in enumerate(current)]
    assert mean_of_means(speeds) == pytest.approx(10.0)


def test_mean_of_speeds_and_not_of_times() -> None:
    # A note on harmonic means: 20 and 10 over one distance average 13.3 by time; their mean is 15.
    assert mean_of_two_runs(20.0, 10.0) == 15.0
