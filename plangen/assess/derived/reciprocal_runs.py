"""Speed through the water from runs on opposite courses."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import SINGLE, Curve, Data, Point, Worker, pointwise
from plangen.formulas.reciprocal_runs import mean_of_means

_TURNS = ("outward", "back", "outward_again", "back_again")


def _mean(here: Mapping[str, float], data: Data, point: Point) -> float:
    return mean_of_means([here[turn] for turn in _TURNS if turn in here])


def _mean_of_means(data: Data) -> Curve:
    runs = data.series("runs")
    return {SINGLE: mean_of_means([runs[number] for number in sorted(runs)])}


MEAN_OF_RUNS = Worker(
    "mean of the speeds on opposite courses, weighted 1, 1 for two runs and 1, 3, 3, 1 for four",
    pointwise(_mean),
)
MEAN_OF_MEANS = Worker("mean of means of the runs in turn, four of them weighted 1, 3, 3, 1", _mean_of_means)
