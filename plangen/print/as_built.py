"""The as-built register of a hull: for the yard's files, for spreadsheets, and as a page of the owner's manual."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence

from plangen.assess.as_built import AsBuiltLine
from plangen.plan.model import Plan
from plangen.plan.plates import PLATE, PLATE_WORDS
from plangen.plan.yaml_text import yaml_text
from plangen.print.csv_table import harmless
from plangen.print.html import Document, Paper, render

STATE_WORDS: Mapping[str, str] = {
    "as-specified": "as specified",
    "read": "read; the spec states nothing",
    "differs": "differs",
    "no-plate": "no plate",
    "not-read": "not read yet",
}


def as_built_files(plan: Plan, lines: Sequence[AsBuiltLine]) -> dict[str, bytes]:
    """Return the register as YAML and as CSV, by file name."""
    boat = " ".join(plan.boat.name.split())
    register = {
        "boat": plan.boat.name,
        "hull_id": plan.boat.hull_id,
        "model": plan.boat.model,
        "plan": plan.digest,
        "items": [line.model_dump(mode="python", exclude_defaults=True) for line in lines],
    }
    stated = {key: value for key, value in register.items() if value is not None}
    heading = f"As-built register of {boat}. Derived: change spec or findings, not this file."
    return {"as-built.yaml": yaml_text(stated, heading).encode(), "as-built.csv": _csv(plan, lines)}


def _csv(plan: Plan, lines: Sequence[AsBuiltLine]) -> bytes:
    """Return the register as CSV in UTF-8; no cell can act as a formula, and files of several hulls go below one another."""
    stream = io.StringIO()
    writer = csv.writer(stream, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    plate = [f"{PLATE_WORDS[name]} {side}" for name in PLATE for side in ("expected", "found")]
    writer.writerow(
        ["boat", "hull id", "group", "item", "place", *plate, "state", "read by", "read on", "check id"]
    )
    for line in lines:
        cells = [plan.boat.name, plan.boat.hull_id or "", line.group, line.item, line.zone or ""]
        cells += [side.get(name, "") for name in PLATE for side in (line.expected, line.found)]
        cells += [STATE_WORDS[line.state], line.by or "", line.when or "", line.check or ""]
        writer.writerow([harmless(cell) for cell in cells])
    return b"\xef\xbb\xbf" + stream.getvalue().encode("utf-8")


def as_built_document(plan: Plan, lines: Sequence[AsBuiltLine], paper: Paper = "A4") -> Document:
    """Return the register as it goes into the owner's manual: what is aboard, as far as it was read."""
    groups: dict[str, list[AsBuiltLine]] = {}
    for line in lines:
        groups.setdefault(line.group, []).append(line)
    html = render("as_built.html.j2", plan=plan, groups=groups, paper=paper, plate=PLATE, words=PLATE_WORDS)
    return Document(html, "style.css")
