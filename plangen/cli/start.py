"""`plangen start`: a commented spec to begin with."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.spec.hull_types import HULL_TYPES


def start(
    hull: Annotated[str, typer.Argument(help=f"Hull type: {', '.join(HULL_TYPES)}.")],
    out: Annotated[Path, typer.Option(help="File to write.")] = Path("spec.yaml"),
) -> None:
    """Write a commented starter spec.

    Example: plangen start sailing-catamaran --out halcyon.yaml
    """
    import json

    from plangen.files import write_whole
    from plangen.packs.library import load_library
    from plangen.spec.problems import InputProblems, Mark, Problem, nearest_name
    from plangen.spec.schema import spec_schema
    from plangen.spec.starter import SCHEMA_FILE, starter_text
    from plangen.terminal.console import say

    with input_faults():
        if hull not in HULL_TYPES:
            raise InputProblems(
                [
                    Problem(
                        Mark("start"),
                        "HULL",
                        f"{hull!r}",
                        ", ".join(HULL_TYPES),
                        nearest_name(hull, HULL_TYPES),
                    )
                ]
            )
        if out.exists():
            raise InputProblems(
                [
                    Problem(
                        Mark(str(out)), "", "the file is there already", "the name of a new file, with --out"
                    )
                ]
            )
        text = starter_text(hull, load_library(jurisdictions=()).starters.get(hull, {}))
    schema = out.parent / SCHEMA_FILE
    current = (json.dumps(spec_schema(), indent=1, ensure_ascii=False) + "\n").encode()
    if not schema.exists() and not schema.is_symlink():
        write_whole(out, text.encode())
        write_whole(schema, current)
        say(f"wrote {out} and {schema} (for your editor)")
        return
    write_whole(out, text.encode())
    kept = "is there already and" if _holds(schema, current) else "is another one than this program's; it"
    say(f"wrote {out}; {schema} {kept} stays as it is")


def _holds(file: Path, content: bytes) -> bool:
    from plangen.spec.ordinary_files import read_some

    try:
        return read_some(file, len(content)) == content
    except OSError:
        return False
