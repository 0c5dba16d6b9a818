"""What is carried aboard: how many pages, how full, how large the type and the boxes, with headings and codes throughout.

The sizes are the trade's: 10 pt and more for what is read standing, rows of 9 mm and boxes of 7.5 mm for a pencil in a cold hand.
"""

from __future__ import annotations

import io
import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import pairwise
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from pypdf import PdfReader
from ruamel.yaml import YAML

from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.print.carried.clipboards import clipboards_of
from plangen.print.carried.document import carried_document
from plangen.print.carried.lines import Line, line_of
from plangen.print.carried.pages import (
    Board,
    GoesOn,
    Opening,
    Page,
    Share,
    boards_of,
    cautions_said,
    danger_of,
    in_short,
)
from plangen.print.pdf import write_pdf
from plangen.schedule.schedule import schedule
from plangen.schedule.wishes import Instead
from plangen.spec.load import load_spec_file
from plangen.spec.quantity import UnitSystem, is_unit_label
from tests.boats.aboard import BOATS
from tests.conftest import shipped

MM = 72 / 25.4
#: Lower margin and the height that the margins leave of an A4 page (ISO 216), in millimetres.
FOOT, HEIGHT = 12.0, 273.0
#: Margins at the left and the right, in millimetres, with what a letter may lean over them.
LEFT, RIGHT = 16.5, 9.5
METHODS: Mapping[str, str] = defaultdict(lambda: "M1")
USED = ("monohull", "sloop_9m", "long_keeler_1988")


@dataclass(frozen=True)
class Printed:
    """A plan and its paper."""

    plan: Plan
    pdf: bytes
    html: str

    @cached_property
    def feet(self) -> list[str]:
        """The text of each page, in one line."""
        return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(self.pdf)).pages]


@cache
def printed(boat: str, hours: float, people: int, days: int, priority: int | None = None) -> Printed:
    """Draft a boat's plan for some hours and people, and print it."""
    library = shipped()
    loaded = load_spec_file(BOATS[boat], library.zone_sets())
    plan = schedule(draft_plan(loaded, library), loaded, library, Instead(hours, people, days, priority))
    document = carried_document(plan)
    return Printed(plan, write_pdf(document, plan.digest), document.html)


def one_day() -> Printed:
    """Two people and one day of ten hours on the catamaran."""
    return printed("catamaran", 10, 2, 1)


def three_days() -> Printed:
    """Two people and three days of ten hours on the catamaran."""
    return printed("catamaran", 10, 2, 3)


def survey(boat: str) -> Printed:
    """One surveyor and eight hours on a used boat."""
    return printed(boat, 8, 1, 1)


def clipboard_pages(paper: Printed) -> list[tuple[int, int, int]]:
    """Return for each page of a clipboard its place in the document, its own number, and how many its clipboard has."""
    found = []
    for place, text in enumerate(paper.feet):
        if own := re.search(r"page (\d+) of (\d+) of this clipboard", text):
            found.append((place, int(own[1]), int(own[2])))
    return found


def fills(content: bytes) -> list[float]:
    """Return how far down each page what is printed reaches, as a share of the height between the margins."""
    document = pdfium.PdfDocument(content)
    shares = []
    for page in document:
        lows = [bottom for _, bottom, _, _ in (one.get_bounds() for one in page.get_objects(max_depth=3))]
        lowest = min((low for low in lows if low >= (FOOT - 0.5) * MM), default=page.get_height())
        shares.append(1 - (lowest / MM - FOOT) / HEIGHT)
    return shares


def crossings(content: bytes) -> list[tuple[int, str]]:
    """Return words that stand over other words, across the edge of a box to write in, or beyond the margins."""
    found: list[tuple[int, str]] = []
    widgets = [
        [reference.get_object() for reference in page.get("/Annots", [])]
        for page in PdfReader(io.BytesIO(content)).pages
    ]
    for number, page in enumerate(pdfium.PdfDocument(content)):
        text = page.get_textpage()
        words = [text.get_rect(index) for index in range(text.count_rects())]
        boxes = [[float(x) for x in one["/Rect"]] for one in widgets[number] if one["/Subtype"] == "/Widget"]
        for index, (left, low, right, high) in enumerate(words):
            outside = left < LEFT * MM or right > page.get_width() - RIGHT * MM
            over_edge = any(
                min(right, box[2]) - max(left, box[0]) > 0.4 * MM
                and min(high, box[3]) - max(low, box[1]) > 0.8 * MM
                and (left < box[0] - 0.3 * MM or right > box[2] + 0.3 * MM)
                for box in boxes
            )
            over_words = any(
                min(right, other[2]) - max(left, other[0]) > 0.5 * MM
                and min(high, other[3]) - max(low, other[1]) > 0.45 * min(high - low, other[3] - other[1])
                for other in words[index + 1 :]
            )
            if outside or over_edge or over_words:
                found.append((number + 1, text.get_text_bounded(left, low, right, high)))
    return found


