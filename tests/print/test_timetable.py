"""A day's page: every round is in the list, and in the lanes under a label that has room."""

from __future__ import annotations

import re
from functools import cache

from plangen.plan.model import Plan
from plangen.print.carried.text_width import width_of
from plangen.print.carried.timetable import timetable_of
from tests.conftest import scheduled


@cache
def plan() -> Plan:
    return scheduled("catamaran.yaml")


def test_every_round_of_a_day_is_in_its_list_with_its_time() -> None:
    numbers = {one.id: one.number for one in plan().rounds}
    for day, session in zip(timetable_of(plan()), plan().sessions, strict=True):
        begun = [(numbers[step.round or ""], step.clock) for step in session.steps if step.kind == "round"]
        assert sorted((row.number, row.clock) for row in day.rows) == sorted(begun)


def test_numbers_in_the_lanes_neither_overlap_nor_vanish() -> None:
    """Labels of one lane stand beside one another in their order; between the first and last of a label lie its rounds."""
    numbers = {one.id: one.number for one in plan().rounds}
    for day, session in zip(timetable_of(plan()), plan().sessions, strict=True):
        words = re.findall(
            r'<text x="([\d.]+)" y="([\d.]+)"[^>]*font-size="([\d.]+)"[^>]*anchor="middle" font-weight="700">([^<]+)</text>',
            str(day.chart),
        )
        lanes: dict[float, list[tuple[float, float, str]]] = {}
        for x, y, size, label in words:
            if re.fullmatch(r"\d+( \d+)*|\d+–\d+|\d+ … \d+", label) and float(y) > 10:
                half = width_of(label, float(size) * 72 / 25.4, 700) / 2
                lanes.setdefault(float(y), []).append((float(x) - half, float(x) + half, label))
        people = [person for person in session.people if any(s.round for s in session.lane(person))]
        assert len(lanes) >= len(people)
        for person, labels in zip(people, [lanes[y] for y in sorted(lanes)][-len(people) :], strict=True):
            crowded = [
                (before[2], after[2])
                for before, after in zip(sorted(labels), sorted(labels)[1:], strict=False)
                if after[0] < before[1] - 1.0
            ]
            assert not crowded
            shown = " ".join(label for _, _, label in labels)
            whole = [
                numbers[step.round]
                for step in session.lane(person)
                if step.kind == "round" and step.round and step.minutes >= 12
            ]
            if "…" not in shown and "–" not in shown:
                assert {str(number) for number in whole} <= set(shown.split())


def test_a_day_has_a_bar_of_light_and_bars_of_what_changes() -> None:
    for day, session in zip(timetable_of(plan()), plan().sessions, strict=True):
        assert ">light</text>" in str(day.chart)
        changing = {
            bar.subject
            for bar in session.bars
            if len({other.state for other in session.bars if other.subject == bar.subject}) > 1
        }
        assert str(day.chart).count('height="4.2"') >= min(len(changing), 3)


def test_each_bar_has_a_name_of_its_own_before_it() -> None:
    """Two bars were both named "starboard water", the tank's and the heater's."""
    for day in timetable_of(plan()):
        names = re.findall(r'<text x="0.00"[^>]*>([^<]+)</text>', str(day.chart))
        assert len(set(names)) == len(names)
        assert max(width_of(name, 2.8 * 72 / 25.4) for name in names) < 40
