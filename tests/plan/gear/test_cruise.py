"""Where she sails, in sailors' words: jurisdictions, distances and what is not held."""

from __future__ import annotations

import pytest

from plangen.packs.library import load_library
from plangen.packs.waters import water_named
from tests.conftest import shipped
from tests.plan.gear.test_inventory import buys, plan


def test_france_balearics_and_a_winter_in_tunisia() -> None:
    found = plan({"registry": "france", "cruise": ["france", "balearics", "tunisia"]})
    assert {"france", "spain"} <= {law.jurisdiction for law in found.law}
    assert [one.place for one in found.unheld] == ["Tunisia"]
    assert {line.key: line.why for line in found.assumed}[
        "use.distance_from_shelter"
    ] == "her cruise: balearics"


def test_an_atlantic_crossing_is_ocean_by_every_law() -> None:
    """Division 240: beyond 60 miles everything of the hauturier list; a raft for all."""
    found = plan({"registry": "france", "cruise": ["atlantic crossing"]})
    assert next(law for law in found.law if law.jurisdiction == "france").zone == "hauturier"
    assert buys(found)["liferaft-iso-9650-1"] == 8


def test_the_exact_key_beats_the_cruise() -> None:
    found = plan({"registry": "france", "cruise": ["atlantic-crossing"], "distance_from_shelter": "1 nmi"})
    assert next(law for law in found.law if law.jurisdiction == "france").zone == "basique"


@pytest.mark.parametrize("name", ["Mallorca", "balearic islands", "BALEARICS", "ibiza"])
def test_waters_go_under_the_names_that_sailors_give_them(name: str) -> None:
    water = water_named(name, shipped().waters)
    assert water is not None
    assert water.title == "Balearic Islands"


def test_a_name_that_is_not_known_gives_the_nearest_and_stops_nothing() -> None:
    found = plan({"registry": "france", "cruise": ["balearic"]})
    assert (found.unheld[0].place, found.unheld[0].nearest) == ("balearic", "balearics")


def test_only_the_law_of_the_waters_named_is_read() -> None:
    held = {pack.model.jurisdiction for pack in load_library(jurisdictions=["france", "balearics"]).law}
    assert held == {"france", "spain", "international", "european-union-builder"}


def test_no_name_stands_for_two_waters() -> None:
    seen: dict[str, str] = {}
    for id, water in shipped().waters.items():
        for name in {id.replace("-", " "), *water.also}:
            assert seen.setdefault(name.lower(), id) == id
