"""Papers into which somebody has written are never written over."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path, PurePath

from plangen.collect.list_columns import LARGEST_LIST
from plangen.kept import Kept, kept_folder
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


def keep_unfilled(content: bytes) -> None:
    """Keep that a workbook is one into which nothing was typed, so that it needn't be read to know it."""
    kept = Kept(kept_folder())
    if kept.get(_unfilled_key(content)) is None:
        kept.put(_unfilled_key(content), b"")


def _unfilled_key(content: bytes) -> str:
    return sha256(b"unfilled workbook, 1: " + content).hexdigest()


def _is_filled_workbook(path: Path) -> bool:
    try:
        content = read_some(path, LARGEST_LIST)
        if Kept(kept_folder()).get(_unfilled_key(content)) is not None:
            return False
        from plangen.collect.list_lines import head_of
        from plangen.collect.list_workbook import lines_of_workbook

        lines = lines_of_workbook(content, path.name, path.name).lines
    except InputProblems:
        return True
    printed = [head_of(line.text) for line in lines]
    return any(head is None or head.by or head.day for head in printed)
