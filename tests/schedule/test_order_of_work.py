"""The order of work of every ready boat: what must come before what, by the ids of rules.

The trade's reasons: a baseline is worth nothing once water or heat has come aboard; nothing is run, loaded, lit or
energised before what makes that safe has been seen.
"""

from __future__ import annotations

from functools import cache

import pytest

from plangen.plan.model import PlannedCheck
from tests.conftest import drafted

READY = ("catamaran.yaml", "monohull.yaml", "yard/hull-101.yaml", "yard/hull-102.yaml")

#: First rule, later rule, why.
ORDER = (
    ("bilge-dry-baseline", "tank-metered-fill", "a dry bilge is found before 50 litres a tank are run"),
    ("bilge-dry-baseline", "seacock-shuts-off", "a dry bilge is found before seacocks are opened up"),
    ("zone-baseline-dry", "hose-hatches", "lockers are dry before the hose"),
    ("bilge-dry-baseline", "hose-hatches", "bilges are dry before the hose"),
    ("engine-cold-look", "engine-cold-start", "oil is dipped before cranking"),
    ("engine-cold-look", "start-voltage", "oil is dipped before cranking"),
    ("engine-cold-start", "start-voltage", "the cold start is the first of all starts"),
    ("engine-cold-start", "engine-run-readings", "the cold start is the first of all starts"),
    ("shore-polarity", "charger-output", "polarity before any load on shore power"),
    ("shore-polarity", "shore-voltage", "polarity before any load on shore power"),
    ("residual-current-button", "shore-voltage", "residual current before any load on shore power"),
    ("residual-current-button", "socket-load", "residual current before loads"),
    ("gas-low-pressure-tightness", "gas-appliance-flame", "tightness before flames"),
    ("gas-low-pressure-tightness", "hob-boil", "tightness before flames"),
    ("gas-low-pressure-tightness", "oven-temperature", "tightness before flames"),
    (
        "carbon-monoxide-alarm-test",
        "gas-carbon-monoxide",
        "the alarm is proved before burners are lit for long",
    ),
    ("engine-oil-alarm", "full-throttle-run", "alarms before full load"),
    ("generator-start", "generator-full-load", "the generator is started and looked at before full load"),
    ("holding-tank-lockout", "waste-tank-pump-out", "a tank is filled before it is emptied"),
    ("speed-runs", "handover-protocol", "the sea trial before the protocol"),
    ("full-throttle-run", "handover-protocol", "the sea trial before the protocol"),
    ("hose-hatches", "zone-after-wet-checks", "wet work before the look for water"),
    ("heater-warm-up", "heater-usable-water", "the heater is hot before its hot water is measured"),
    (
        "compass-magnetic-surroundings",
        "compass-swing",
        "what disturbs the compass is cleared before it is swung",
    ),
)


@cache
def earlier(name: str) -> tuple[dict[str, PlannedCheck], dict[str, frozenset[str]]]:
    """Return the checks of a boat, and for each all that comes before it, however far back."""
    checks = drafted(name).plan.checks
    behind: dict[str, frozenset[str]] = {}
    for check in checks:
        behind[check.id] = frozenset(check.after).union(*(behind[id] for id in check.after))
    return {check.id: check for check in checks}, behind


@pytest.mark.parametrize("name", READY)
@pytest.mark.parametrize(("first", "later", "why"), ORDER, ids=[f"{one}<{other}" for one, other, _ in ORDER])
def test_what_must_come_first_does(name: str, first: str, later: str, why: str) -> None:
    checks, behind = earlier(name)
    firsts = {check.id for check in checks.values() if check.rule.endswith(f"/{first}")}
    items = {id.partition("@")[2] for id in firsts}
    late = [check for check in checks.values() if check.rule.endswith(f"/{later}")]
    loose = []
    for check in late:
        own = check.id.partition("@")[2]
        wanted = {f"{first}@{own}"} if own in items else firsts
        if not wanted <= behind[check.id]:
            loose.append(check.id)
    assert loose == [], why


@pytest.mark.parametrize("name", READY)
def test_wet_work_is_followed_by_a_look_for_water(name: str) -> None:
    checks, behind = earlier(name)
    looked_after = set().union(*(behind[id] for id in checks if "recheck" in id or "after-wet" in id))
    assert [check.id for check in checks.values() if check.wets and check.id not in looked_after] == []
