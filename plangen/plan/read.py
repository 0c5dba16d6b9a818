"""Reading a plan back from the file that the program wrote.

What a plan.yaml says is kept by the digest of its text, so that one that this machine wrote or read already needn't be read
as YAML again; a file that was changed by hand has another digest and is read from its text.
"""

from __future__ import annotations

import json
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from pydantic import ValidationError

from plangen.kept import Kept, kept_folder
from plangen.plan.model import Boat, Plan
from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_text_file, read_yaml

#: Changes where the same text says something else.
_FORM = "plain values of a plan, 1: "


def read_plan(path: Path) -> Plan:
    """Read plan.yaml.

    Raises `InputProblems` where the file isn't one that this program wrote; a plan is made again by drafting.
    """
    text = read_text_file(path, str(path), LARGEST_DERIVED_FILE)
    kept, key = Kept(kept_folder()), _key(text)
    content = kept.get(key)
    if content is not None:
        with suppress(ValidationError):
            return Plan.model_validate_json(content)
    values = read_yaml(text, str(path), LARGEST_DERIVED_FILE).plain()
    try:
        plan = Plan.model_validate(values)
    except ValidationError as error:
        found = f"no plan of this version of the program ({error.error_count()} differences)"
        raise InputProblems(
            [Problem(Mark(str(path)), "", found, "a plan.yaml; draft it again from the spec")]
        ) from error
    keep_plan(plan, text)
    return plan


def keep_plan(plan: Plan, text: str) -> None:
    """Keep what a plan.yaml of this text says, for whoever reads it next."""
    kept = Kept(kept_folder())
    kept.put(_key(text), json.dumps(plan.plain(), ensure_ascii=False, separators=(",", ":")).encode())
    kept.tidy()


def _key(text: str) -> str:
    return sha256(f"{_FORM}{text}".encode()).hexdigest()


#: The boat stands in the first lines of a plan.
_HEAD = 20_000


def read_boat(path: Path) -> Boat | None:
    """Return whose plan a plan.yaml is, from its first lines; nothing where they don't say it."""
    try:
        lines = read_some(path, _HEAD).decode(errors="replace").splitlines()
        start = lines.index("boat:")
        end = next(number for number in range(start + 1, len(lines)) if not lines[number].startswith(" "))
        node = read_yaml("\n".join(lines[start:end]), str(path))
        return Boat.model_validate((node.mapping or {})["boat"].plain())
    except (OSError, ValueError, StopIteration, KeyError, InputProblems):
        return None
