"""Reverse-osmosis watermakers: flow, pressure and product quality."""

from __future__ import annotations

import math
from bisect import bisect_right

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.sea_water import osmotic_pressure

#: Salinity and temperature at which watermakers are rated: g/kg and °C.
RATED_SALINITY, RATED_TEMPERATURE = 35.0, 25.0

#: An older published table of temperature correction factors, °C: factor.
_OLDER_TABLE = {
    5.0: 2.58, 6.0: 2.38, 7.0: 2.22, 8.0: 2.11, 9.0: 2.00, 10.0: 1.89, 11.0: 1.78, 12.0: 1.68, 13.0: 1.61,
    14.0: 1.54, 15.0: 1.47, 16.0: 1.39, 17.0: 1.34, 18.0: 1.29, 19.0: 1.24, 20.0: 1.19, 21.0: 1.15,
    22.0: 1.11, 23.0: 1.09, 24.0: 1.04, 25.0: 1.00, 26.0: 0.97, 27.0: 0.94, 28.0: 0.91, 29.0: 0.88,
    30.0: 0.85,
}  # fmt: skip

#: Words for the published families of correction factors.
MEMBRANE_TABLES = ("thin-film", "older")


@formula(water_temperature="degC", table=TEXT, returns=NUMBER)
def membrane_temperature_factor(water_temperature: float, table: str = "thin-film") -> float:
    """Return the factor by which a membrane's flow at 25 °C is divided at another water temperature.

    Arguments:
        water_temperature: of the feed, °C: 5 to 35, or 5 to 30 for the older table.
        table: "thin-film" (the usual formula for thin-film membranes) or "older" (a table that falls further
            in cold water). Two published families differ; a maker's own table beats both.

    Raises `OutOfRange` outside the range or for another word.

    Source: thin-film: exp[K (1/T - 1/298.15)], K = 3020 K up to 25 °C and 2640 K above (constants from memory;
    they give the thin-film chart of scribd.com/document/472189330 from 10 to 29 °C within 0.2 %). Older: the table
    on watertreatmentguide.com/temperature_correction.htm, 5 to 30 °C, interpolated.

    Both tables print their factor for 15 °C, 1.422 and 1.47:

    >>> round(membrane_temperature_factor(15.0), 2), membrane_temperature_factor(15.0, "older")
    (1.42, 1.47)
    """
    if table == "thin-film":
        require_within("water_temperature", water_temperature, 5.0, 35.0)
        constant = 3020.0 if water_temperature <= 25.0 else 2640.0
        return math.exp(constant * (1.0 / (273.15 + water_temperature) - 1.0 / 298.15))
    if table == "older":
        require_within("water_temperature", water_temperature, 5.0, 30.0)
        temperatures = list(_OLDER_TABLE)
        upper = min(bisect_right(temperatures, water_temperature), len(temperatures) - 1)
        warm, cold = temperatures[upper], temperatures[upper - 1]
        share = (water_temperature - cold) / (warm - cold)
        return _OLDER_TABLE[cold] * (1.0 - share) + _OLDER_TABLE[warm] * share
    raise OutOfRange(f"membrane table is {table!r}; known tables are: {', '.join(MEMBRANE_TABLES)}")


@formula(
    feed_pressure="bar",
    water_temperature="degC",
    salinity="gram/kilogram",
    recovery=NUMBER,
    product_pressure="bar",
    returns="bar",
)
def net_driving_pressure(
    feed_pressure: float,
    water_temperature: float = RATED_TEMPERATURE,
    salinity: float = RATED_SALINITY,
    recovery: float = 0.1,
    product_pressure: float = 0.0,
) -> float:
    """Return the pressure in bar that drives water through a membrane.

    Arguments:
        feed_pressure: of the high-pressure pump, bar gauge, up to 80.
        water_temperature: of the sea, °C, 0 to 35.
        salinity: absolute salinity of the sea, g/kg, 1 to 42.
        recovery: share of the feed that becomes product, 0 to 0.3.
        product_pressure: back pressure on the product, bar.

    Feed pressure less the mean osmotic pressure of feed and brine. No concentration polarisation. Raises
    `OutOfRange` outside, and when nothing is left to drive water.

    Source: solution-diffusion model (from memory) with the osmotic pressure of TEOS-10.

    >>> round(net_driving_pressure(55.0), 1)
    27.7
    """
    require_within("feed_pressure", feed_pressure, 0.0, 80.0)
    require_within("recovery", recovery, 0.0, 0.3)
    if not product_pressure >= 0:
        raise OutOfRange(f"product pressure is {product_pressure:g}; it must not be below zero")
    require_within("salinity", salinity, 1.0, 42.0)
    feed_side = osmotic_pressure(salinity, water_temperature)
    brine_side = osmotic_pressure(salinity / (1.0 - recovery), water_temperature)
    net = feed_pressure - (feed_side + brine_side) / 2.0 - product_pressure
    if net <= 0:
        raise OutOfRange(f"feed pressure {feed_pressure:g} bar does not exceed the osmotic pressure")
    return net


