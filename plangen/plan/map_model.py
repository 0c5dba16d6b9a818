"""The boat in plan view, as the plan holds it."""

from __future__ import annotations

from plangen.plan.base import PlanModel


class MapZone(PlanModel):
    """One zone on the map: across the boat, along her from bow to stern, and how many of each mark lie in it."""

    name: str
    code: str
    lane: str
    along: int
    marks: dict[str, int] = {}


class MapKey(PlanModel):
    """A mark of the zone map: its words, its symbol, and how many the spec names in a zone."""

    id: str
    title: str
    symbol: str
    count: int


class ZoneMap(PlanModel):
    """The boat in plan view, schematic but in her proportions."""

    outline: str
    length: float
    beam: float | None = None
    zones: tuple[MapZone, ...]
    keys: tuple[MapKey, ...] = ()
