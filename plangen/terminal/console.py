"""The terminal: nothing reaches it but what can be seen."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterable, Sequence

from rich.console import Console, ConsoleOptions, RenderableType
from rich.segment import Segment
from rich.table import Table
from rich.text import Text

#: What may not reach the terminal from a file of a stranger: control characters, and marks that turn the direction of writing.
_UNSEEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]")


def visible(text: str) -> str:
    r"""Return text with a mark for each character that a terminal would obey instead of showing it.

    >>> visible("port\x1b[2J head\u202e")
    'port�[2J head�'
    """
    return _UNSEEN.sub("\N{REPLACEMENT CHARACTER}", text)


class _Terminal(Console):
    """The terminal, to which nothing is written but what can be seen; one that was closed is written to no more."""

    def render(self, renderable: RenderableType, options: ConsoleOptions | None = None) -> Iterable[Segment]:
        """Render with every text made visible."""
        for segment in super().render(renderable, options):
            yield segment if segment.control else Segment(visible(segment.text), segment.style)

    def on_broken_pipe(self) -> None:
        """Go on in silence where nobody reads any more, as with `plangen packs | head -1`."""
        self.quiet = True
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


console = _Terminal(highlight=False)


errors = _Terminal(stderr=True, highlight=False)


def say(text: str) -> None:
    """Print one line."""
    console.print(Text(text), soft_wrap=True)


def table_of(*columns: str, numbers: Sequence[str] = ()) -> Table:
    table = Table(box=None, pad_edge=False, header_style="bold", padding=(0, 2, 0, 0))
    for column in columns:
        table.add_column(column, justify="right" if column in numbers else "left", overflow="fold")
    return table


def hours(minutes: float) -> str:
    """Write minutes as hours with one decimal.

    >>> hours(95)
    '1.6 h'
    """
    return f"{minutes / 60:.1f} h"
