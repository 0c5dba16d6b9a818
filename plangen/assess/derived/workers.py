"""Every figure that a rule may name, with how it is worked out."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.charge_balance import CHARGE_BALANCE
from plangen.assess.derived.data import Worker
from plangen.assess.derived.deviation import COEFFICIENTS, DEVIATION_RESIDUAL
from plangen.assess.derived.flush_count import FLUSH_COUNT
from plangen.assess.derived.fuel import FUEL_PER_MILE, RANGE_UNDER_POWER
from plangen.assess.derived.reciprocal_runs import MEAN_OF_MEANS, MEAN_OF_RUNS
from plangen.assess.derived.salt_rejection import SALT_REJECTION
from plangen.assess.derived.slip import APPARENT_SLIP
from plangen.assess.derived.tank_gauge import TANK_GAUGE_ERROR
from plangen.assess.derived.temperature_rise import TEMPERATURE_RISE
from plangen.assess.derived.voltage_drop import VOLTAGE_DROP_PERCENT

WORKERS: Mapping[str, Worker] = {
    "mean-of-runs": MEAN_OF_RUNS,
    "mean-of-means": MEAN_OF_MEANS,
    "apparent-slip": APPARENT_SLIP,
    "fuel-per-mile": FUEL_PER_MILE,
    "range-under-power": RANGE_UNDER_POWER,
    "temperature-rise": TEMPERATURE_RISE,
    "salt-rejection": SALT_REJECTION,
    "charge-balance": CHARGE_BALANCE,
    "tank-gauge-error": TANK_GAUGE_ERROR,
    "flush-count": FLUSH_COUNT,
    **COEFFICIENTS,
    "deviation-residual": DEVIATION_RESIDUAL,
    "voltage-drop-percent": VOLTAGE_DROP_PERCENT,
}