def test_a_day_of_two_people_is_carried_on_seventeen_pages() -> None:
    assert len(one_day().feet) <= 17


def test_three_days_of_two_people_are_carried_on_forty_pages() -> None:
    assert len(three_days().feet) <= 40


@pytest.mark.parametrize("boat", USED)
def test_a_survey_of_a_used_boat_is_carried_on_twelve_pages(boat: str) -> None:
    assert len(survey(boat).feet) <= 12


@pytest.mark.parametrize("paper", [one_day, three_days])
def test_fourteen_checks_stand_on_a_page_and_six_pages_around_them(paper: Callable[[], Printed]) -> None:
    plan = paper().plan
    clipboards = sum(len(session.people) for session in plan.sessions)
    assert len(paper().feet) <= 6 + len(plan.sessions) + len(plan.checks) / 14 + clipboards / 2


@pytest.mark.parametrize("boat", ["one day", "three days", *USED])
def test_no_page_is_less_than_three_fifths_full_but_the_last_of_a_clipboard(boat: str) -> None:
    paper = {"one day": one_day, "three days": three_days}.get(boat, lambda: survey(boat))()
    last = {place for place, own, many in clipboard_pages(paper) if own == many}
    sparse = {
        place + 1: round(share, 2)
        for place, share in enumerate(fills(paper.pdf))
        if share < 0.6 and place not in last
    }
    assert not sparse


def test_each_clipboard_starts_on_a_page_of_its_own_and_counts_its_pages() -> None:
    paper = one_day()
    pages = clipboard_pages(paper)
    boards = clipboards_of(paper.plan)
    starts = [place for place, own, _ in pages if own == 1]
    assert len(starts) == len(boards) > 1
    for start, board in zip(starts, boards, strict=True):
        assert board.title in paper.feet[start]
        many = next(many for place, _, many in pages if place == start)
        assert [own for place, own, _ in pages if start <= place < start + many] == list(range(1, many + 1))


def test_cover_and_timetable_are_one_page_each() -> None:
    text = one_day().feet
    assert "Trial plan, to be carried aboard" in text[0]
    assert "Agreed before the start" in text[0]
    assert text[1].startswith("Day 1")
    assert "Morning briefing" in text[2]


def test_what_is_read_aboard_is_ten_points_and_more() -> None:
    """What to do, what is read and what is good are found again in the letters of 10 pt and more alone."""
    paper = survey("monohull")
    letters: list[str] = []

    def keep(text: str, around: list[float], within: list[float], font: object, size: float) -> None:
        if size * abs(within[0]) * abs(around[0]) >= 9.99:
            letters.append(text)

    for page in PdfReader(io.BytesIO(paper.pdf)).pages:
        page.extract_text(visitor_text=keep)
    large = "".join("".join(letters).split()).casefold()
    for check in paper.plan.checks:
        assert "".join((check.do or check.title).rstrip(".").split()).casefold() in large, check.id
        for expected in check.expect:
            assert "".join(expected.reading.split()).casefold() in large, expected.id
            for part in expected.parts:
                assert "".join(part.split()).casefold() in large, part


def test_remarks_are_nine_millimetres_apart() -> None:
    for page in PdfReader(io.BytesIO(survey("monohull").pdf)).pages:
        tops: dict[int, set[float]] = {}
        for reference in page.get("/Annots", []):
            widget = reference.get_object()
            if str(widget.get("/T", "")).endswith("/note"):
                left, _, _, top = (float(x) for x in widget["/Rect"])
                tops.setdefault(round(left), set()).add(round(top, 1))
        for column in tops.values():
            ordered = sorted(column)
            assert all(after - before >= 8.9 * MM for before, after in pairwise(ordered))


def boards(paper: Printed) -> tuple[Board, ...]:
    """The clipboards of a plan with their pages."""
    return boards_of(clipboards_of(paper.plan), "A4")


