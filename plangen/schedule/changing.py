"""What goes on in one pass of the timetable, and how states and places are changed in it."""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from dataclasses import dataclass, field

from plangen.schedule.plant import Change
from plangen.schedule.problem import Day, Placed, Problem, Task

#: Changes that then wait at least so long are begun early, as soon as nobody needs the old state.
EARLY = 30
#: So many of the heaviest tasks that are ready are asked which changes they want.
WEIGHED = 60
#: A move of the boat weighs as much as so many changes of state.
MOVE = 3
#: More minutes than any trial has.
NEVER = 1_000_000


@dataclass
class Open:
    """Something that is going on: a task or a change, until its end."""

    end: int
    task: int | None
    subjects: frozenset[str] = frozenset()
    shifts: frozenset[str] = frozenset()
    moves: bool = False


@dataclass
class Changing:
    """The course of one pass; `weights` order the tasks, the heaviest first.

    `patience` says how much undoing a change counts against it, `daring` how many minutes of undoing are taken
    into the bargain while others are still at work, `foresight` how many minutes ahead hands are kept free for a
    heavier task that is about to become possible, and with `claims` a lighter task doesn't begin in a state that a
    heavier one wants changed. With `keen` changes are made for the heaviest task that waits for them, and otherwise for
    what costs least.
    """

    problem: Problem
    weights: Sequence[float]
    patience: float = 1.0
    daring: float = 10.0
    foresight: int = 0
    claims: bool = False
    keen: bool = False
    placed: list[Placed] = field(default_factory=list)

    def __post_init__(self) -> None:
        tasks = self.problem.tasks
        self.states: dict[str, str] = dict(self.problem.states)
        self.prepared: dict[str, str] = {}
        self.place = self.problem.place
        self.free = [0] * self.problem.people
        self.booked: list[tuple[int, int] | None] = [None] * self.problem.people
        self.fed = [False] * self.problem.people
        self.waiting = [len(task.after) for task in tasks]
        self.followers: list[list[tuple[int, int]]] = [[] for _ in tasks]
        for index, task in enumerate(tasks):
            for before, lag in task.after:
                self.followers[before].append((index, lag))
        self.ready_at = [0] * len(tasks)
        self.ready: list[tuple[float, int]] = []
        self.later: list[tuple[int, int]] = []
        self.open: list[Open] = []
        self.held: dict[str, int] = {}
        self.fresh: set[str] = set()
        self.running = 0
        self.gathering = 0
        self.closed = False
        self.left = set(range(len(tasks)))
        self.wanting: dict[str, dict[frozenset[str], int]] = {}
        self.at_place: dict[str, int] = {}
        for task in tasks:
            for subject, states in task.needs.items():
                wanted = self.wanting.setdefault(subject, {})
                wanted[states] = wanted.get(states, 0) + 1
            if task.place is not None:
                self.at_place[task.place] = self.at_place.get(task.place, 0) + 1
        self.ways_home: dict[str, tuple[int, str]] = {}
        self.away_used = 0
        self.left_home: int | None = None
        self.changed = 0
        self.now = 0
        for index, count in enumerate(self.waiting):
            if not count:
                insort(self.ready, (-self.weights[index], index))

    def _idle(self) -> list[int]:
        return [person for person, free in enumerate(self.free) if free <= self.now]

    def _idle_for(self, minutes: float) -> list[int]:
        """Return who is free for so long, those first whom somebody else needs soon."""
        if not any(self.booked):
            return self._idle()
        rooms = []
        for person in self._idle():
            booking = self.booked[person]
            room = booking[0] - self.now if booking else NEVER
            if room >= minutes:
                rooms.append((room, person))
        return [person for _, person in sorted(rooms)]

    def _blocked(self) -> frozenset[str]:
        """Return the subjects that are on the way from one state to another."""
        return frozenset(subject for one in self.open for subject in one.shifts)

    def _home_minutes(self, place: str | None) -> int:
        if place is None or place in self.problem.home or not self.problem.home:
            return 0
        return self._way_home(place)[0]

    def _harbour(self, place: str) -> str:
        """Return where she lies when she has come back from a place."""
        return self._way_home(place)[1]

    def _way_home(self, place: str) -> tuple[int, str]:
        if place not in self.ways_home:
            ways = [(self.problem.changes.moves(place, home), home) for home in sorted(self.problem.home)]
            minutes = [(round(sum(step.whole for step in way)), home) for way, home in ways if way]
            self.ways_home[place] = min(minutes, default=(0, ""))
        return self.ways_home[place]

    def _change(self, day: Day, last: int, ahead: bool = False) -> bool:
        """Begin the change of states or place that costs least for what it lets be done; tell whether one began.

        `ahead` of all other work only a change of states is begun, and only for the heaviest task.
        """
        idle = self._idle()
        if not idle:
            return False
        busy = frozenset(subject for one in self.open for subject in one.subjects) | frozenset(self.held)
        settled = not any(one.moves for one in self.open) and not any(
            one.task is not None and self.problem.tasks[one.task].place is not None for one in self.open
        )
        coming = bool(self.open) or any(at < last for at, _ in self.later)
        best: tuple[float, float, list[Change]] | None = None
        seen: set[object] = set()
        changing = self._blocked()
        for weight, index in self.ready[: 1 if ahead else WEIGHED]:
            task = self.problem.tasks[index]
            wanted = self._wanted(task)
            if (
                wanted is None
                or not wanted
                or any(change.subject in busy for change in wanted if change.subject)
            ):
                continue
            if any(subject in changing for subject in task.needs):
                continue
            if coming and any(change.subject in self.fresh for change in wanted):
                continue
            moving = wanted[0].subject == ""
            if moving and (ahead or not settled or self._making(wanted) & busy):
                continue
            if not self._later_fits(task, wanted, day, last):
                continue
            key = tuple((change.subject, change.state) for change in wanted)
            if key in seen:
                continue
            seen.add(key)
            hands = self._idle_for(sum(step.minutes for step in wanted))
            if any(min(step.people, len(self.free)) > len(hands) for step in wanted):
                continue
            if self.keen:
                best = (0.0, weight, wanted)
                break
            cost, undone = self._cost(wanted, task)
            if undone > self.daring and coming:
                continue
            if best is None or (cost, weight) < best[:2]:
                best = (cost, weight, wanted)
        if best is None:
            return not ahead and self._early(busy, last)
        self._make(best[2], self._idle_for(sum(step.minutes for step in best[2])))
        return True

    def _wanted(self, task: Task) -> list[Change] | None:
        """Return the changes that a task waits for, moves first; nothing where it can't be reached."""
        steps: list[Change] = []
        if task.place is not None and task.place != self.place:
            steps += self.problem.changes.moves(self.place, task.place)
            if not steps:
                return None
        for subject, states in task.needs.items():
            state = self.states.get(subject)
            if state is not None and state not in states:
                steps.append(self.problem.changes.change(subject, state, states))
        return steps

    def _making(self, steps: Sequence[Change]) -> set[str]:
        """Return the subjects whose state changes with moves."""
        return {
            subject
            for step in steps
            for subject, good, _ in step.makes
            if subject in self.states and self.states[subject] not in good
        }

    def _later_fits(self, task: Task, steps: Sequence[Change], day: Day, last: int) -> bool:
        whole = round(sum(step.whole for step in steps))
        begin = day.next_lit(task.light, self.now + whole, task.minutes)
        if begin is None or begin - self.now - whole > max(EARLY, whole):
            return False
        end = begin + task.minutes
        home = self._home_minutes(task.place or self.place)
        if task.away and self.problem.away_minutes is not None:
            left = self.left_home if self.left_home is not None else self.now
            if self.away_used + end + home - left > self.problem.away_minutes:
                return False
        return end + home <= last

    def _cost(self, steps: Sequence[Change], task: Task) -> tuple[float, float]:
        """Return minutes of change for each minute of work, and those of undoing it for somebody later."""
        cost, undone = sum(step.whole for step in steps), 0.0
        for step in steps:
            if not step.subject and self.at_place.get(self.place):
                undone += 30.0
            for subject, new in self._states_after(step):
                state = self.states[subject]
                for states in self.wanting.get(subject, ()):
                    if state in states and new not in states:
                        again = self.problem.changes.change(subject, new, states)
                        undone += again.whole
                        break
        then = {
            **self.states,
            **{subject: state for step in steps for subject, state in self._states_after(step)},
        }
        place = task.place or self.place
        work = 0
        for _, index in self.ready[:WEIGHED]:
            other = self.problem.tasks[index]
            if other.place not in (None, place):
                continue
            if all(subject not in then or then[subject] in states for subject, states in other.needs.items()):
                work += other.minutes * other.people
        return (cost + undone * self.patience + 1) / (work + 1), undone

    def _states_after(self, step: Change) -> list[tuple[str, str]]:
        if step.subject:
            return [(step.subject, step.state)]
        return [
            (subject, state)
            for subject, good, state in step.makes
            if subject in self.states and self.states[subject] not in good
        ]

    def _early(self, busy: frozenset[str], last: int) -> bool:
        """Begin a change that somebody wants, where nobody wants the old state any more.

        A long wait is begun for whoever comes, a short change only for what could otherwise be begun.
        """
        soon = [index for _, index in (*self.ready, *self.later)]
        asked = {subject for index in soon for subject in self.problem.tasks[index].needs}
        for subject, wanted in self.wanting.items():
            current = self.states.get(subject)
            if (
                current is None
                or subject in busy
                or not wanted
                or any(current in states for states in wanted)
            ):
                continue
            change = self.problem.changes.change(subject, current, next(iter(wanted)))
            end = self.now + change.minutes + self._home_minutes(self.place)
            idle = self._idle_for(change.minutes)
            if (change.wait >= EARLY or subject in asked) and end <= last and change.people <= len(idle):
                self._make([change], idle)
                return True
        return False

    def _make(self, steps: Sequence[Change], idle: Sequence[int]) -> None:
        """Make changes: moves one after another, and states beside one another by whoever is free."""
        begin = self.now
        for step in steps:
            soonest = sorted(idle, key=lambda person: self.free[person])
            people = tuple(soonest[: min(step.people, len(soonest))])
            start = max([begin, *(self.free[person] for person in people)])
            minutes = round(step.minutes)
            whole = start + round(step.whole)
            for person in people:
                self.free[person] = start + minutes
            self.changed += 1 if step.subject else MOVE
            self.fresh.add(step.subject)
            kind = "move" if not step.subject else "change"
            self.placed.append(Placed(start, minutes, people, change=step, kind=kind))
            if step.wait:
                self.placed.append(Placed(start + minutes, round(step.wait), (), change=step, kind="wait"))
            if step.subject:
                self.states[step.subject] = step.state
                self.open.append(Open(whole, None, frozenset({step.subject}), frozenset({step.subject})))
            else:
                made = self._states_after(step)
                self.states.update(made)
                self._moved(step.state, start, whole, frozenset(subject for subject, _ in made))
                begin = whole

    def _moved(self, place: str, start: int, end: int, made: frozenset[str]) -> None:
        home = self.problem.home
        if self.place in home and place not in home:
            self.left_home = start
        elif place in home and self.place not in home and self.left_home is not None:
            self.away_used += end - self.left_home
            self.left_home = None
        self.place = place
        self.open.append(Open(end, None, made, made, moves=True))
