"""Parts are laid out side by side, each in a process of its own, as many as the machine has processors."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from contextlib import contextmanager
from typing import TypeVar

#: Characters of HTML below which starting processes costs more than they save.
_WORTH_IT = 60_000
#: How many processes lay out; given here, else as many as there are processors.
VARIABLE = "PLANGEN_WORKERS"

T = TypeVar("T")


class Crew:
    """Those who work: this process, or several."""

    def __init__(self, pool: ProcessPoolExecutor | None) -> None:
        """Let a pool of processes work, or this one."""
        self._pool = pool

    def do(
        self, work: Callable[[T], bytes], tasks: Sequence[T], size: Callable[[T], int] = lambda _: 0
    ) -> Iterator[tuple[int, bytes]]:
        """Begin some tasks, and give the place of each and what came of it as they are done.

        The largest is begun first, so that none is left for the end.
        """
        if self._pool is None:
            return ((place, work(task)) for place, task in enumerate(tasks))
        largest_first = sorted(range(len(tasks)), key=lambda place: -size(tasks[place]))
        begun = {self._pool.submit(work, tasks[place]): place for place in largest_first}
        return ((begun[one], one.result()) for one in as_completed(begun))


@contextmanager
def crew(letters: int, most: int) -> Iterator[Crew]:
    """Give who lays out some parts with some letters."""
    from plangen.print.pdf import tasks

    count = min(_processors(), most)
    if count < 2 or letters < _WORTH_IT:
        try:
            yield Crew(None)
        finally:
            tasks.close()
        return
    from multiprocessing import get_context

    with ProcessPoolExecutor(count, mp_context=get_context("spawn"), initializer=tasks.begin) as pool:
        try:
            yield Crew(pool)
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise


def _processors() -> int:
    named = os.environ.get(VARIABLE, "")
    if named.isdecimal() and int(named) > 0:
        return int(named)
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not on this system
        return os.cpu_count() or 1
