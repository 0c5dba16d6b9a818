"""IEC 60364-6, least insulation resistance, in a table of the Norwegian railway authority.

https://trv.banenor.no/wiki/TABELL:Minimumskrav_til_isolasjonsresistans_i_lavspenningsanlegg
"""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.insulation import insulation_resistance_minimum


@pytest.mark.parametrize(("nominal", "megohm"), [(12, 0.5), (50, 0.5), (230, 1.0), (690, 1.0)])
def test_row(nominal: float, megohm: float) -> None:
    assert insulation_resistance_minimum(nominal) == megohm


def test_high_voltage_is_refused() -> None:
    with pytest.raises(OutOfRange):
        insulation_resistance_minimum(3300.0)
