"""What the builder or seller promised."""

from __future__ import annotations

import datetime
from typing import Annotated

from plangen.spec.model.base import (
    Amount,
    Duration,
    Flow,
    Fraction,
    FuelEconomy,
    Length,
    Mass,
    RefersTo,
    RotationalSpeed,
    Singular,
    SoundLevel,
    SpecModel,
    Speed,
    Text,
    Volume,
    ZoneName,
    listed,
    told,
)


class PromisedTank(SpecModel):
    """A tank volume promised."""

    tank: Annotated[str, RefersTo("tanks")]
    usable: Volume


class PromisedNoise(SpecModel):
    """A sound level promised."""

    zone: ZoneName
    level: SoundLevel
    engine_speed: RotationalSpeed | None = told("engine speed of the promise")


class Contract(SpecModel):
    """What was promised, as values that a check can use."""

    reference: Text | None = told("number or date of the contract")
    seller: Text | None = told("seller or builder")
    buyer: Text | None = told("buyer")
    speed_at_rated: Speed | None = told("speed at rated engine speed")
    cruising_speed: Speed | None = told("cruising speed")
    sailing_speed: Speed | None = told("speed under sail in 12 kn of true wind on the beam")
    cruising_engine_speed: RotationalSpeed | None = told("engine speed at cruising speed")
    speed_tolerance: Fraction | None = told("tolerance on speed")
    time_to_plane: Duration | None = told("time from idle to planing")
    range: Length | None = told("range at cruising speed")
    fuel_economy: FuelEconomy | None = told("fuel per mile at cruising speed")
    light_displacement: Mass | None = told("light displacement promised")
    charge_time: Duration | None = told("time to charge the house bank")
    watermaker_flow: Flow | None = told("watermaker product flow")
    tanks: Annotated[tuple[PromisedTank, ...], Singular("promised_tank")] = listed("tank volumes promised")
    noise: Annotated[tuple[PromisedNoise, ...], Singular("promised_noise")] = listed("sound levels promised")
    holdback: Amount | None = told("sum held back until the snags are mended, as 12 000 EUR")
    price: Amount | None = told("price")
    warranty_ends: datetime.date | None = told("end of the warranty")
