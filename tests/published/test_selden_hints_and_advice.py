"""Seldén Mast, Hints and advice on rigging and tuning of your Seldén mast (595-540-E, undated), the folding rule
method: http://pdf.nauticexpo.com/pdf/selden/hints-and-advice/21696-6227-_47.html. Compact strand: Cruisers Forum,
Rigging specs, tuning your rig: https://www.cruisersforum.com/forums/f116/rigging-specs-tuning-your-rig-4171.html."""

import pytest

from plangen.formulas.rig import wire_stretch


@pytest.mark.parametrize(
    ("percent", "construction", "stretch"),
    [
        (5.0, "1x19", 1.0),  # 1 mm over 2 m is 5 % of the breaking load, whatever the diameter
        (15.0, "1x19", 3.0),  # cap shrouds are set at 15 to 20 %
        (20.0, "1x19", 4.0),
        (5.0, "compact strand", 0.95),  # the forum
    ],
)
def test_stretch_of_two_metres(percent: float, construction: str, stretch: float) -> None:
    assert wire_stretch(percent, construction) == pytest.approx(stretch)
