"""The plan fitted to days and people: rounds, codes, what is chosen and left out, wishes that can't be met, the calendar."""

from __future__ import annotations

import datetime
import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from plangen import api
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.schedule.calendar import calendar_of
from plangen.schedule.choice import Candidate, Limits, choose, cost_of, risk_of
from plangen.schedule.light import daylight_at, never_dark
from plangen.schedule.schedule import ground_of
from plangen.schedule.wishes import Instead
from plangen.spec.problems import InputProblems
from tests.conftest import SPECS, drafted, shipped


@cache
def planned(
    name: str, hours: float | None = None, people: int | None = None, priority: int | None = None
) -> Plan:
    """The plan of a ready spec with other hours and people."""
    days = 1 if hours else None
    return api.draft(api.load_spec(SPECS / name), "metric", Instead(hours, people, days, priority))


ASKED = [
    ("monohull.yaml", None, None),
    ("monohull.yaml", 8, 1),
    ("monohull.yaml", 10, 2),
    ("catamaran.yaml", 10, 2),
]


@pytest.mark.parametrize("asked", ASKED)
def test_nothing_is_lost_between_chosen_left_out_and_outside_the_scope(asked: tuple[str, float, int]) -> None:
    plan = planned(*asked)
    everything = [check.id for check in drafted(asked[0]).plan.checks]
    parts = [
        *(check.id for check in plan.checks),
        *(one.check for one in plan.left_out),
        *(one.check for one in plan.outside_scope),
    ]
    assert sorted(parts) == sorted(everything)
    assert sorted(id for one in plan.rounds for id in one.checks) == sorted(check.id for check in plan.checks)


@pytest.mark.parametrize("asked", ASKED)
def test_every_round_has_its_time_and_every_reading_its_code(asked: tuple[str, float, int]) -> None:
    plan = planned(*asked)
    timed = [id for session in plan.sessions for id in session.rounds]
    assert {one.id for one in plan.rounds} == set(timed)
    codes = [expected.code for check in plan.checks for expected in check.expect]
    assert len(codes) == len(set(codes))
    assert all(re.fullmatch(r"[1-9]\d*\.[1-9]\d*[a-z]*", code) for code in codes)
    assert [one.number for one in plan.rounds] == list(range(1, len(plan.rounds) + 1))
    if plan.trial.hours is not None:
        assert all(session.end - session.start <= plan.trial.hours * 60 for session in plan.sessions)


@pytest.mark.parametrize("asked", ASKED)
def test_nobody_is_in_two_places_and_nothing_comes_before_what_it_follows(
    asked: tuple[str, float, int],
) -> None:
    plan = planned(*asked)
    ends: dict[tuple[str, str], float] = {}
    starts: dict[str, float] = {}
    for session in plan.sessions:
        for person in session.people:
            lane = sorted(session.lane(person), key=lambda step: step.start)
            assert all(one.end <= other.start for one, other in pairwise(lane))
        for step in session.steps:
            if step.round is not None and step.kind in ("round", "finish"):
                at = session.day * 1440 + step.start
                starts.setdefault(step.round, at)
                ends[step.round, step.kind] = at + step.minutes
    home = {id: one for one in plan.rounds for id in one.checks}
    for check in plan.checks:
        for before in (home[id] for id in check.after):
            if before is not home[check.id]:
                kind = "finish" if set(check.after) & set(before.finishing) else "round"
                assert ends[before.id, kind] <= starts[home[check.id].id]
    place = {id: (one.number, line) for one in plan.rounds for line, id in enumerate(one.checks)}
    for check in plan.checks:
        assert all(place[id] < place[check.id] for id in check.after if place[id][0] == place[check.id][0])


def test_the_same_wishes_give_the_same_plan() -> None:
    again = api.draft(api.load_spec(SPECS / "monohull.yaml"), "metric", Instead(8, 1, 1))
    assert again == planned("monohull.yaml", 8, 1)
    assert again.digest != planned("monohull.yaml", 10, 2).digest


def test_more_hours_take_no_less_risk_away() -> None:
    kept = [len(planned("monohull.yaml", hours, 2).checks) for hours in (4, 8, 12)]
    assert kept == sorted(kept)


def test_priority_1_that_finds_no_place_is_said_with_what_would_do() -> None:
    plan = planned("monohull.yaml", 4, 1, 1)
    first = {one.check for one in plan.left_out if one.priority == 1}
    said = {id for one in plan.trial.infeasible for id in one.checks}
    assert first
    assert first <= said | {one.check for one in plan.left_out if one.why == "order"}
    assert all(one.change for one in plan.trial.infeasible)


