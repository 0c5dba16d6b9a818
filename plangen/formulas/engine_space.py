"""Air for the engine space: combustion, vent openings and depression."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within

#: Density and heat capacity of air at 30 degrees Celsius and sea level.
_AIR_DENSITY = 1.164
_AIR_HEAT_CAPACITY = 1.006


@formula(power="horsepower", returns="metre**3/hour")
def combustion_air(power: float) -> float:
    """Return the air in cubic metres per hour that the engines breathe.

    Arguments:
        power: rated power of all engines in the space together, hp.

    Raises `OutOfRange` for powers not above zero.

    Source: 2.5 cubic feet per minute for each horsepower, marinedieselbasics.com, Good engine room
    ventilation, page read.

    The manual gives 170 m3/h for 40 hp:

    >>> round(combustion_air(40.0))
    170
    """
    require_positive(power=power)
    return float(2.5 * power * 0.3048**3 * 60.0)


@formula(power="horsepower", duct_allowance="percent", returns="inch**2")
def engine_vent_area(power: float, duct_allowance: float = 0.0) -> float:
    """Return the least free area in square inches of the openings into the engine space.

    Arguments:
        power: rated power of all engines in the space together, hp.
        duct_allowance: addition for long or bent ducts, %; 20 is usual.

    Valid for allowances from 0 to 100 %. Raises `OutOfRange` outside and for powers not above zero.

    Source: horsepower / 3.3, Dave Gerr, Boat Mechanical Systems Handbook, formula 16-2, page read.

    The handbook's example of two engines of 325 hp needs 197 square inches:

    >>> round(engine_vent_area(650.0))
    197
    """
    require_positive(power=power)
    require_within("duct_allowance", duct_allowance, 0.0, 100.0)
    return float(power / 3.3 * (1.0 + duct_allowance / 100.0))


@formula(airflow="metre**3/hour", free_area="centimetre**2", discharge_coefficient=NUMBER, returns="pascal")
def engine_space_depression(airflow: float, free_area: float, discharge_coefficient: float = 0.6) -> float:
    """Return by how many pascals the pressure in the engine space falls below that outside.

    Arguments:
        airflow: air drawn through the openings, m3/h.
        free_area: free area of the openings, cm2.
        discharge_coefficient: 0.6 for a sharp-edged opening, up to 0.97 for a rounded one.

    Valid for coefficients from 0.4 to 1 and as long as the result is below 5,000 Pa. Raises `OutOfRange`
    outside and for values not above zero.

    Source: flow of air through an orifice, density 1.164 kg/m3 (30 degrees Celsius); the coefficient is
    common practice.

    >>> round(engine_space_depression(500.0, 200.0))
    78
    """
    require_positive(airflow=airflow, free_area=free_area)
    require_within("discharge_coefficient", discharge_coefficient, 0.4, 1.0)
    velocity = airflow / 3600.0 / (free_area * 1e-4)
    depression = float(0.5 * _AIR_DENSITY * (velocity / discharge_coefficient) ** 2)
    require_within("depression", depression, 0.0, 5000.0)
    return depression
