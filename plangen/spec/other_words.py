"""Words that people use for a key of the spec that has another name or stands in another section."""

from __future__ import annotations

from collections.abc import Sequence

_WORDS: dict[str, str] = {
    "deck.lifts": "davits davit crane hoist platform swim_platform garage",
    "deck.anchors": "anchors anchor chain ground_tackle rode",
    "deck.windlasses": "windlass windlasses capstan anchor_winch",
    "deck.passerelle": "gangway passerelle",
    "deck.covers": "bimini sprayhood canopy cover covers",
    "fresh_water": "water freshwater plumbing taps",
    "fresh_water.heaters": "water_heater boiler calorifier hot_water",
    "watermakers": "desalinator reverse_osmosis",
    "tanks": "fuel fuel_tank fuel_tanks water_tank water_tanks diesel_tank holding_tank black_tank grey_tank petrol_tank",
    "heads": "toilet toilets wc bathrooms bathroom",
    "ac.generators": "generator generators genset",
    "ac.shore_inlets": "shore_power shore shorepower shore_inlet shore_inlets",
    "ac": "mains alternating_current",
    "dc.banks": "battery batteries bank banks accumulators",
    "dc.solar": "solar solar_panels panels pv",
    "dc.wind": "wind_generator wind_generators wind_turbine",
    "dc.inverters": "inverter inverters",
    "dc.chargers": "charger chargers battery_charger",
    "dc": "electrics electrical direct_current",
    "refrigeration": "fridge fridges refrigerator refrigerators freezer freezers icebox",
    "galley.appliances": "stove cooker hob oven microwave dishwasher appliances",
    "gas": "lpg propane butane",
    "climate.heaters": "heating heater heaters stoves",
    "climate.air_conditioners": "aircon air_conditioning air_conditioner air_conditioners hvac",
    "laundry": "washing_machine washer drier dryer",
    "rig.sails": "sails sail genoa mainsail spinnaker",
    "rig": "mast masts rigging standing_rigging",
    "rig.winches": "winch winches",
    "steering": "rudder rudders wheel tiller",
    "engines.propeller": "propeller propellers prop",
    "engines": "motor motors engine outboard propulsion",
    "thrusters": "bow_thruster bowthruster stern_thruster",
    "stabilisers": "stabilizers stabiliser trim_tabs gyro fins",
    "tender": "dinghy rib",
    "navigation.instruments": "plotter radar depth autopilot ais instruments compass log chartplotter electronics",
    "navigation.lights": "lights navigation_lights nav_lights",
    "radio.sets": "vhf epirb radios plb satellite",
    "alarms": "detectors smoke_alarm alarm bilge_alarm gas_alarm",
    "fire_protection.extinguishers": "extinguishers extinguisher fire_extinguishers",
    "fire_protection": "fire",
    "safety_gear": "liferaft life_raft lifejackets flares safety lifejacket",
    "through_hulls": "seacocks seacock thru_hulls skin_fittings through_hull",
    "bilges": "bilge_pumps bilge_pump pumps",
    "entertainment": "tv stereo audio television",
    "vessel": "boat ship yacht",
    "vessel.built": "year year_built build_year built",
    "vessel.draught": "draft",
    "vessel.length_hull": "length lh",
    "vessel.length_overall": "loa length_over_all",
    "vessel.length_waterline": "lwl waterline",
    "vessel.displacement": "weight mass",
    "vessel.hull_id": "hin cin hull_number wio",
    "vessel.hull": "type hull_type",
    "vessel.hull_material": "material",
    "vessel.design_category": "category ce_category",
    "vessel.persons": "crew people guests berths",
    "use.registry": "flag",
    "use.waters": "area cruising_area",
    "trial": "trial_date survey",
    "contract": "price promises warranty",
}

_MEANT: dict[str, tuple[str, ...]] = {}
for _key, _spoken in _WORDS.items():
    for _word in _spoken.split():
        _MEANT[_word] = (*_MEANT.get(_word, ()), _key)


def other_word(name: str, keys: Sequence[str]) -> str:
    """Return the key that a word means, as a path from the top of the spec, or plain where it is one of the keys at hand."""
    found = _MEANT.get(name.strip().lower().replace(" ", "_").replace("-", "_"), ())
    here = [key.rpartition(".")[2] for key in found if key.rpartition(".")[2] in keys]
    return here[0] if here else " or ".join(found)