def test_what_takes_two_people_is_left_out_for_one_and_said() -> None:
    plan = planned("monohull.yaml", 8, 1)
    crew = {name: setting.crew for name, setting in shipped().settings.items()}
    assert all(check.people - crew[check.setting] <= 1 for check in plan.checks)
    assert all(one.people == 1 for one in plan.rounds)
    assert any("1 person" in one.wish and "more" in one.change for one in plan.trial.infeasible)


def test_what_wants_the_dark_is_said_where_the_night_stays_light(tmp_path: Path) -> None:
    """At 68 degrees north the sun stands above the horizon at midnight in June (any almanac)."""
    text = (SPECS / "monohull.yaml").read_text()
    for old, new in (
        ("date: 2027-04-06", "date: 2027-06-21"),
        ("delivery: 2027-04-20", "delivery: 2027-06-30"),
        ("latitude: 41.49 °, longitude: -71.33 °", "latitude: 68 °, longitude: 15 °"),
        ("America/New_York", "Europe/Oslo"),
    ):
        assert old in text
        text = text.replace(old, new)
    (tmp_path / "north.yaml").write_text(text)
    plan = api.draft(api.load_spec(tmp_path / "north.yaml"), "metric", Instead(10, 2, 2))
    said = next(one for one in plan.trial.infeasible if "after dark" in one.wish)
    assert "doesn't get dark" in said.why
    days = int(said.change.split()[1])
    dark = datetime.date(2027, 6, 21) + datetime.timedelta(days)
    assert not never_dark(daylight_at(dark, 68, 15, "Europe/Oslo"))
    assert never_dark(daylight_at(dark - datetime.timedelta(1), 68, 15, "Europe/Oslo"))


def test_people_without_names_have_letters() -> None:
    assert planned("monohull.yaml", 10, 2).trial.people == ("A", "B")


@pytest.mark.parametrize("name", ["monohull.yaml", "catamaran.yaml"])
def test_with_other_hours_and_people_a_check_stays_in_its_round(name: str) -> None:
    short, long = planned(name, 8, 1), planned(name, 10, 2)
    before = {id: one for one in short.rounds for id in one.checks}
    both = [(before[id], one) for one in long.rounds for id in one.checks if id in before]
    assert both
    assert [(one.id, other.id) for one, other in both if one.id != other.id] == []
    assert all(
        (one.kind, one.zone, one.setting) == (other.kind, other.zone, other.setting) for one, other in both
    )
    ids = [one.id for one in long.rounds]
    assert len(ids) == len(set(ids))


def test_what_decides_fits_a_day_of_two_people_on_the_catamaran() -> None:
    plan = planned("catamaran.yaml", 10, 2)
    drawn = [check for check in drafted("catamaran.yaml").plan.checks if check.priority == 1]
    assert 50 <= len(drawn) <= 80
    assert [one for one in plan.left_out if one.priority == 1] == []
    assert plan.trial.infeasible == ()


def test_rounds_take_far_less_work_than_their_checks_apart_and_none_takes_over_an_hour_and_a_quarter() -> (
    None
):
    plan = planned("monohull.yaml")
    assert plan.trial.rounds_together < 0.8 * plan.trial.checks_apart
    assert max(one.minutes + one.finish for one in plan.rounds) <= 75


def test_the_fewest_instruments_that_will_do_are_brought() -> None:
    kit = {item.id: item for item in planned("monohull.yaml").kit}
    replaced = {item.id: item.served_by for item in kit.values() if item.served_by}
    assert replaced["multimeter"] in kit
    assert all(other in kit and kit[other].served_by is None for other in replaced.values())
    assert kit["paper-towels"].quantity
    assert all(item.sessions for item in kit.values() if item.served_by is None)


def test_an_unknown_scope_is_refused_with_the_nearest_name() -> None:
    boat = api.load_spec(SPECS / "monohull.yaml")
    trial = boat.spec.spec.trial.model_copy(update={"scope": {"haulout": True}})
    spec = boat.spec.spec.model_copy(update={"trial": trial})
    other = type(boat)(type(boat.spec)(**{**vars(boat.spec), "spec": spec}), boat.library)
    with pytest.raises(InputProblems) as refused:
        api.draft(other)
    assert "haul-out" in str(next(iter(refused.value.problems)))


