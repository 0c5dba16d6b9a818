"""Putting tasks into a timetable: whatever may be done now is begun in the order of its weight, and states are changed
when nothing more can be done without."""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence

from plangen.schedule.changing import Changing, Open
from plangen.schedule.problem import Day, Placed, Task, Timetable, working_minutes


class Run(Changing):
    """One pass from the first day to the last, made once."""

    def timetable(self) -> Timetable:
        """Return the timetable of the pass."""
        for number, day in enumerate(self.problem.days, start=1):
            if self.left:
                self._work(day, number == len(self.problem.days))
        ends = [one.end for one in self.placed if one.kind in ("task", "move", "look")]
        span = working_minutes(self.problem.days, max(ends, default=0))
        placed = tuple(sorted(self.placed, key=lambda one: (one.start, one.end, one.people)))
        lost = sum(self.problem.tasks[index].worth for index in self.left)
        return Timetable(
            placed,
            tuple(sorted(self.left)),
            self.prepared,
            span,
            self.changed,
            lost,
            days=len(self.problem.days),
        )

    def _work(self, day: Day, final: bool) -> None:
        problem = self.problem
        if final:
            self.gathering = sum(
                problem.tasks[index].minutes for index in self.left if problem.tasks[index].gathers
            )
        self.now = day.start
        self.free = [max(free, day.start) for free in self.free]
        self.booked = [None] * problem.people
        self.fed = [day.end - day.start <= problem.meal_after + 60 or not problem.meal] * problem.people
        self._overnight()
        wets = any(problem.tasks[index].wets for index in self.left)
        last = day.end - (problem.last_look if wets else 0)
        begun = len(self.placed)
        while self.left and self.now < last:
            self._close()
            self._eat(day)
            if self.keen and self._change(day, last, ahead=True):
                continue
            if not (
                self._begin(day, last)
                or self._change(day, last)
                or (self.claims and self._begin(day, last, False))
            ):
                step = self._next(last, day)
                if step is None:
                    if final and not self.closed and self._gather():
                        continue
                    break
                self.now = step
        self._finish_day(day, begun)

    def _gather(self) -> bool:
        """Let what gathers come after what is done, since nothing else finds a place any more; tell whether it can."""
        self.closed = True
        tasks, found = self.problem.tasks, False
        for index in sorted(self.left):
            if not tasks[index].gathers or not self.waiting[index]:
                continue
            self.waiting[index] -= sum(
                1 for before, _ in tasks[index].after if before in self.left and not tasks[before].gathers
            )
            if not self.waiting[index]:
                self.later.append((max(self.now, self.ready_at[index]), index))
                found = True
        return found

    def _overnight(self) -> None:
        """Let happen by itself what needs only a night."""
        if not self.placed:
            return
        night = self.now - max(one.end for one in self.placed)
        for subject in list(self.states):
            state = self.problem.changes.by_itself(subject, night)
            if state is not None and subject not in self.held:
                self.states[subject] = state

    def _close(self) -> None:
        """End what is over by now."""
        still = []
        for one in self.open:
            if one.end > self.now:
                still.append(one)
            elif one.task is not None:
                self.running &= ~(1 << one.task)
        self.open = still
        for person, booking in enumerate(self.booked):
            if booking is not None and booking[0] <= self.now:
                self.free[person] = max(self.free[person], booking[1])
                self.booked[person] = None
        if self.later:
            waiting = []
            for at, index in self.later:
                if at <= self.now:
                    insort(self.ready, (-self.weights[index], index))
                else:
                    waiting.append((at, index))
            self.later = waiting

    def _eat(self, day: Day) -> None:
        problem = self.problem
        if all(self.fed) or self.now < day.start + problem.meal_after:
            return
        for person in self._idle_for(problem.meal):
            if not self.fed[person]:
                self.fed[person] = True
                self.free[person] = self.now + problem.meal
                self.placed.append(Placed(self.now, problem.meal, (person,), kind="meal"))

    def _begin(self, day: Day, last: int, claims: bool = True) -> bool:
        """Begin every task that fits now; tell whether any did.

        A task that only wants for people keeps its turn: lighter ones begin only if they are over in time.
        """
        idle = self._idle()
        if not idle:
            return False
        begun, reserved = False, None
        changing = self._blocked()
        moving = any(one.moves for one in self.open)
        soon = (
            [(at, index) for at, index in self.later if at <= self.now + self.foresight]
            if self.foresight
            else []
        )
        claimed: dict[str, frozenset[str]] = {}
        leaving, settled = False, self.now
        position = 0
        while position < len(self.ready) and idle:
            index = self.ready[position][1]
            task = self.problem.tasks[index]
            position += 1
            if not self._states_fit(task, changing, moving) or task.excludes & self.running:
                if self.foresight and (at := self._when_changed(task)) is not None:
                    soon.append((at, index))
                if claims and self.claims:
                    if task.place is None or task.place == self.place:
                        for subject, states in task.needs.items():
                            claimed.setdefault(subject, states)
                    elif not leaving and not moving and self._may_leave(task, day, last):
                        leaving = True
                        settled = max((one.end for one in self.open if self._at_place(one)), default=self.now)
                continue
            if leaving and task.place is not None and self.now + task.minutes > settled:
                continue
            if claimed and any(not claimed.get(name, states) & states for name, states in task.needs.items()):
                continue
            if not self._time_fits(task, day, last):
                continue
            crew = self._crew(task)
            if crew is None:
                if reserved is None and task.people > 1:
                    reserved = sorted(self.free)[task.people - 1]
                continue
            if reserved is not None and self.now + task.minutes > reserved:
                continue
            if soon and self._keeps_waiting(task, index, soon):
                continue
            self._start(index, crew)
            idle = self._idle()
            position -= 1
            del self.ready[position]
            begun = True
            changing |= self.open[-1].shifts
        return begun

    def _when_changed(self, task: Task) -> int | None:
        """Return when the states that a task waits for have come about, where they are on their way and that is soon."""
        if task.place is not None and task.place != self.place:
            return None
        at = self.now
        for one in self.open:
            if one.shifts & task.needs.keys():
                at = max(at, one.end)
        for subject, states in task.needs.items():
            state = self.states.get(subject)
            if state is not None and state not in states:
                return None
        return at if self.now < at <= self.now + self.foresight else None

    def _may_leave(self, task: Task, day: Day, last: int) -> bool:
        """Tell whether she could leave her berth now for where a task is done, and come back to it afterwards."""
        if not task.away or "" in self.fresh or self.place != self._harbour(str(task.place)):
            return False
        steps = self._wanted(task)
        return bool(steps) and self._later_fits(task, steps or (), day, last)

    def _at_place(self, one: Open) -> bool:
        return one.task is not None and self.problem.tasks[one.task].place is not None

    def _crew(self, task: Task) -> list[int] | None:
        """Return who leads a task and who helps with it, if there are enough hands at the right time.

        Who is busy until shortly before comes to help before who would have to stand by.
        """
        leaders = self._idle_for(task.minutes)
        if not leaders:
            return None
        crew = [leaders[0]]
        for start, minutes in task.helpers:
            begin, end = self.now + start, self.now + start + minutes
            best: tuple[int, int] | None = None
            for person, free in enumerate(self.free):
                booking = self.booked[person]
                if person in crew or free > begin or (booking and (start or booking[0] < end)):
                    continue
                if best is None or (-free, person) < best:
                    best = (-free, person)
            if best is None:
                return None
            crew.append(best[1])
        return crew

    def _keeps_waiting(self, task: Task, index: int, soon: Sequence[tuple[int, int]]) -> bool:
        """Tell whether the task would take hands that a heavier one will want before it's over."""
        end = self.now + task.minutes
        for at, other in soon:
            if end <= at or self.weights[other] <= self.weights[index]:
                continue
            wanted = self.problem.tasks[other].people
            free = sum(1 for time in self.free if time <= at)
            if free >= wanted > free - task.people:
                return True
        return False

    def _states_fit(self, task: Task, changing: frozenset[str], moving: bool) -> bool:
        if task.place is not None and (moving or task.place != self.place):
            return False
        for subject, states in task.needs.items():
            state = self.states.get(subject)
            if subject in changing or (state is not None and state not in states):
                return False
        return not (task.leaves and self._leaving_disturbs(task))

    def _leaving_disturbs(self, task: Task) -> bool:
        """Tell whether what the task leaves would change a state that something going on needs."""
        changed = {subject for subject, state in task.leaves.items() if self.states.get(subject) != state}
        return any(changed & one.subjects for one in self.open) or any(
            subject in self.held for subject in changed
        )

    def _time_fits(self, task: Task, day: Day, last: int) -> bool:
        if not task.gathers:
            if self.closed:
                return False
            last -= self.gathering
        end = self.now + task.minutes + self._home_minutes(task.place or self.place)
        if task.away:
            left = self.left_home if self.left_home is not None else self.now
            limit = self.problem.away_minutes
            if limit is not None and self.away_used + end - left > limit:
                return False
        return end <= last and day.lit(task.light, self.now, self.now + task.minutes)

    def _start(self, index: int, people: Sequence[int]) -> None:
        task = self.problem.tasks[index]
        end = self.now + task.minutes
        self.placed.append(Placed(self.now, task.minutes, (people[0],), index))
        self.free[people[0]] = end
        for person, (start, minutes) in zip(people[1:], task.helpers, strict=True):
            begin = self.now + start
            self.placed.append(Placed(begin, minutes, (person,), kind="help", helps=index))
            if start:
                self.booked[person] = (begin, begin + minutes)
            else:
                self.free[person] = begin + minutes
        self.fresh.difference_update(task.needs, () if task.place is None else ("",))
        for subject, states in task.needs.items():
            if self.states.get(subject) is None:
                self.states[subject] = self.prepared[subject] = min(states)
            wanted = self.wanting[subject]
            wanted[states] -= 1
            if not wanted[states]:
                del wanted[states]
        shifts = frozenset(name for name, state in task.leaves.items() if self.states.get(name) != state)
        self.states.update(task.leaves)
        if task.place is not None:
            self.at_place[task.place] -= 1
        self.open.append(Open(end, index, frozenset(task.needs) | frozenset(task.leaves), shifts))
        self.running |= 1 << index
        self.left.discard(index)
        if task.until is not None:
            for subject in task.holds:
                self.held[subject] = task.until
        self.held = {subject: until for subject, until in self.held.items() if until != index}
        for follower, lag in self.followers[index]:
            self.ready_at[follower] = max(self.ready_at[follower], end + lag)
            self.waiting[follower] -= 1
            if not self.waiting[follower]:
                self.later.append((self.ready_at[follower], follower))

    def _next(self, last: int, day: Day) -> int | None:
        """Return the next minute at which something may have become possible."""
        times = [one.end for one in self.open] + list(self.free) + [at for at, _ in self.later]
        times += [booking[0] for booking in self.booked if booking]
        if day.light is not None:
            times.append(day.light[0])
        times += [begin for begin, _ in day.dark or ()]
        if not all(self.fed):
            times.append(day.start + self.problem.meal_after)
        return min((time for time in times if self.now < time < last), default=None)

    def _finish_day(self, day: Day, begun: int) -> None:
        """Bring her home and look into the bilges before the day ends."""
        if len(self.placed) == begun:
            return
        today = self.placed[begun:]
        if all(one.kind == "meal" for one in today):
            del self.placed[begun:]
            return
        self.now = max(day.start, *(one.end for one in today if one.people))
        self.open = []
        self.running = 0
        if self.problem.home and self.place not in self.problem.home:
            ways = [self.problem.changes.moves(self.place, home) for home in sorted(self.problem.home)]
            way = min(
                (way for way in ways if way), key=lambda steps: sum(step.whole for step in steps), default=()
            )
            self._make(way, range(self.problem.people))
            self.now = max(self.now, *(one.end for one in self.open), 0) if self.open else self.now
            self.open = []
        wets = [one.task for one in today if one.task is not None and self.problem.tasks[one.task].wets]
        if wets and self.problem.last_look:
            self.placed.append(Placed(self.now, self.problem.last_look, (0,), kind="look"))