@pytest.mark.parametrize("boat", ["one day", "three days", *USED])
def test_clipboards_have_the_pages_that_were_counted_before_they_were_laid_out(boat: str) -> None:
    """A line more than was counted would push a check onto a page of its own."""
    paper = {"one day": one_day, "three days": three_days}.get(boat, lambda: survey(boat))()
    laid_out = [many for _, own, many in clipboard_pages(paper) if own == 1]
    assert laid_out == [len(board.pages) for board in boards(paper)]


@pytest.mark.parametrize("paper", [one_day, three_days])
def test_what_can_hurt_is_said_on_the_page_on_which_the_work_is(paper: Callable[[], Printed]) -> None:
    """Each check finds its cautions above it on its page: in full, by name where they stand there in full, in short overleaf."""
    cautions = paper().plan.cautions_in_short
    texts = dict(
        zip((place for place, _, _ in clipboard_pages(paper())), _pages(boards(paper())), strict=True)
    )
    overleaf = 0
    for place, page in texts.items():
        said: set[str] = set()
        printed_there = "".join(paper().feet[place].split())
        for entry in page.entries:
            if isinstance(entry, Share):
                for name in {name for line in entry.lines for name in line.check.cautions}:
                    assert cautions[name] in said or in_short(cautions[name]) in said, (place, name)
                continue
            overleaf += isinstance(entry, GoesOn) and bool(entry.cautions)
            said |= set(entry.cautions)
            for text in entry.cautions:
                assert "".join(text.split()) in printed_there
            if isinstance(entry, Opening):
                named = cautions_said((), entry.named)
                assert "".join(named.split()) in printed_there
                said |= {step.caution for step in entry.changes if step.caution}
                for name in entry.sheet.cautions.values():
                    assert name in entry.cautions or danger_of(name) in entry.named
                    assert name in said
    assert overleaf


def _pages(boards: Iterable[Board]) -> list[Page]:
    return [page for board in boards for page in board.pages]


def test_every_page_of_a_clipboard_has_its_headings() -> None:
    paper = one_day()
    for place, _, _ in clipboard_pages(paper):
        for heading in ("No.", "What to do, and what is good", "Found", "remark"):
            assert heading in paper.feet[place]


def test_every_column_of_a_table_has_a_heading() -> None:
    tables = re.findall(r'<table class="(?:items|run)">.*?</table>', three_days().html, re.DOTALL)
    assert tables
    for table in tables:
        heads = re.findall(r"<th[^>]*>(.*?)</th>", table, re.DOTALL)
        rows = re.findall(r"<tr><td class=\"code\">.*?</tr>", table, re.DOTALL)
        assert all(re.sub(r"<[^>]+>", "", head).strip() for head in heads)
        assert {len(re.findall(r"<td", row)) for row in rows} <= {len(heads)}


def test_every_reading_has_its_code() -> None:
    """Beside each box stands its letter, in its row the code of the check; a table of items has letters at its head."""
    paper = one_day()
    for board in clipboards_of(paper.plan):
        for sheet in board.rounds:
            for block in sheet.blocks:
                for line in block.lines:
                    assert re.search(f'<(?:td|p) class="code">{re.escape(line.code)}<', paper.html)
                    for cell in line.cells:
                        assert line.code + cell.letter == cell.code
                        name = cell.field + ("/yes" if cell.kind == "tick" else "")
                        before = paper.html.split(f'name="{name}"')[0][-120:]
                        if block.items is None and cell.letter:
                            assert f"<b>{cell.letter}</b>" in before, cell.code
                        elif block.items is not None:
                            column = next(one for one in block.items.columns if one.id == cell.id)
                            assert cell.letter in ("", column.name) or f"<b>{cell.letter}</b>" in before


def test_words_that_stand_on_a_clipboard_once_are_said_where_they_stand() -> None:
    """A check "as 5.1" comes after 5.1 on the same clipboard; what isn't printed of it is printed there, word for word."""
    again = 0
    for board in clipboards_of(one_day().plan):
        above: dict[str, Line] = {}
        for line in (line for sheet in board.rounds for line in sheet.lines):
            if not line.like:
                above[line.code] = line
                assert {part for cell in line.cells for part in cell.parts} == {
                    part for expected in line.check.expect for part in expected.parts if not expected.series
                }
                continue
            again += 1
            first = above[line.like]
            assert (first.check.rule, first.check.do) == (line.check.rule, line.check.do)
            said = {cell.id: cell for cell in first.cells}
            whole = {cell.id: cell for cell in line_of(line.check, one_day().plan, METHODS, None).cells}
            for cell in line.cells:
                full = whole[cell.id]
                assert (cell.good, cell.basis, cell.tip, cell.code) == (
                    full.good,
                    full.basis,
                    full.tip,
                    full.code,
                )
                if cell.words != full.words:
                    assert full.words == said[cell.id].words
                    assert full.words.startswith(cell.words)
                    assert cell.words
                if cell.parts != full.parts:
                    for own, there in zip(full.parts, said[cell.id].parts, strict=True):
                        assert own == there or own in cell.parts
    assert again > 10


