"""What one of the processes that lay out is asked to do."""

from __future__ import annotations

from dataclasses import dataclass

from plangen.print.pdf.engine import Engine, load
from plangen.print.pdf.faces import Face, PrintingUnavailable
from plangen.print.pdf.fonts import without_setting


@dataclass(frozen=True)
class Setting:
    """The faces that letters are set in, and whether they are the cut ones."""

    faces: tuple[Face, ...]
    cut: bool


@dataclass(frozen=True)
class Task:
    """A document to lay out."""

    setting: Setting
    style: str
    html: str
    tags: bool = True


_engine: tuple[Setting, Engine] | None = None


def begin() -> None:
    """Make a new process ready; what it keeps on the disk goes when it ends."""
    import gc
    from contextlib import suppress
    from multiprocessing.util import Finalize

    with suppress(PrintingUnavailable):  # said where something is to be laid out
        load()
    gc.freeze()
    Finalize(None, close, exitpriority=1)


def draw(task: Task) -> bytes:
    """Return the PDF of a document."""
    return _engine_for(task.setting).pdf(task.style, task.html, task.tags)


def draw_faces(setting: Setting) -> bytes:
    """Return a PDF that holds the faces themselves, without what letters are set by."""
    return without_setting(_engine_for(setting).with_faces())


def close() -> None:
    """Let go of the engine."""
    global _engine
    if _engine is not None:
        _engine[1].close()
        _engine = None


def _engine_for(setting: Setting) -> Engine:
    global _engine
    if _engine is None or _engine[0] != setting:
        close()
        _engine = setting, Engine(setting.faces, setting.cut)
    return _engine[1]