@formula(
    rated_flow="litre/hour",
    water_temperature="degC",
    salinity="gram/kilogram",
    pressure="bar",
    recovery=NUMBER,
    table=TEXT,
    returns="litre/hour",
)
def watermaker_flow(
    rated_flow: float,
    water_temperature: float,
    salinity: float = RATED_SALINITY,
    pressure: float = 55.0,
    recovery: float = 0.1,
    table: str = "thin-film",
) -> float:
    """Return the product flow in L/h to expect from a watermaker in the sea of the day.

    Arguments:
        rated_flow: product at 25 °C and 35 g/kg, L/h.
        water_temperature: of the sea, °C, 5 to 35.
        salinity: absolute salinity of the sea, g/kg, 1 to 42.
        pressure: at which it is rated and run, bar gauge; 55 bar (800 psi) in most yacht sets.
        recovery: share of the feed that becomes product, 0 to 0.3.
        table: family of temperature factors, see `membrane_temperature_factor`.

    The rated flow over the temperature factor, times the net driving pressure at this salinity over that at
    35 g/kg (both at 25 °C, as the published factors assume constant net pressure). In brackish water the
    result is above the rating: there the set is run by product flow, see `watermaker_pressure`, since too
    great a flow harms the membrane. Raises `OutOfRange` outside.

    Source: the charts named at `membrane_temperature_factor` (divide by the factor) and the solution-diffusion model.

    A membrane rated 1800 US gal/day gives 1266 at 15 °C in the thin-film chart's own question:

    >>> round(watermaker_flow(1800.0, 15.0), -1)
    1270.0
    """
    require_positive(rated_flow=rated_flow)
    factor = membrane_temperature_factor(water_temperature, table)
    here = net_driving_pressure(pressure, RATED_TEMPERATURE, salinity, recovery)
    rated = net_driving_pressure(pressure, RATED_TEMPERATURE, RATED_SALINITY, recovery)
    return rated_flow / factor * here / rated


@formula(
    water_temperature="degC",
    salinity="gram/kilogram",
    flow_share=NUMBER,
    rated_pressure="bar",
    recovery=NUMBER,
    table=TEXT,
    returns="bar",
)
def watermaker_pressure(
    water_temperature: float,
    salinity: float,
    flow_share: float = 1.0,
    rated_pressure: float = 55.0,
    recovery: float = 0.1,
    table: str = "thin-film",
) -> float:
    """Return the pressure in bar at which a watermaker gives a share of its rated flow.

    Arguments:
        water_temperature: of the sea, °C, 5 to 35.
        salinity: absolute salinity of the sea, g/kg, 1 to 42.
        flow_share: wanted product flow over the rated flow, 0.1 to 1.2.
        rated_pressure: at 25 °C and 35 g/kg, bar gauge.
        recovery: share of the feed that becomes product, 0 to 0.3.
        table: family of temperature factors, see `membrane_temperature_factor`.

    In brackish water it lies far below the rated pressure: that is the pressure to set. In cold sea water it
    lies above, and must not be used: the rated pressure is the limit. Raises `OutOfRange` outside.

    Source: the relation of `watermaker_flow` solved for the pressure.

    In a brackish sea of 7 g/kg and 15 °C the rated flow needs 45 bar, not 55:

    >>> round(watermaker_pressure(15.0, 7.0))
    45
    """
    require_within("flow_share", flow_share, 0.1, 1.2)
    factor = membrane_temperature_factor(water_temperature, table)
    rated = net_driving_pressure(rated_pressure, RATED_TEMPERATURE, RATED_SALINITY, recovery)
    lost = 80.0 - net_driving_pressure(80.0, RATED_TEMPERATURE, salinity, recovery)
    return flow_share * factor * rated + lost


@formula(feed="milligram/litre", product="milligram/litre", returns="percent")
def salt_rejection(feed: float, product: float) -> float:
    """Return the percent of the salt that a watermaker holds back.

    Arguments:
        feed: dissolved solids of the sea water, mg/L.
        product: dissolved solids of the product, mg/L.

    Raises `OutOfRange` for values not above zero or a product as salt as the feed.

    Source: definition, R = 1 - cp/cf.

    >>> round(salt_rejection(35800.0, 215.0), 1)
    99.4
    """
    require_positive(feed=feed, product=product)
    if product >= feed:
        raise OutOfRange(f"product {product:g} mg/L is not below the feed {feed:g} mg/L")
    return (1.0 - product / feed) * 100.0


@formula(feed="milligram/litre", rejection="percent", returns="milligram/litre")
def watermaker_product_solids(feed: float, rejection: float) -> float:
    """Return the dissolved solids in mg/L of a watermaker's product.

    Arguments:
        feed: dissolved solids of the sea water, mg/L.
        rejection: of the whole set, percent, 90 to 100: 99.0 to 99.5 is usual in service (from memory), the
            element's own test figure is higher.

    Raises `OutOfRange` outside.

    Source: definition, cp = cf (1 - R). An element with 99.6 % gives 128 mg/L from the standard test's 32,000:

    >>> round(watermaker_product_solids(32000.0, 99.6), 6)
    128.0
    """
    require_positive(feed=feed)
    require_within("rejection", rejection, 90.0, 100.0)
    return feed * (1.0 - rejection / 100.0)