@pytest.mark.parametrize("boat", ["", *USED])
def test_nothing_stands_over_something_else_or_beyond_the_margins(boat: str) -> None:
    assert not crossings((survey(boat) if boat else three_days()).pdf)


@pytest.mark.parametrize("paper", [one_day, three_days])
def test_snags_on_a_clipboard_fill_its_last_page_and_take_none_of_their_own(
    paper: Callable[[], Printed],
) -> None:
    """Their numbers run through; the page on which they begin has a check on it as well."""
    found: list[int] = []
    pages = PdfReader(io.BytesIO(paper().pdf)).pages
    for text, page in zip(paper().feet, pages, strict=True):
        own = [int(number) for number in re.findall(r"\bS(\d+)\b check, e.g.", text)]
        found += own
        if own and "of this clipboard" in text:
            fields = [str(one.get_object().get("/T", "")) for one in page.get("/Annots", [])]
            assert any(field.endswith("/note") for field in fields)
    assert found == list(range(1, len(found) + 1))
    assert len(found) >= 3


@pytest.mark.parametrize("units", ["metric", "us"])
def test_a_box_has_the_unit_of_its_limit(units: UnitSystem) -> None:
    """A number without a unit is read in the unit of the limit that is printed beside its box."""
    library = shipped()
    loaded = load_spec_file(BOATS["monohull"], library.zone_sets())
    plan = draft_plan(loaded, library, units).plan
    seen = set()
    for check in plan.checks:
        for cell in line_of(check, plan, METHODS, None).cells:
            if is_unit_label(cell.unit) and cell.good not in ("", "record the reading"):
                assert cell.unit in cell.good, cell.code
                seen.add(cell.unit)
    assert {"metric": {"mm", "L/min", "K"}, "us": {"in", "gal/min", "°F"}}[units] <= seen


#: Keys whose values are words of the spec itself, which a name may be as well.
_OWN_WORDS = ("kind", "holds", "fuel", "cooling", "use", "energy", "material")


def _names(part: object) -> Iterator[str]:
    if isinstance(part, dict):
        yield from (part["name"],) if isinstance(part.get("name"), str) else ()
        yield from (name for value in part.values() for name in _names(value))
    elif isinstance(part, list):
        yield from (name for value in part for name in _names(value))


def _with_long_names(part: object, names: Set[str], key: str = "") -> object:
    if isinstance(part, dict):
        return {own: _with_long_names(value, names, own) for own, value in part.items()}
    if isinstance(part, list):
        return [_with_long_names(value, names, key) for value in part]
    if isinstance(part, str) and part in names and key not in _OWN_WORDS:
        return f"{part} Schotwinschenhalterungsabdeckung of the longest kind"
    return part


def test_long_names_stand_in_their_columns(tmp_path: Path) -> None:
    """Every name of a boat, her own and the people's included, is several times as long as usual, with one long word."""
    yaml = YAML(typ="safe")
    spec = yaml.load(BOATS["monohull"].read_text(encoding="utf-8"))
    vessel = spec.pop("vessel")
    spec = _with_long_names(spec, set(_names(spec)))
    assert isinstance(spec, dict)
    spec["vessel"] = vessel | {"name": "The Extraordinarily Long-Named Yacht of Sampleport and Beyond"}
    spec["trial"]["people"] = ["Bernadette Oyelaran-Quist", "Maximilian Featherstonehaugh-Smythe"]
    path = tmp_path / "long.yaml"
    with path.open("w", encoding="utf-8") as file:
        yaml.dump(spec, file)
    library = shipped()
    loaded = load_spec_file(path, library.zone_sets())
    plan = schedule(draft_plan(loaded, library), loaded, library, Instead(8, None, 1, 1))
    for paper in ("A4", "letter"):
        document = carried_document(plan, paper)
        assert "Schotwinschenhalterungsabdeckung" in document.html
        assert not crossings(write_pdf(document, plan.digest))
