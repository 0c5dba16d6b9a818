"""The tables of a tally, for a workbook and as CSV."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from openpyxl import Workbook

from plangen.print.cell_values import Value
from plangen.print.csv_table import csv_bytes
from plangen.print.tally import FROM
from plangen.print.words import CAUSE_WORDS, GRADE_WORDS, HANDOVER_WORDS
from plangen.print.workbook import fill, saved
from plangen.series.model import GroupYield, ReadingSpread, Share, Tally


@dataclass(frozen=True)
class Table:
    """A table with its name, its columns with their widths, and its rows."""

    name: str
    columns: Mapping[str, int]
    rows: Iterable[tuple[Value, ...]]


_SHARE = {"Count": 9, "Of": 9, "Share": 9, "At least (95 %)": 12, "At most (95 %)": 12}


def tally_xlsx(tally: Tally) -> bytes:
    """Return the tally as a workbook, a sheet for each table."""
    book = Workbook()
    book.remove(book.worksheets[0])
    for table in _tables(tally):
        fill(book.create_sheet(table.name), table.columns, list(table.rows))
    return saved(book, f"Tally of {len(tally.hulls)} hulls")


def tally_csvs(tally: Tally) -> dict[str, bytes]:
    """Return each table as CSV, by file name; the readings of every hull are one of them."""
    tables = [*_tables(tally), _all_readings(tally)]
    return {
        f"tally-{table.name.lower().replace(' ', '-')}.csv": csv_bytes(list(table.columns), table.rows)
        for table in tables
    }


def _tables(tally: Tally) -> list[Table]:
    return [
        _hulls(tally), _first_pass(tally), _failing(tally), _spread(tally), _outliers(tally), _open(tally),
        _causes(tally), _left_out(tally),
    ]  # fmt: skip


def _share(share: Share) -> tuple[Value, ...]:
    low, high = share.interval or (None, None)
    return (
        share.count,
        share.of,
        _plain(share.count / share.of) if share.of else None,
        _plain(low),
        _plain(high),
    )


def _plain(number: float | None) -> float | None:
    """Return a number without the last digits of arithmetic."""
    return None if number is None else float(f"{number:.10g}")


def _hulls(tally: Tally) -> Table:
    columns = {
        "Hull": 22, "Hull id": 20, "Option sets": 30, "Day of trial": 12, "Checks": 8, "To do": 8, "Failed at first": 10,
        **{f"Open: {words.lower()}": 12 for words in GRADE_WORDS.values()}, "Stage": 24, "Handover": 18,
    }  # fmt: skip
    rows = (
        (
            hull.name, hull.hull_id, ", ".join(hull.options), hull.day, hull.checks,
            hull.to_do, hull.failed_at_first, *(dict(hull.open_snags).get(grade, 0) for grade in GRADE_WORDS), hull.stage,
            HANDOVER_WORDS[hull.handover],
        )
        for hull in tally.hulls
    )  # fmt: skip
    return Table("Hulls", columns, rows)


def _first_pass(tally: Tally) -> Table:
    columns = {
        "By": 10, "What": 40, "Checks passed at first": 12, "Checks judged": 12, "Share of checks": 10,
        **{f"Hulls without a fail: {name.lower()}": width + 6 for name, width in _SHARE.items()},
    }  # fmt: skip

    def row(by: str, group: GroupYield) -> tuple[Value, ...]:
        return (by, group.title, group.passed, group.judged, _plain(group.share), *_share(group.hulls))

    rows = [row("stage", group) for group in tally.by_stage] + [
        row("system", group) for group in tally.by_system
    ]
    return Table("First-pass yield", columns, [*rows, row("all", tally.whole)])


def _failing(tally: Tally) -> Table:
    columns = {
        "No.": 6, "Item": 24, "Check": 40, "Readings that failed": 34, "Grade": 16, **{f"Failed: {name.lower()}": width + 4 for name, width in _SHARE.items()},
        "Share of all fails, added up": 12, "Hulls": 40, "Still open on": 40, "By option set": 50, "Check id": 40,
    }  # fmt: skip
    rows = (
        (
            number, one.item, one.title, "; ".join(one.readings), GRADE_WORDS[one.grade], *_share(one.failed), _plain(one.cumulated),
            ", ".join(one.hulls), ", ".join(one.still_open), "; ".join(str(share) for share in one.options), one.check,
        )
        for number, one in enumerate(tally.failing, start=1)
    )  # fmt: skip
    return Table("Failing checks", columns, rows)


_AGAINST = {"": ""} | {limit: f"difference from {words}" for limit, words in FROM.items()}


def _spread(tally: Tally) -> Table:
    columns = {
        "Item": 24, "Reading": 34, "Unit": 9, "Readings": 9, "Of what": 22, "Mean": 11, "Standard deviation": 11,
        "Deviation known to ± %": 11, "Least": 11, "Greatest": 11, "Lower limit": 11, "to": 11, "Upper limit": 11, "up to": 11,
        "Outside the limits": 10, "Stand apart": 40, "Check": 34, "Check id": 40, "Reading id": 24,
    }  # fmt: skip
    return Table("Spread", columns, (_spread_row(one) for one in tally.readings))


def _spread_row(one: ReadingSpread) -> tuple[Value, ...]:
    values = [reading.value for reading in one.readings]
    low, high = one.limits
    known = one.spread.deviation_uncertainty
    return (
        one.item, one.words, one.unit, one.spread.number, _AGAINST[one.against], _plain(one.spread.mean), _plain(one.spread.deviation),
        None if known is None else round(100 * known), _plain(min(values)), _plain(max(values)), *(low or (None, None)),
        *(high or (None, None)), one.failing, "; ".join(f"{apart.hull}: {apart.value:.10g}" for apart in one.outliers),
        one.title, one.check, one.reading,
    )  # fmt: skip


def _outliers(tally: Tally) -> Table:
    columns = {"Hull": 22, "Item": 24, "Reading": 34, "Found": 11, "Unit": 9, "Mean of all": 11, "Of what": 22,
               "Outside the limits": 10, "Check id": 40, "Reading id": 24}  # fmt: skip
    rows = (
        (
            reading.hull, one.item, one.words, _plain(reading.value), one.unit, _plain(one.spread.mean), _AGAINST[one.against],
            "yes" if reading.fails else "no", one.check, one.reading,
        )
        for one, reading in tally.outliers
    )  # fmt: skip
    return Table("Stand apart", columns, rows)


def _open(tally: Tally) -> Table:
    columns = {
        "Hull": 22,
        "Grade": 16,
        "Item": 24,
        "Check": 40,
        "Found": 40,
        "State": 10,
        "Due": 12,
        "Cause": 24,
        "Check id": 40,
    }
    rows = (
        (
            one.hull,
            GRADE_WORDS[one.grade],
            one.item,
            one.title,
            one.found,
            one.state,
            one.due,
            one.cause,
            one.check,
        )
        for one in tally.open_snags
    )
    return Table("Open", columns, rows)


def _causes(tally: Tally) -> Table:
    columns = {"Cause": 24, "In words": 44, "Standing": 16, "Why": 44, "Proved on": 18, "Hull": 22, "Snag": 40, "State": 10,
               "Check id": 40}  # fmt: skip
    rows = (
        (
            cause.id,
            cause.text,
            CAUSE_WORDS[cause.standing],
            cause.why,
            cause.proved_on,
            snag.hull,
            snag.title,
            snag.state,
            snag.check,
        )
        for cause in tally.causes
        for snag in cause.snags
    )
    return Table("Causes", columns, rows)


def _left_out(tally: Tally) -> Table:
    rows = ((one.folder, fault) for one in tally.skipped for fault in one.faults)
    return Table("Left out", {"Folder": 40, "Why": 90}, rows)


def _all_readings(tally: Tally) -> Table:
    columns = (
        "Check id",
        "Reading id",
        "Item",
        "Reading",
        "Hull",
        "Found",
        "Unit",
        "Lower limit",
        "Expected",
        "Upper limit",
        "Stands apart",
    )

    def rows() -> Iterator[tuple[Value, ...]]:
        for one in tally.readings:
            for reading in one.readings:
                yield (
                    one.check, one.reading, one.item, one.words, reading.hull, _plain(reading.value), one.unit,
                    _plain(reading.low), _plain(reading.aim), _plain(reading.high), "yes" if reading.outlier else "no",
                )  # fmt: skip

    return Table("Readings", dict.fromkeys(columns, 12), rows())
