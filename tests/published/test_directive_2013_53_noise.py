"""Directive 2013/53/EU Annex I Part C 1.1, table of noise limits.

European Union, https://eur-lex.europa.eu/eli/dir/2013/53/oj; repeated by the Belgian Federal Public Service Health,
https://www.health.belgium.be/en/recreational-craft
"""

import pytest

from plangen.formulas.sound import noise_pass_by_limit


@pytest.mark.parametrize(
    ("kilowatts", "engines", "decibels"),
    [
        (10.0, 1.0, 67.0),  # up to 10 kW
        (40.0, 1.0, 72.0),  # above 10 to 40 kW
        (41.0, 1.0, 75.0),  # above 40 kW; a maritime journal: 75 for a single engine
        (41.0, 2.0, 78.0),  # the same journal: 78 for twin engines
    ],
)
def test_limits(kilowatts: float, engines: float, decibels: float) -> None:
    assert noise_pass_by_limit(kilowatts, engines) == decibels
