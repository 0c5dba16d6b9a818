"""Time and current that it takes to charge a bank."""

from __future__ import annotations

import math

from plangen.formulas.declare import TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose_chemistry

#: Charge that comes out over charge that went in, for whole cycles.
CHARGE_EFFICIENCIES = {"flooded": 0.85, "agm": 0.90, "gel": 0.90, "lithium-iron-phosphate": 0.99}

#: Lead takes the full current up to this share of its capacity, lithium iron phosphate up to that.
LEAD_BULK_END = 0.80
LITHIUM_BULK_END = 0.95
#: Ampere-hours that lead needs per ampere-hour stored, in bulk and in absorption.
LEAD_BULK_LOSS = 1.05
LEAD_ABSORPTION_LOSS = 1.25
#: Current at the end of a lead battery's absorption, as a share of its capacity.
LEAD_TAIL = 0.02


@formula(
    capacity="ampere_hour", state_of_charge="percent", net_current="ampere", chemistry=TEXT, returns="hour"
)
def charge_time(capacity: float, state_of_charge: float, net_current: float, chemistry: str) -> float:
    """Return the time in hours to charge a bank fully at a given current.

    Arguments:
        capacity: rated capacity of the bank, Ah.
        state_of_charge: state of charge at the start, 0 to 100 %.
        net_current: current of all chargers less that of the loads, A; above the tail current of 2 % for
            lead, and not above half the number of ampere-hours.
        chemistry: "flooded", "agm", "tppl", "gel" or "lithium-iron-phosphate".

    Raises `OutOfRange` outside.

    Source: common practice. Lead takes the full current to 80 %, then one that falls exponentially to the
    tail; 5 % of the charge is lost before and 25 % after. Lithium iron phosphate takes it to 95 %, then half.

    400 Ah of lithium iron phosphate from 20 %, at 85 A:

    >>> round(charge_time(400.0, 20.0, 85.0, "lithium-iron-phosphate"), 1)
    4.0
    """
    require_positive(capacity=capacity, net_current=net_current)
    require_within("state_of_charge", state_of_charge, 0.0, 100.0)
    if net_current > 0.5 * capacity:
        raise OutOfRange(f"net current is {net_current:g} A, above half of {capacity:g} Ah")
    efficiency = choose_chemistry(chemistry, CHARGE_EFFICIENCIES)
    start = state_of_charge / 100
    if chemistry == "lithium-iron-phosphate":
        bulk = max(0.0, LITHIUM_BULK_END - start)
        rest = 1.0 - max(start, LITHIUM_BULK_END)
        return capacity * (bulk + 2 * rest) / (efficiency * net_current)
    tail = LEAD_TAIL * capacity
    if net_current <= tail:
        raise OutOfRange(
            f"net current is {net_current:g} A; a lead bank of {capacity:g} Ah needs > {tail:g} A"
        )
    bulk = max(0.0, LEAD_BULK_END - start)
    rest = 1.0 - max(start, LEAD_BULK_END)
    mean_current = (net_current - tail) / math.log(net_current / tail)
    bulk_time = capacity * bulk * LEAD_BULK_LOSS / net_current
    return bulk_time + capacity * rest * LEAD_ABSORPTION_LOSS / mean_current


@formula(charge_in="ampere_hour", charge_out="ampere_hour", chemistry=TEXT, returns="ampere_hour")
def charge_balance(charge_in: float, charge_out: float, chemistry: str) -> float:
    """Return the charge in Ah by which a bank gains (or, below zero, loses) in a day.

    Arguments:
        charge_in: charge put in by all sources, Ah, 0 or more.
        charge_out: charge taken out by all loads, Ah, 0 or more.
        chemistry: "flooded", "agm", "tppl", "gel" or "lithium-iron-phosphate".

    Raises `OutOfRange` outside.

    Source: common practice; efficiencies 0.85 flooded, 0.90 agm and gel, 0.99 lithium iron phosphate.

    >>> round(charge_balance(100.0, 99.0, "lithium-iron-phosphate"))
    0
    """
    require_within("charge_in", charge_in, 0.0, 1e6)
    require_within("charge_out", charge_out, 0.0, 1e6)
    return charge_in * choose_chemistry(chemistry, CHARGE_EFFICIENCIES) - charge_out
