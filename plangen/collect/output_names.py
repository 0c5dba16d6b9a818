"""Papers into which somebody has written are never written over."""

from __future__ import annotations

from pathlib import Path, PurePath

from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import InputProblems

#: What is printed without a field to type into.
_ONLY_READ = ("methods.pdf",)


def unfilled_name(folder: Path, name: str) -> str:
    """Return the name for a PDF or workbook in a folder: the plain one, or one with a number where that is filled in."""
    stem, ending = PurePath(name).stem, PurePath(name).suffix
    names = [name, *(f"{stem}-{number}{ending}" for number in range(2, 100))]
    return next(one for one in names if not is_filled(folder / one))


def is_filled(path: Path) -> bool:
    """Tell whether a file is there into which something was typed; one that can't be read counts as filled."""
    if not path.is_file() or path.suffix == ".html" or path.name in _ONLY_READ:
        return False  # what is typed into a field page is in the browser, not in the file
    if path.suffix == ".xlsx":
        return _is_filled_workbook(path)
    from plangen.collect.field_names import is_day, printed_days
    from plangen.collect.pdf_fields import LARGEST_PDF, read_form

    try:
        fields = read_form(read_some(path, LARGEST_PDF), path.name).fields
    except InputProblems:
        return True
    about = [value for name, value in fields.items() if name.startswith("plan/")]
    days = {day for value in about for day in printed_days(str(value))}
    return any(
        value and not (is_day(name) and value in days)
        for name, value in fields.items()
        if not name.startswith("plan/")
    )


def _is_filled_workbook(path: Path) -> bool:
    from plangen.collect.list_lines import head_of
    from plangen.collect.list_workbook import lines_of_workbook
    from plangen.collect.returned import LARGEST_LIST

    try:
        lines = lines_of_workbook(read_some(path, LARGEST_LIST), path.name, path.name).lines
    except InputProblems:
        return True
    printed = [head_of(line.text) for line in lines]
    return any(head is None or head.by or head.day for head in printed)
