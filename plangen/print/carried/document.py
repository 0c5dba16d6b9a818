"""The carried plan as one HTML document."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Literal

from plangen.plan.model import Plan
from plangen.print.carried.briefing import Briefing, briefing_of
from plangen.print.carried.clipboards import clipboards_of, is_fitted
from plangen.print.carried.cover import Around, ContentsRow, cover_of
from plangen.print.carried.kit import KitGroup, kit_height, kit_of
from plangen.print.carried.left_out import Group, left_out_of
from plangen.print.carried.order_of_work import order_of_work
from plangen.print.carried.page import room
from plangen.print.carried.pages import SNAG, Board, boards_of, cautions_said
from plangen.print.carried.shopping import shopping_height
from plangen.print.carried.timetable import timetable_of
from plangen.print.flag import flag_of
from plangen.print.html import Document, Paper, foot_of, render
from plangen.print.zone_map import HEIGHT, LOWER, symbol_of_key, zone_map_height, zone_map_svg

#: The style of all that is carried.
STYLE = "carried/carried.css"
#: Snags that there is room for at the least: on the first day, on each further one, in all, and in a plan without days.
_FIRST_DAY, _EACH_DAY, _MOST_SNAGS, _SNAGS_OF_THE_WHOLE = 3, 4, 19, 12
#: Millimetres: what lies between two parts, the heading above snags, what a list needs to be worth its heading.
_APART, _SNAG_HEAD, _WORTH_A_LIST = 7.0, 14.5, 48.0
_SNAGS_BELOW = 4
#: How full a page has to be without snags.
_WELL_FILLED = 0.62
#: Checks that are named of what is left out, and snags that share a page, at the least.
_FEWEST_NAMED, _FEWEST_SNAGS = 1, 2


@dataclass(frozen=True)
class Matter:
    """What stands around the clipboards, and which parts share a page: `left_out_follows` says which one is before it."""

    briefing: Briefing
    kit: tuple[KitGroup, ...]
    kit_follows: bool
    left_out: tuple[Group, ...]
    left_out_follows: Literal["kit", "zone-map", ""]
    map_height: float
    snags: range
    snags_follow: bool


def carried_document(plan: Plan, paper: Paper = "A4") -> Document:
    """Return what is carried aboard."""
    boards = boards_of(clipboards_of(plan), paper)
    matter = matter_of(plan, paper, sum(len(board.snags) for board in boards))
    html = render(
        "carried/plan.html.j2",
        plan=plan,
        paper=paper,
        heading="Trial plan",
        boards=boards,
        cautions_said=cautions_said,
        flag=flag_of(plan),
        cover=cover_of(plan, [board.clipboard for board in boards], _around(plan, matter, boards), paper),
        timetable=timetable_of(plan, paper) if is_fitted(plan) else (),
        order=order_of_work(plan),
        matter=matter,
        fitted=is_fitted(plan),
        zone_map=zone_map_svg(plan.zone_map, matter.map_height) if plan.zone_map else "",
        symbol=symbol_of_key,
        zone_rounds=_zone_rounds(plan),
    )
    return Document(html, STYLE, foot=foot_of(plan))


def matter_of(plan: Plan, paper: Paper, on_boards: int) -> Matter:
    """Return what stands around the clipboards, on which there are some snags already, so laid that pages are filled.

    The kit shares the briefing's pages where that saves one; what is left out follows the kit, or the zone map, where it has
    room; further snags follow what stands before them where that is short.
    """
    page = room(paper)
    briefing, kit = briefing_of(plan), kit_of(plan)
    both = briefing.height + _APART + kit_height(kit)
    follows = ceil(both / page) < ceil(briefing.height / page) + ceil(kit_height(kit) / page)
    stands = both if follows else kit_height(kit)
    beside_kit = ceil(stands / page) * page - stands - _APART
    places: list[tuple[Literal["kit", "zone-map"], float]] = [("kit", beside_kit)]
    if plan.zone_map:
        places.append(("zone-map", page - zone_map_height(plan.zone_map) - _APART))
    left_follows, left_out = _shared(plan, places)
    high = 0.0
    wanted = _wanted(plan) - on_boards
    if not left_follows:
        below = _APART + _SNAG_HEAD + _SNAGS_BELOW * SNAG if wanted > 0 else _APART
        left_out, high = left_out_of(plan, page - below)
    above = high if left_out and not left_follows else shopping_height(plan)
    rest = int((page - above - _APART - _SNAG_HEAD) // SNAG) if above else 0
    shares = rest >= _FEWEST_SNAGS
    if wanted > 0:
        snags = rest if shares else int((page - _SNAG_HEAD) // SNAG)
        while snags < wanted:
            snags += int(page // SNAG)
    else:
        snags = rest if shares and above < _WELL_FILLED * page else 0
    numbers = range(on_boards + 1, on_boards + snags + 1)
    lower = left_follows == "zone-map"
    return Matter(
        briefing=briefing,
        kit=kit,
        kit_follows=follows,
        left_out=left_out,
        left_out_follows=left_follows,
        map_height=LOWER if lower else HEIGHT,
        snags=numbers,
        snags_follow=shares and snags > 0,
    )


def _shared(
    plan: Plan, places: Sequence[tuple[Literal["kit", "zone-map"], float]]
) -> tuple[Literal["kit", "zone-map", ""], tuple[Group, ...]]:
    """Return what is left out as it stands in the first place that has room for it, and nothing where none has."""
    for place, high in places:
        left_out, _ = left_out_of(plan, high)
        if high >= _WORTH_A_LIST and sum(len(group.rows) for group in left_out) >= _FEWEST_NAMED:
            return place, left_out
    return "", ()


def _wanted(plan: Plan) -> int:
    """Return how many snags there has to be room for."""
    if not is_fitted(plan):
        return _SNAGS_OF_THE_WHOLE
    return min(_FIRST_DAY + _EACH_DAY * (len(plan.sessions) - 1), _MOST_SNAGS)


def _around(plan: Plan, matter: Matter, boards: Sequence[Board]) -> Around:
    if is_fitted(plan):
        many = len(plan.sessions) > 1
        parts = [ContentsRow("Timetable", "a page for each day" if many else "", "timetable")]
    else:
        parts = [ContentsRow("Order of work", "", "order")]
    parts.append(ContentsRow("Morning briefing", "", "briefing"))
    parts.append(ContentsRow("Kit to bring", "", "kit"))
    left_out = [ContentsRow("Not in this trial", "what stays unknown", "left-out")] if matter.left_out else []
    if matter.left_out_follows == "kit":
        parts += left_out
    if plan.zone_map:
        parts.append(ContentsRow("Zone map", "", "zone-map"))
    if matter.left_out_follows == "zone-map":
        parts += left_out
    after = [ContentsRow("Safety equipment", "to buy or find", "shopping")] if plan.shopping else []
    if not matter.left_out_follows:
        after += left_out
    on_boards = [board for board in boards if board.snags]
    if on_boards:
        last = on_boards[-1].snags[-1]
        after.append(
            ContentsRow(
                "Snags", f"S1 to S{last}, behind the rounds", f"snags-{on_boards[0].clipboard.anchor}"
            )
        )
    if matter.snags:
        more = "More snags" if on_boards else "Snags"
        after.append(ContentsRow(more, f"S{matter.snags[0]} to S{matter.snags[-1]}", "snag-sheets"))
    return Around(tuple(parts), tuple(after))


def _zone_rounds(plan: Plan) -> dict[str, list[int]]:
    names = {zone.name: list[int]() for zone in plan.zone_map.zones} if plan.zone_map else {}
    for one in plan.rounds:
        for zone in dict.fromkeys([*(one.zones or ()), *([one.zone] if one.zone else [])]):
            if zone in names:
                names[zone].append(one.number)
    return {zone: sorted(numbers) for zone, numbers in names.items()}