def test_nobody_waits_for_half_the_trial_while_checks_are_left_out_for_want_of_time() -> None:
    """Three days of three people, as the spec asks: what isn't kept in hand is worked, and few checks are left."""
    plan = planned("catamaran.yaml")
    hours = sum((one.end - one.start) * len(one.people) for one in plan.sessions) / 60
    worked = sum(step.minutes * len(step.people) for one in plan.sessions for step in one.steps) / 60
    assert worked >= 0.6 * hours
    assert len(plan.left_out) <= 0.3 * len(plan.checks)


def test_a_trial_of_several_days_does_not_end_with_the_handover_at_night() -> None:
    plan = planned("catamaran.yaml")
    dark = next(one.id for one in plan.rounds if one.setting == "after-dark")
    last = next(one.id for one in plan.rounds if one.kind == "handover")
    begins = {step.round: (one.day, step.start) for one in plan.sessions for step in one.steps if step.round}
    assert begins[dark] < begins[last]
    assert begins[dark][0] < begins[last][0]


def test_tanks_that_are_emptied_are_emptied_in_one_visit() -> None:
    """Each needs its tank full and leaves it empty, which is nothing to the other tanks."""
    boat = api.load_spec(SPECS / "catamaran.yaml")
    grouped = ground_of(draft_plan(boat.spec, boat.library), boat.spec, boat.library).grouped
    emptied = [id for id in grouped.home if id.startswith("waste-tank-pump-out@")]
    homes = {grouped.home[id] for id in emptied}
    assert len(emptied) == 5
    assert len(homes) == 1


def test_without_hours_nothing_is_left_out() -> None:
    assert planned("monohull.yaml").left_out == ()


@pytest.mark.parametrize("name", ["monohull.yaml", "yard/hull-101.yaml"])
def test_without_hours_the_trial_has_no_day_on_which_nothing_is_done(name: str) -> None:
    plan = planned(name)
    days = [one.day for one in plan.sessions]
    assert days == list(range(1, len(days) + 1))
    assert len(days) <= 7


def test_the_calendar_holds_each_session_and_is_read_back() -> None:
    from icalendar import Calendar

    plan = planned("monohull.yaml", 8, 1)
    text = calendar_of(plan)
    assert text is not None
    assert text == calendar_of(plan)
    events = Calendar.from_ical(text).walk("VEVENT")
    assert len(events) == len(plan.sessions)
    # New York keeps summer time on 6 April: 08:00 there is 12:00 UTC.
    assert events[0]["DTSTART"].dt == datetime.datetime(2027, 4, 6, 12, 0, tzinfo=datetime.UTC)


def test_it_never_gets_dark_in_the_far_north_in_june() -> None:
    """At 69.6 degrees north the sun doesn't set from the end of May to the end of July (any almanac)."""
    assert never_dark(daylight_at(datetime.date(2027, 6, 21), 69.6, 18.9, "Europe/Oslo"))
    assert not never_dark(daylight_at(datetime.date(2027, 9, 21), 69.6, 18.9, "Europe/Oslo"))


def test_a_prerequisite_is_chosen_with_what_needs_it_and_shared_setting_up_counts_once() -> None:
    candidates = [
        Candidate("tightness", 1, 10),
        Candidate("flame", 30, 5, needs=(0,)),
        Candidate("port seacock", 4, 2, shares=(("sole up", 6),)),
        Candidate("starboard seacock", 4, 2, shares=(("sole up", 6),)),
        Candidate("joinery", 5, 10),
    ]
    assert choose(candidates, Limits(25)) == {0, 1, 2, 3}
    assert cost_of(candidates, {0, 1, 2, 3})[0] == 25
    assert risk_of(candidates, {0, 1}) == 31


@pytest.mark.parametrize("name", ["catamaran.yaml", "yard/hull-101.yaml"])
def test_what_changes_a_state_in_the_middle_of_a_round_is_the_only_work_in_it(name: str) -> None:
    """No inverter is switched on in a round of dead mains, and no generator started where hands are in the space."""
    boat = api.load_spec(SPECS / name)
    ground = ground_of(draft_plan(boat.spec, boat.library), boat.spec, boat.library)
    changing = [
        group
        for group in ground.grouped.groups
        if any(state not in group.needs.get(subject, {state}) for subject, state in group.leaves.items())
    ]
    assert changing
    assert [group.id for group in changing if len({check.rule for check in group.checks}) > 1] == []


def test_a_change_says_its_caution_in_words() -> None:
    plan = planned("catamaran.yaml", 10, 2)
    said = [step.caution for one in plan.sessions for step in one.steps if step.caution]
    assert said
    assert [text for text in said if text in shipped().cautions or " " not in text] == []
