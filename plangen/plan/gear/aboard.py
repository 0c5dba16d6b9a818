"""Gear that the spec names elsewhere than under its safety gear, counted by the catalogue's items."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator

from plangen.spec.model import Spec
from plangen.spec.model.safety import GearAboard
from plangen.spec.quantity import registry

Found = tuple[str, datetime.date | None]

#: The item for each rating as the label writes it, blanks and hyphens left out.
RATINGS: dict[str, str] = {
    "5B": "extinguisher-5bc",
    "5B:C": "extinguisher-5bc",
    "10B": "extinguisher-10bc",
    "10B:C": "extinguisher-10bc",
    "1A:10B:C": "extinguisher-10bc",
    "2A:10B:C": "extinguisher-2a10bc",
    "20B": "extinguisher-20bc",
    "20B:C": "extinguisher-20bc",
    "13B": "extinguisher-13b",
    "21B": "extinguisher-21b",
    "34B": "extinguisher-34b",
    "5A/34B": "extinguisher-5a34b",
    "8A/68B": "extinguisher-8a68b",
    "13A/113B": "extinguisher-13a113b",
}
RADIO_ITEMS: dict[str, str] = {
    "vhf": "vhf-fixed",
    "vhf-handheld": "vhf-handheld",
    "mf-hf": "mf-hf-radio",
    "epirb": "epirb",
    "plb": "plb",
    "sart": "radar-transponder",
    "ais-sart": "radar-transponder",
    "ais-mob": "man-overboard-beacon",
    "navtex": "navtex",
    "satellite": "satellite-telephone",
}
INSTRUMENT_ITEMS: dict[str, str] = {
    "compass": "compass",
    "depth": "echo-sounder",
    "log": "distance-log",
    "barometer": "barometer",
    "searchlight": "searchlight",
}
ALARM_ITEMS: dict[str, str] = {
    "carbon-monoxide": "carbon-monoxide-alarm",
    "smoke": "smoke-alarm",
    "gas": "gas-detector",
}
FIFTY_METRES = registry.Quantity(50.0, "metre")


def gear_aboard(spec: Spec) -> tuple[GearAboard, ...]:
    """Return the safety gear aboard: what the spec lists as such, and what its other sections tell.

    An item that the list of safety gear names is taken from there alone, so that nothing counts twice.
    """
    listed = {gear.item for gear in spec.safety_gear}
    counts: dict[Found, int] = {}
    for found in (*_fire(spec), *_electronics(spec), *_deck_and_hull(spec)):
        counts[found] = counts.get(found, 0) + 1
    told = [
        GearAboard(item=item, quantity=count, expires=expires)
        for (item, expires), count in counts.items()
        if item not in listed
    ]
    return (*spec.safety_gear, *told)


def extinguisher_item(rating: str | None) -> str:
    """Return the item for a rating on a label.

    >>> extinguisher_item("8A / 68B C"), extinguisher_item("5-B:C"), extinguisher_item(None)
    ('extinguisher-8a68b', 'extinguisher-5bc', 'extinguisher')
    """
    plain = re.sub(r"[\s-]", "", rating or "").upper()
    return RATINGS.get(plain) or RATINGS.get(plain.removesuffix("C"), "extinguisher")


def _fire(spec: Spec) -> Iterator[Found]:
    protection = spec.fire_protection
    for extinguisher in protection.extinguishers:
        yield extinguisher_item(extinguisher.rating), extinguisher.expires
    for system in protection.fixed_systems:
        yield "fixed-fire-system", system.expires
    for _ in range(protection.blankets or 0):
        yield "fire-blanket", None
    for alarm in spec.alarms:
        if alarm.kind in ALARM_ITEMS:
            yield ALARM_ITEMS[alarm.kind], alarm.expires


def _electronics(spec: Spec) -> Iterator[Found]:
    for radio in spec.radio.sets:
        if radio.kind == "vhf" and radio.dsc:
            yield "vhf-fixed-dsc", None
        elif radio.kind in RADIO_ITEMS:
            yield RADIO_ITEMS[radio.kind], radio.battery_expires
    navigation = spec.navigation
    for instrument in navigation.instruments:
        if instrument.kind == "ais" and instrument.transmits:
            yield "ais", None
        elif instrument.kind == "compass" and instrument.card_date is not None:
            yield "compass-with-deviation-table", None
        elif instrument.kind in INSTRUMENT_ITEMS:
            yield INSTRUMENT_ITEMS[instrument.kind], None
    if navigation.lights is not None:
        yield "navigation-lights", None
        if navigation.lights.anchor:
            yield "anchor-light", None
    if navigation.day_shapes:
        yield "anchor-ball", None
        yield "motoring-cone", None
    if navigation.horn:
        yield "sound-signal", None
    if navigation.bell:
        yield "bell", None


def _deck_and_hull(spec: Spec) -> Iterator[Found]:
    nothing = registry.Quantity(0.0, "metre")
    for anchor in spec.deck.anchors:
        rode = (anchor.chain_length or nothing) + (anchor.rope_length or nothing)
        yield "anchor-with-50m-rode" if rode >= FIFTY_METRES else "anchor-and-rode", None
    if spec.deck.bathing_ladder:
        yield "boarding-ladder", None
    for bilge in spec.bilges:
        if bilge.pump_flow is not None:
            yield "bilge-pump-electric", None
        if bilge.hand_pump:
            yield "bilge-pump-manual", None
    if spec.steering.emergency_tiller:
        yield "emergency-tiller", None
    for head in spec.heads:
        if head.tank is not None:
            yield "sanitation-device", None
