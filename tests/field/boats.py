"""Plans for the field page's tests: a small one with every kind of reading, and one of 660 checks."""

from __future__ import annotations

from pathlib import Path

from plangen.plan.day import Round, Session, TimetableStep
from plangen.plan.model import Plan, PlannedCheck, SeriesPoint
from plangen.print.field.page import field_page
from plangen.schedule.codes import with_codes
from tests.assess.building import check, expectation, instrument, plan

METER = instrument(
    "meter", title="Multimeter", accuracy="± (0.5 % + 0.05 V)", accuracy_percent=0.5, accuracy_fixed=0.05, unit="V"
)  # fmt: skip

CHECKS = (
    check("rest@house", expectation("resting voltage", unit="V", low=12.5, high=12.9, instrument="meter", shown="12.5–12.9 V"),
          do="Read the bank after an hour at rest", grade="before-handover", procedure=("Switch all off.", "Wait an hour."), instruments=("meter",)),
    check("drain@head", expectation("drains dry", text="yes", shown="yes", parts=("drain elbow", "vent hose", "pump union")), do="Feel the drains", grade="stop"),
    check("water@bilge", expectation("water in it", text="no", shown="no"), do="Look into the bilge"),
    check("serial@engine", expectation("serial number", record="serial-number", shown="record the serial number"), do="Read the plate"),
    check("flare@locker", expectation("expires", record="expiry-date", shown="in date"), do="Read the date"),
    check("steps@boat", expectation("speed at steps", unit="kn", instrument="meter", shown="see below", series_unit="rpm",
          series=tuple(SeriesPoint(point=n, low=low, shown=f"≥ {low} kn") for n, low in ((1000.0, 4.0), (2000.0, 5.0), (3000.0, 6.0)))), do="Run the steps"),
    check("speed@boat", expectation("wind", unit="kn", high=12.0, condition=True, shown="≤ 12 kn"), expectation("speed", unit="kn", low=6.0, valid_if=("wind",), shown="≥ 6.0 kn"), do="Run the mile"),
)  # fmt: skip


def small(digest: str = "3f9ac41e" * 8, units: str = "metric") -> Plan:
    """A plan of two rounds and two people."""
    return _rounds(list(CHECKS), [4, 3], digest).model_copy(update={"units": units})


def large(checks: int = 660, in_round: int = 7) -> Plan:
    """A plan of so many checks: of each, two are read in numbers and two are answered."""
    made: list[PlannedCheck] = []
    for number in range(checks):
        made.append(
            check(
                f"check-{number}@item-{number}",
                expectation(
                    "voltage", unit="V", low=12.5, high=12.9, instrument="meter", shown="12.5–12.9 V"
                ),
                expectation("current", unit="A", high=5.0, shown="≤ 5 A"),
                expectation("tight", text="yes", shown="yes", parts=("clamp", "hose", "elbow")),
                expectation("leak", text="no", shown="no"),
                do=f"Look at item number {number}, as it is done to every one of them",
                procedure=(f"Stand before item {number}.", "Look at it.", "Write down what you see."),
            )
        )
    first = [60] + [in_round] * ((checks - 60) // in_round + 1)
    return _rounds(made, first, "7" * 64)


def _rounds(checks: list[PlannedCheck], sizes: list[int], digest: str) -> Plan:
    planned = plan(*checks, kit=(METER,))
    rounds: list[Round] = []
    left = list(planned.checks)
    for number, size in enumerate(sizes, start=1):
        own, left = left[:size], left[size:]
        if own:
            rounds.append(
                Round(id=f"round-{number}", number=number, kind="boat", title=f"Place {number}", zone=f"place {number}", setting="alongside",
                      states=("shore-power-on",), minutes=20, cautions=("hot",), instruments=("meter",), checks=tuple(one.id for one in own))
            )  # fmt: skip
    people = ("A. Mate", "B. Deckhand")
    steps = tuple(
        TimetableStep(kind="round", round=one.id, start=480.0 + 20 * number, minutes=20, people=(people[number % 2],))
        for number, one in enumerate(rounds)
    )  # fmt: skip
    session = Session(id="day-1", day=1, date="2027-05-14", start=480, end=1080, people=people, rounds=tuple(one.id for one in rounds), steps=steps)  # fmt: skip
    return planned.model_copy(
        update={
            "boat": planned.boat.model_copy(update={"name": "Tern", "builder": "Sample Boatworks"}),
            "digest": digest,
            "rounds": tuple(rounds),
            "sessions": (session,),
            "checks": with_codes(planned.checks, rounds),
            "cautions": {"hot": "Pipes are hot: <b>no</b> bare hands."},
        }
    )


def page_in(folder: Path, planned: Plan, name: str = "plan.html") -> str:
    """Write a plan's page, and return its address."""
    path = folder / name
    path.write_bytes(field_page(planned))
    return path.as_uri()
