"""Parts are laid out side by side, each in a process of its own, as many as the machine has processors."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager

from plangen.print.pdf.engine import Engine
from plangen.print.pdf.faces import Face

#: Characters of HTML below which starting processes costs more than they save.
_WORTH_IT = 60_000
#: How many processes lay out; given here, else as many as there are processors.
VARIABLE = "PLANGEN_WORKERS"

Draw = Callable[[Sequence[str]], Iterator[bytes]]

_engine: Engine | None = None


@contextmanager
def drawing(style: str, faces: Sequence[Face], cut: bool, letters: int, most: int) -> Iterator[Draw]:
    """Give what lays out documents, in this process or in several."""
    count = min(_processors(), most)
    if count < 2 or letters < _WORTH_IT:
        engine = Engine(style, faces, cut)
        try:
            yield lambda documents: map(engine.pdf, documents)
        finally:
            engine.close()
        return
    from multiprocessing import get_context

    with ProcessPoolExecutor(
        count, mp_context=get_context("spawn"), initializer=_begin, initargs=(style, tuple(faces), cut)
    ) as pool:
        try:
            yield lambda documents: pool.map(_draw, documents)
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


def _begin(style: str, faces: Sequence[Face], cut: bool) -> None:
    from multiprocessing.util import Finalize

    global _engine
    _engine = Engine(style, faces, cut)
    Finalize(None, _engine.close, exitpriority=1)


def _draw(html: str) -> bytes:
    if _engine is None:
        raise RuntimeError("a process that lays out was not begun")
    return _engine.pdf(html)
