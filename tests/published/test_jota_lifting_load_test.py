"""Jim Jota, Load testing of lifting equipment on yachts (undated), quoting a class society's crane table (secondary):
https://dhirubhai.net/pulse/load-testing-lifting-equipment-yachts-jim-jota."""

import pytest

from plangen.formulas.lifting import proof_load


@pytest.mark.parametrize(
    ("working", "proof"),
    # To 20 t 1.25 x; 20 to 50 t 5 t more; above 50 t 1.1 x.
    [(0.5, 0.625), (20.0, 25.0), (30.0, 35.0), (50.0, 55.0), (60.0, 66.0)],
)
def test_proof_load(working: float, proof: float) -> None:
    assert proof_load(working) == pytest.approx(proof)
