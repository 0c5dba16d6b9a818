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
    required,
    told,
)


class PromisedTank(SpecModel):
    """A tank volume promised."""

    tank: Annotated[str, RefersTo("tanks")]
    usable: Volume = required("usable volume", "185 L", ("3 L", "50000 L"))


class PromisedNoise(SpecModel):
    """A sound level promised."""

    zone: ZoneName
    level: SoundLevel = required("sound level", "72 dB", ("30 dB", "120 dB"))
    engine_speed: RotationalSpeed | None = told(
        "engine speed of the promise", "2300 rpm", ("300 rpm", "12000 rpm")
    )


class Contract(SpecModel):
    """What was promised, as values that a check can use."""

    reference: Text | None = told("number or date of the contract")
    seller: Text | None = told("seller or builder")
    buyer: Text | None = told("buyer")
    speed_at_rated: Speed | None = told("speed at rated engine speed", "7.8 kn", ("1 kn", "80 kn"))
    cruising_speed: Speed | None = told("cruising speed", "6.5 kn", ("1 kn", "70 kn"))
    sailing_speed: Speed | None = told(
        "speed under sail in 12 kn of true wind on the beam", "7.2 kn", ("1 kn", "40 kn")
    )
    cruising_engine_speed: RotationalSpeed | None = told(
        "engine speed at cruising speed", "2300 rpm", ("500 rpm", "12000 rpm")
    )
    speed_tolerance: Fraction | None = told("tolerance on speed", "5 %", ("0 %", "50 %"))
    time_to_plane: Duration | None = told("time from idle to planing", "8 s", ("1 s", "120 s"))
    range: Length | None = told("range at cruising speed", "400 nmi", ("5 nmi", "10000 nmi"))
    fuel_economy: FuelEconomy | None = told(
        "fuel per mile at cruising speed", "0.9 L/nmi", ("0.02 L/nmi", "100 L/nmi")
    )
    light_displacement: Mass | None = told("light displacement promised", "8.2 t", ("50 kg", "1000 t"))
    charge_time: Duration | None = told("time to charge the house bank", "8 h", ("10 min", "100 h"))
    watermaker_flow: Flow | None = told("watermaker product flow", "55 L/h", ("1 L/h", "2000 L/h"))
    tanks: Annotated[tuple[PromisedTank, ...], Singular("promised_tank")] = listed("tank volumes promised")
    noise: Annotated[tuple[PromisedNoise, ...], Singular("promised_noise")] = listed("sound levels promised")
    holdback: Amount | None = told("sum held back until the snags are mended, as 12 000 EUR", "12 000 EUR")
    price: Amount | None = told("price", "480 000 EUR")
    warranty_ends: datetime.date | None = told("end of the warranty")
