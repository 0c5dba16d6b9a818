"""The whole spec."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from plangen.spec.model.base import Name, Singular, SpecModel, listed, told
from plangen.spec.model.contract import Contract
from plangen.spec.model.deck import Deck
from plangen.spec.model.domestic import Climate, ColdBox, Galley, Gas, LaundryMachine
from plangen.spec.model.electrical import AlternatingCurrent, DirectCurrent
from plangen.spec.model.handling import Rig, Stabiliser, Steering, Tender, Thruster
from plangen.spec.model.history import History
from plangen.spec.model.issue import Issue
from plangen.spec.model.navigation import Entertainment, Navigation, Network, Radio
from plangen.spec.model.propulsion import Engine
from plangen.spec.model.safety import Alarm, FireProtection, GearAboard
from plangen.spec.model.series import Series
from plangen.spec.model.stages import Stage
from plangen.spec.model.tanks import Tank
from plangen.spec.model.vessel import Trial, Use, Vessel, Zone
from plangen.spec.model.water import Bilge, FreshWater, Head, ThroughHull, Watermaker


class Spec(SpecModel):
    """The user's description of one boat, or of a model."""

    issue: Issue | None = told("of a model or an option: its issue")
    drafted_from: dict[Name, Annotated[int, Field(ge=1, le=9999)]] = Field(
        default={},
        description="of a hull: the issue of a spec that she extends, as `model.yaml: 1`, and stays with",
        examples=["{model.yaml: 1}"],
    )
    vessel: Vessel = Field(description="the vessel and her dimensions")
    use: Use = Field(default=Use.model_construct(), description="where and how she is used")
    trial: Trial = Field(default=Trial.model_construct(), description="when and where the trial is held")
    series: Series | None = told("of a model: which hulls are tried in full, and what is routine")
    stages: tuple[Stage, ...] = listed("stages of building and trying, in their order, each with its checks")
    zones: Annotated[tuple[Zone, ...], Singular("zone")] = listed(
        "rooms and decks; the hull type's own set unless given"
    )
    engines: Annotated[tuple[Engine, ...], Singular("engine", paired=True)] = listed("propulsion engines")
    tanks: Annotated[tuple[Tank, ...], Singular("tank")] = listed("tanks")
    dc: DirectCurrent = Field(default=DirectCurrent.model_construct(), description="direct current")
    ac: AlternatingCurrent | None = told("alternating current")
    fresh_water: FreshWater | None = told("fresh water")
    watermakers: Annotated[tuple[Watermaker, ...], Singular("watermaker")] = listed("watermakers")
    heads: Annotated[tuple[Head, ...], Singular("head")] = listed("heads")
    bilges: Annotated[tuple[Bilge, ...], Singular("bilge")] = listed("bilge compartments")
    gas: Gas | None = told("liquefied petroleum gas")
    galley: Galley | None = told("galley")
    refrigeration: Annotated[tuple[ColdBox, ...], Singular("cold_box")] = listed("refrigerators and freezers")
    climate: Climate | None = told("air conditioning and heating")
    laundry: Annotated[tuple[LaundryMachine, ...], Singular("laundry_machine")] = listed(
        "washing machines and driers"
    )
    deck: Deck = Field(default=Deck.model_construct(), description="deck gear")
    rig: Rig | None = told("rig and sails")
    steering: Steering = Field(default=Steering.model_construct(), description="steering")
    thrusters: Annotated[tuple[Thruster, ...], Singular("thruster")] = listed("thrusters")
    stabilisers: Annotated[tuple[Stabiliser, ...], Singular("stabiliser")] = listed("stabilisers")
    tender: Tender | None = told("tender")
    navigation: Navigation = Field(default=Navigation.model_construct(), description="navigation")
    radio: Radio = Field(default=Radio.model_construct(), description="radio")
    entertainment: Entertainment | None = told("entertainment")
    network: Network | None = told("data networks")
    alarms: Annotated[tuple[Alarm, ...], Singular("alarm")] = listed("alarms and detectors")
    fire_protection: FireProtection = Field(
        default=FireProtection.model_construct(), description="fire protection"
    )
    safety_gear: Annotated[tuple[GearAboard, ...], Singular("gear")] = listed("safety gear aboard already")
    through_hulls: Annotated[tuple[ThroughHull, ...], Singular("through_hull")] = listed(
        "openings through the hull"
    )
    history: History | None = told("what has happened to a used boat")
    contract: Contract = Field(default=Contract.model_construct(), description="what was promised")
