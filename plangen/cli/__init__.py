"""The commands: one short function each, no logic. Files, clock and terminal are touched only here, in `files` and in `terminal`."""

from plangen.cli.program import main, run

__all__ = ["main", "run"]
