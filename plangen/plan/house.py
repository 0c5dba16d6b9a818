"""What a surveyor's or yard's own house file brings into a plan: whose paper it is, and what was changed in the checks."""

from __future__ import annotations

from typing import Literal

from plangen.plan.base import PlanModel

Urgency = Literal["before-use", "before-cover", "next-haul-out", "monitor"]


class Logo(PlanModel):
    """A picture for the letterhead, held as data so that nothing has to be fetched: base64 of a PNG or JPEG."""

    type: Literal["png", "jpeg"]
    width: int
    height: int
    data: str

    @property
    def uri(self) -> str:
        """Return the picture as a `data:` address."""
        return f"data:image/{self.type};base64,{self.data}"


class Letterhead(PlanModel):
    """Who surveys: name, address by lines, licence or membership, professional insurance, logo."""

    name: str
    address: tuple[str, ...] = ()
    licence: str | None = None
    insurance: str | None = None
    logo: Logo | None = None


class Client(PlanModel):
    """For whom the work is done, and what was asked for, such as `Condition and valuation before purchase`."""

    name: str
    address: tuple[str, ...] = ()
    reference: str | None = None
    asked_for: str | None = None


class Recommendation(PlanModel):
    """A recommendation of the house's own. Where `rules` are named, it is for a boat on which a check of one fails."""

    words: str
    urgency: Urgency
    rules: tuple[str, ...] = ()


class HouseChange(PlanModel):
    """One thing that the house file changed: the rule, which of its readings, what, why and by whom.

    `words` say it as it is printed, such as `grade: stop, now by an agreed date`. `was` is what a dropped or replaced
    check was: of grade stop, or one that a law's text stands behind.
    """

    rule: str
    title: str
    change: Literal["added", "dropped", "replaced", "changed"]
    reading: str | None = None
    words: str
    reason: str = ""
    by: str | None = None
    was: Literal["stop", "law"] | None = None


class House(PlanModel):
    """Whose paper it is, for whom, on what terms, and what was changed in the shipped checks."""

    paper: Literal["a4", "letter"] | None = None
    letterhead: Letterhead | None = None
    client: Client | None = None
    terms: tuple[str, ...] = ()
    limitations: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    recommendations: tuple[Recommendation, ...] = ()
    changes: tuple[HouseChange, ...] = ()
