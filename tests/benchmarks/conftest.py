"""The exact solver is an extra: without it what needs it isn't collected."""

from __future__ import annotations

from importlib.util import find_spec

collect_ignore = [] if find_spec("ortools") else ["exact.py"]
