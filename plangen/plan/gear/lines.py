"""What the plan says about safety gear: demands, the inventory by item, and what to buy."""

from __future__ import annotations

from plangen.plan.base import PlanModel


class Demand(PlanModel):
    """What one jurisdiction or code demands of one gear item; `strength` is required, recommended or builder."""

    jurisdiction: str
    requirement: str
    quantity: float
    strength: str
    clause: str
    approval: str | None = None
    marks: tuple[str, ...] = ()
    own_place: bool = False
    contents: str | None = None
    upkeep: str | None = None
    instead: str | None = None
    service_days: float | None = None
    life_days: float | None = None
    alternatives: tuple[dict[str, float], ...] = ()
    verify: str | None = None
    note: str | None = None
    known_by: str

    @property
    def key(self) -> str:
        """Return what tells the demand from every other."""
        return f"{self.jurisdiction}/{self.requirement}"


class GearLine(PlanModel):
    """One gear item: what each law demands of it, what is aboard of it, and what is still wanting.

    `quantity` is what is required, or only recommended, or the builder's duty, as `strength` says; recommendations
    never raise it. `met_by` says what is bought in its place.
    """

    item: str
    title: str
    group: str
    quantity: float
    strength: str
    recommended: float = 0.0
    demands: tuple[Demand, ...]
    aboard: float
    shortfall: float
    met_by: tuple[str, ...] = ()
    expires: tuple[str, ...] = ()
    lapsed: tuple[str, ...] = ()
    seen_by: tuple[str, ...] = ()
    counted: bool = True
    note: str | None = None


class Met(PlanModel):
    """A demand that a purchase meets, and with how many of its units."""

    jurisdiction: str
    law: str
    requirement: str
    clause: str
    quantity: float
    strength: str


class GearPurchase(PlanModel):
    """One line of the shopping list or of the papers: what to buy or find, how many, of which kind and mark, and why."""

    id: str
    item: str
    title: str
    group: str
    list: str
    quantity: int
    counts: str
    strength: str
    mark: str | None = None
    kind: str | None = None
    contents: tuple[str, ...] = ()
    why: str
    known_by: str
    dated: bool = False
    meets: tuple[Met, ...]
    in_place_of: dict[str, int] = {}


class LawApplied(PlanModel):
    """A jurisdiction or code that was evaluated for this boat.

    `says` holds what is to be known where it asks little or nothing: of a visitor, or outside its scope.
    """

    jurisdiction: str
    title: str
    edition: str
    kind: str
    state: str = "applies"
    zone: str | None = None
    day: str | None = None
    coverage: str
    ask: str
    says: str | None = None
    changes: tuple[str, ...] = ()
    instruments: dict[str, str]
    undecided: tuple[str, ...] = ()


class Unheld(PlanModel):
    """A place that the spec names and for which there is no text."""

    place: str
    ask: str
    nearest: str = ""
