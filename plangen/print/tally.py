"""A tally over hulls as a document: what fails, where readings spread, what is open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, log10

from markupsafe import Markup

from plangen.packs.grades import GRADES
from plangen.print.charts import legend_svg
from plangen.print.html import Document, Paper, render
from plangen.print.series_charts import MOST_BARS, failing_bars, reading_dots
from plangen.print.words import CAUSE_WORDS, HANDOVER_WORDS
from plangen.series.model import FEW, ReadingSpread, Tally
from plangen.series.statistics import FALSE_ALARM, FEWEST_FOR_OUTLIERS
from plangen.spec.quantity import number_text

#: What finds room on paper; the tables for spreadsheets hold all.
MOST_CHARTS, USUAL_CHARTS, MOST_SPREADS, MOST_HULLS, MOST_FAILING, MOST_OPEN = 24, 12, 60, 60, 40, 80


@dataclass(frozen=True)
class DotChart:
    """A chart of one reading with the words above it."""

    series: ReadingSpread
    svg: Markup


def tally_document(tally: Tally, paper: Paper = "A4") -> Document:
    """Return the tally as a document."""
    ordered = by_interest(tally.readings)
    charted = _charted(ordered)
    worst = sorted(
        tally.hulls, key=lambda hull: (not hull.is_open, [-dict(hull.open_snags).get(g, 0) for g in GRADES])
    )
    html = render(
        "tally.html.j2",
        tally=tally,
        paper=paper,
        hulls=tally.hulls if len(tally.hulls) <= MOST_HULLS else worst[:MOST_HULLS],
        bars=failing_bars(tally.failing) if tally.failing else None,
        most_bars=MOST_BARS,
        failing=tally.failing[:MOST_FAILING],
        charts=[DotChart(one, reading_dots(one)) for one in charted],
        spreads=ordered[:MOST_SPREADS],
        open_snags=tally.open_snags[:MOST_OPEN],
        most_open=MOST_OPEN,
        days=sorted({hull.day for hull in tally.hulls if hull.day}),
        grades=[
            grade for grade in GRADES if any(grade in dict(hull.open_snags) for hull in tally.hulls)
        ],
        handover_words=HANDOVER_WORDS,
        cause_words=CAUSE_WORDS,
        limits=limits_text,
        centre=centre_text,
        deviation=deviation_text,
        from_words=FROM,
        per_cent=lambda share: "" if share is None else f"{100 * share:.0f} %",
        few=FEW,
        fewest=FEWEST_FOR_OUTLIERS,
        false_alarm=FALSE_ALARM,
        legend=legend_svg,
    )  # fmt: skip
    return Document(html, "style.css", "tally.css")


def by_interest(readings: Sequence[ReadingSpread]) -> list[ReadingSpread]:
    """Return the readings with what somebody should look at first: outliers, then fails, then those nearest to a limit."""
    return sorted(
        readings, key=lambda one: (not one.outliers, -one.failing, -min(one.spread.number, 2), _room(one))
    )


def _charted(ordered: Sequence[ReadingSpread]) -> list[ReadingSpread]:
    """Return the readings that are worth a chart: what stands apart or fails, and a few of those near to a limit."""
    several = [one for one in ordered if one.spread.number > 1 and any(one.limits)]
    telling = [one for one in several if one.outliers or one.failing]
    return several[: min(MOST_CHARTS, max(USUAL_CHARTS, len(telling)))]


def _room(one: ReadingSpread) -> float:
    """Return how many standard deviations the mean of the readings lies within its nearest limit."""
    spread = one.spread
    if not spread.deviation:
        return float("inf")
    margins = [reading.value - reading.low for reading in one.readings if reading.low is not None]
    margins += [reading.high - reading.value for reading in one.readings if reading.high is not None]
    return min(margins, default=float("inf")) / spread.deviation


def limits_text(one: ReadingSpread) -> str:
    """Write the limits of a reading over hulls; where hulls differ, from the least to the greatest."""

    def written(ends: tuple[float, float]) -> str:
        low, high = (number_text(end) for end in ends)
        return low if low == high else f"{low}…{high}"

    lower, upper = one.limits
    if one.against and (lower or upper):
        return "each hull's own"
    if lower and upper:
        return f"{written(lower)} to {written(upper)} {one.unit}".strip()
    if lower or upper:
        return f"{'≥' if lower else '≤'} {written(lower or upper or (0.0, 0.0))} {one.unit}".strip()
    return "none"


#: What the readings of a series with limits of their own are compared with.
FROM = {"aim": "the expected value", "low": "the lower limit", "high": "the upper limit"}


def centre_text(one: ReadingSpread) -> str:
    """Write the mean of a reading over hulls, or how far it lies from what was expected on each."""
    decimals = _decimals(one)
    mean = one.spread.mean
    if not one.against:
        return f"{number_text(mean, decimals)} {one.unit}".strip()
    side = "above" if mean >= 0 else "below"
    return f"{number_text(abs(mean), decimals)} {one.unit} {side} {FROM[one.against]}".replace("  ", " ")


def deviation_text(one: ReadingSpread) -> str:
    """Write the standard deviation in two digits, which is more than is known of it."""
    deviation = one.spread.deviation
    return "" if deviation is None else number_text(deviation, _decimals(one))


def _decimals(one: ReadingSpread) -> int | None:
    """Return the decimals that show two digits of the deviation."""
    deviation = one.spread.deviation
    return max(0, 1 - floor(log10(deviation))) if deviation else None
