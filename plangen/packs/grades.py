"""How much a failed check matters."""

from __future__ import annotations

from typing import Literal

Grade = Literal["stop", "before-handover", "by-date", "remark"]

GRADES: tuple[Grade, ...] = ("stop", "before-handover", "by-date", "remark")
