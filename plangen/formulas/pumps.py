"""Delivery of bilge and hand pumps: what the standard asks, and what a pump's data promise."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive


@formula(
    open_flow="litre/minute",
    shut_off_head="metre",
    head="metre",
    voltage_share=NUMBER,
    returns="litre/minute",
)
def pump_flow_at_head(
    open_flow: float, shut_off_head: float, head: float, voltage_share: float = 1.0
) -> float:
    """Return the flow in L/min that a small centrifugal pump delivers against a head.

    Arguments:
        open_flow: rated flow at no head, L/min.
        shut_off_head: head at which the flow stops, m.
        head: lift from the water to the outlet or the top of the loop, and the hose's loss, m.
        voltage_share: voltage at the pump over the voltage of the rating, 0.5 to 1.2.

    A straight line between the two rated points, moved with the voltage by the affinity laws (flow as the
    speed, head as its square, speed as the voltage). Zero at and above the shut-off head. Expect 10 to 15 % of
    error; two points of a maker's curve on either side of the head are better.

    Raises `OutOfRange` for an open flow or shut-off head not above zero, a negative head or a voltage share
    outside its range.

    Source: common practice; affinity laws for centrifugal pumps.

    >>> pump_flow_at_head(60.0, 5.0, 2.0)
    36.0
    """
    require_positive(open_flow=open_flow, shut_off_head=shut_off_head)
    if not head >= 0:
        raise OutOfRange(f"head is {head:g}; it must not be below zero")
    if not 0.5 <= voltage_share <= 1.2:
        raise OutOfRange(f"voltage share is {voltage_share:g}; the formula covers 0.5 to 1.2")
    available = shut_off_head * voltage_share**2
    return max(0.0, open_flow * voltage_share * (1.0 - head / available))


@formula(volume="litre", flow="litre/minute", returns="minute")
def pump_out_time(volume: float, flow: float) -> float:
    """Return the minutes that a pump needs to clear a volume of water.

    Arguments:
        volume: L.
        flow: delivered in place, L/min.

    Raises `OutOfRange` unless both are above zero.

    Source: definition of flow.

    >>> pump_out_time(80.0, 16.0)
    5.0
    """
    require_positive(volume=volume, flow=flow)
    return volume / flow


@formula(length_hull="metre", returns="litre/minute")
def bilge_pump_minimum(length_hull: float) -> float:
    """Return the least bilge pump capacity in L/min for a small craft's length of hull.

    Arguments:
        length_hull: length of hull to ISO 8666, m; up to 24 m.

    10 L/min up to 6 m, 15 L/min above that, 30 L/min from 12 m. It clears spray and rain, not damage.
    Raises `OutOfRange` outside 0 to 24 m.

    Source: ISO 15083:2020+A1:2022 as reported by an interpretation of DIN EN ISO 15083:2023 (600, 900 and
    1800 L/h; secondary: the standard itself wasn't seen). At 12 m exactly, where reports differ, the greater.

    >>> [bilge_pump_minimum(length) for length in (6.0, 9.0, 14.0)]
    [10.0, 15.0, 30.0]
    """
    require_positive(length_hull=length_hull)
    if length_hull > 24.0:
        raise OutOfRange(f"length hull is {length_hull:g}; the standard covers small craft up to 24 m")
    if length_hull <= 6.0:
        return 10.0
    return 15.0 if length_hull < 12.0 else 30.0


@formula(flow="litre/minute", stroke_rate="1/minute", returns="litre")
def stroke_volume_needed(flow: float, stroke_rate: float = 45.0) -> float:
    """Return the litres per stroke that a hand pump must move to reach a flow.

    Arguments:
        flow: required, L/min.
        stroke_rate: strokes per minute; the small-craft standard allows at most 45.

    Raises `OutOfRange` unless both are above zero.

    Source: ISO 15083:2020 stroke rate as reported by an interpretation of DIN EN ISO 15083:2023 (secondary).

    >>> [round(stroke_volume_needed(flow), 2) for flow in (10.0, 15.0, 30.0)]
    [0.22, 0.33, 0.67]
    """
    require_positive(flow=flow, stroke_rate=stroke_rate)
    return flow / stroke_rate
