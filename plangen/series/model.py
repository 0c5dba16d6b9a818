"""What many hulls come to: how often checks pass at first, what fails, how readings spread, what is open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from plangen.series.statistics import Spread, share_interval

#: Below so many hulls a share says little, and is said to.
FEW = 10


@dataclass(frozen=True)
class Share:
    """So many of so many, with the exact interval in which the true share lies with 95 %."""

    count: int
    of: int

    @property
    def interval(self) -> tuple[float, float] | None:
        """Return the interval; nothing where there is nothing to count."""
        return share_interval(self.count, self.of) if self.of else None

    @property
    def is_of_few(self) -> bool:
        """Tell whether the share is one of few."""
        return self.of < FEW

    def __str__(self) -> str:
        """Write the share.

        >>> str(Share(1, 4)), str(Share(0, 0))
        ('1 of 4 (1–81 %)', 'none')
        """
        if self.interval is None:
            return "none"
        low, high = (round(100 * end) for end in self.interval)
        return f"{self.count} of {self.of} ({low}–{high} %)"


@dataclass(frozen=True)
class GroupYield:
    """How often the checks of a system or a stage passed at first.

    `checks` counts checks on all hulls; `hulls` those on which every check that was judged passed at first.
    """

    group: str
    title: str
    passed: int
    judged: int
    hulls: Share

    @property
    def share(self) -> float | None:
        """Return the share of checks that passed at first."""
        return self.passed / self.judged if self.judged else None


@dataclass(frozen=True)
class OptionShare:
    """How often a check failed on hulls with an option set, and on hulls without it."""

    option: str
    with_it: Share
    without: Share

    @property
    def difference(self) -> float:
        """Return by how much the share with the option exceeds that without; none where one of them has no hull."""
        if not (self.with_it.of and self.without.of):
            return 0.0
        return self.with_it.count / self.with_it.of - self.without.count / self.without.of

    def __str__(self) -> str:
        """Write both shares.

        >>> str(OptionShare("comfort", Share(2, 2), Share(0, 3)))
        'comfort: 2 of 2 with, 0 of 3 without'
        """
        return f"{self.option}: {self.with_it.count} of {self.with_it.of} with, {self.without.count} of {self.without.of} without"


@dataclass(frozen=True)
class FailingCheck:
    """A check that failed on any hull, in any attempt; `readings` are the words of those that failed."""

    check: str
    title: str
    item: str
    readings: tuple[str, ...]
    system: str
    grade: str
    failed: Share
    hulls: tuple[str, ...]
    still_open: tuple[str, ...]
    options: tuple[OptionShare, ...]
    cumulated: float


@dataclass(frozen=True)
class SeriesReading:
    """One hull's reading, with what was expected of it."""

    hull: str
    value: float
    low: float | None
    aim: float | None
    high: float | None
    outlier: bool = False

    @property
    def fails(self) -> bool:
        """Tell whether the reading lies outside its limits."""
        return (self.low is not None and self.value < self.low) or (
            self.high is not None and self.value > self.high
        )


@dataclass(frozen=True)
class ReadingSpread:
    """How one reading spreads over hulls.

    Where not every hull has the same limits, the outlier test compares how far each reading lies from what was expected on
    its hull: `against` then says from what.
    """

    check: str
    reading: str
    title: str
    item: str
    words: str
    unit: str
    readings: tuple[SeriesReading, ...]
    spread: Spread
    against: Literal["", "aim", "low", "high"]

    @property
    def key(self) -> str:
        """Return what names the reading over all hulls."""
        return f"{self.check}: {self.reading}"

    @property
    def limits(self) -> tuple[tuple[float, float] | None, tuple[float, float] | None]:
        """Return the least and greatest lower limit, and the same of the upper one."""
        lows = [one.low for one in self.readings if one.low is not None]
        highs = [one.high for one in self.readings if one.high is not None]
        return (min(lows), max(lows)) if lows else None, (min(highs), max(highs)) if highs else None

    @property
    def outliers(self) -> tuple[SeriesReading, ...]:
        """Return the readings that stand apart."""
        return tuple(one for one in self.readings if one.outlier)

    @property
    def failing(self) -> int:
        """Return how many readings lie outside their limits."""
        return sum(one.fails for one in self.readings)


@dataclass(frozen=True)
class OpenSnag:
    """A snag that is open or disputed on one hull."""

    hull: str
    grade: str
    check: str
    item: str
    title: str
    found: str
    state: str
    due: str | None
    cause: str | None


@dataclass(frozen=True)
class HullStanding:
    """Where one hull stands; `stage` is the one that she is in, where the plan has stages."""

    name: str
    hull_id: str | None
    model: str
    options: tuple[str, ...]
    day: str | None
    checks: int
    to_do: int
    failed_at_first: int
    open_snags: tuple[tuple[str, int], ...]
    stage: str
    handover: str

    @property
    def is_open(self) -> bool:
        """Tell whether anything is left to do on her."""
        return bool(self.to_do or self.open_snags)


@dataclass(frozen=True)
class LinkedSnag:
    """A snag that has a cause."""

    hull: str
    check: str
    title: str
    state: str


@dataclass(frozen=True)
class Cause:
    """What caused several snags, and whether it was shown on a hull to be gone."""

    id: str
    text: str
    snags: tuple[LinkedSnag, ...]
    proved_on: str | None
    standing: Literal["open", "proved", "not-proved"]
    why: str

    @property
    def hulls(self) -> tuple[str, ...]:
        """Return the hulls that it concerns."""
        return tuple(dict.fromkeys(snag.hull for snag in self.snags))


@dataclass(frozen=True)
class Skipped:
    """A folder that was left out, and what is wrong with its files."""

    folder: str
    faults: tuple[str, ...]


@dataclass(frozen=True)
class Tally:
    """Everything that many hulls come to."""

    hulls: tuple[HullStanding, ...]
    options: tuple[str, ...]
    by_stage: tuple[GroupYield, ...]
    by_system: tuple[GroupYield, ...]
    whole: GroupYield
    failing: tuple[FailingCheck, ...]
    readings: tuple[ReadingSpread, ...]
    open_snags: tuple[OpenSnag, ...]
    causes: tuple[Cause, ...]
    skipped: tuple[Skipped, ...] = ()

    @property
    def models(self) -> tuple[str, ...]:
        """Return the models that the hulls are of."""
        return tuple(dict.fromkeys(hull.model for hull in self.hulls if hull.model))

    @property
    def outliers(self) -> tuple[tuple[ReadingSpread, SeriesReading], ...]:
        """Return every reading that stands apart, with its series."""
        return tuple((one, reading) for one in self.readings for reading in one.outliers)
