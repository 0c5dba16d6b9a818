"""Deck gear, ground tackle and lifting."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Count,
    Current,
    Equipment,
    Flow,
    Force,
    Length,
    Mass,
    NominalVoltage,
    Power,
    Singular,
    SpecModel,
    Speed,
    listed,
    told,
    yes_or_no,
)


class Anchor(Equipment):
    """One anchor with its rode."""

    mass: Mass | None = told("mass", "20 kg", ("0.5 kg", "1000 kg"))
    use: Literal["bower", "kedge", "stern", "storm"] | None = told("use")
    chain_length: Length | None = told("length of chain", "60 m", ("0 m", "500 m"))
    chain_diameter: Length | None = told("diameter of the chain's wire", "10 mm", ("3 mm", "40 mm"))
    chain_standard: Literal["din-766", "iso-4565"] | None = told("standard that the chain is made to")
    rope_length: Length | None = told("length of rope", "40 m", ("0 m", "500 m"))
    marked: bool = yes_or_no("the chain is marked by length")


class Windlass(Equipment):
    """One windlass or capstan."""

    pull: Force | None = told("rated working pull", "7 kN", ("0.2 kN", "200 kN"))
    speed: Speed | None = told("rated line speed", "20 m/min", ("1 m/min", "100 m/min"))
    power: Power | None = told("rated power", "1000 W", ("50 W", "50 kW"))
    voltage: NominalVoltage | None = told("voltage", "12 V", ("6 V", "480 V"))
    current: Current | None = told("current at working load", "90 A", ("1 A", "600 A"))
    breaker: Current | None = told("rating of its breaker", "100 A", ("2 A", "800 A"))
    remote: bool = yes_or_no("has a remote control")
    chain_counter: bool = yes_or_no("has a chain counter")
    serves: Annotated[str, Field(max_length=80)] | None = told("the anchor that it lifts")


class Lift(Equipment):
    """Davits, a crane or a platform that lifts the tender."""

    kind: Literal["davits", "platform", "crane"] = Field(description="kind")
    safe_working_load: Mass | None = told("safe working load", "300 kg", ("30 kg", "20 t"))
    drive: Literal["hydraulic", "electric", "manual"] | None = told("drive")
    current: Current | None = told("current taken", "60 A", ("0.5 A", "600 A"))
    lifts_people: bool = yes_or_no("certified to lift people")


class Passerelle(SpecModel):
    """The gangway."""

    length: Length | None = told("length", "2.5 m", ("0.5 m", "12 m"))
    safe_working_load: Mass | None = told("safe working load", "200 kg", ("50 kg", "2000 kg"))
    drive: Literal["hydraulic", "electric", "manual"] | None = told("drive")


class Cover(Equipment):
    """One cover, canopy or awning."""

    kind: (
        Literal["bimini", "sprayhood", "sail-cover", "awning", "enclosure", "cushions", "winch-covers"] | None
    ) = told("kind")


class Deck(SpecModel):
    """Deck gear."""

    anchors: Annotated[tuple[Anchor, ...], Singular("anchor")] = listed("anchors")
    windlasses: Annotated[tuple[Windlass, ...], Singular("windlass")] = listed("windlasses and capstans")
    lifts: Annotated[tuple[Lift, ...], Singular("lift")] = listed("davits, cranes and lifting platforms")
    passerelle: Passerelle | None = told("gangway")
    covers: Annotated[tuple[Cover, ...], Singular("cover")] = listed("covers, canopies and awnings")
    cleats: Count | None = told("mooring cleats and bollards", "6")
    folding_cleats: bool = yes_or_no("some mooring points fold or sink into the deck")
    cleat_strength: Force | None = told(
        "breaking strength of a mooring cleat by the owner's manual", "25 kN", ("1 kN", "500 kN")
    )
    bow_roller_height: Length | None = told(
        "height of the bow roller above the water", "1.4 m", ("0.2 m", "8 m")
    )
    guardrails: bool = Field(default=True, description="guardrails and stanchions")
    guardrail_height: Length | None = told("height of the upper guardrail", "610 mm", ("200 mm", "1500 mm"))
    guardrail_material: Literal["wire", "coated-wire", "rope", "tube"] | None = told(
        "material of the guardrails"
    )
    jackstays: Count | None = told("jackstays", "2")
    bathing_ladder: bool = yes_or_no("bathing ladder")
    lockers: Count | None = told("deck lockers")
    grill: bool = yes_or_no("a grill on deck")
    trampoline: bool = yes_or_no("netting between the hulls")
    teak: bool = yes_or_no("deck laid with wood or imitation")
    deck_wash_flow: Flow | None = told("flow of the deck wash", "20 L/min", ("1 L/min", "500 L/min"))
