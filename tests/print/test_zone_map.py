"""The zone map: every zone is drawn once, inside the boat, and what the spec names in it is marked."""

from __future__ import annotations

import re

import pytest

from plangen.plan.zone_map import place_of
from plangen.print.zone_map import HEIGHT, WIDTH, zone_map_svg
from tests.conftest import drafted, shipped, spec_from


@pytest.mark.parametrize("name", ["catamaran.yaml", "monohull.yaml", "yard/hull-101.yaml"])
def test_every_zone_with_a_code_is_on_the_map_once(name: str) -> None:
    plan = drafted(name).plan
    assert plan.zone_map is not None
    drawn = re.findall(r">([A-Z0-9]{1,4})</text>", zone_map_svg(plan.zone_map))
    both = [zone.code for zone in plan.zone_map.zones if zone.lane == "both-sides"]
    assert sorted(drawn) == sorted([zone.code for zone in plan.zone_map.zones] + both)


@pytest.mark.parametrize("name", ["catamaran.yaml", "monohull.yaml"])
def test_nothing_is_drawn_outside_the_paper_and_every_mark_is_there(name: str) -> None:
    map = drafted(name).plan.zone_map
    assert map is not None
    svg = str(zone_map_svg(map))
    across = [float(x) for x in re.findall(r'\bc?x[12]?="([-\d.]+)"', svg)]
    assert min(across) >= 0
    assert max(across) <= WIDTH
    assert float(re.search(r'height="([\d.]+)mm"', svg)[1]) <= HEIGHT  # type: ignore[index]
    seacocks = next(key for key in map.keys if key.symbol == "disc")
    assert svg.count("<circle") >= seacocks.count > 0


@pytest.mark.parametrize(
    ("zone", "lane", "before"),
    [
        ("{name: port forward cabin, kind: cabin}", "port", "{name: port aft cabin, kind: cabin}"),
        ("{name: anchor locker, kind: locker}", "centre", "{name: saloon, kind: saloon}"),
        ("{name: my den, kind: cabin}", "centre", "{name: lazarette, kind: locker}"),
    ],
)
def test_a_zone_lies_where_its_name_or_kind_says(zone: str, lane: str, before: str) -> None:
    rules = shipped().zone_map
    assert rules is not None
    spec = spec_from(
        f"vessel: {{name: X, hull: sailing-catamaran, length_hull: 12 m}}\nzones:\n  - {zone}\n  - {before}\n"
    ).spec
    first, second = (place_of(one, rules) for one in spec.zones)
    assert first[0] == lane
    assert first[1] < second[1]
