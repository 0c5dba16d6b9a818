"""What comes back from the boat as a file: which way it came, and read as that."""

from __future__ import annotations

from pathlib import PurePath

from plangen.collect.collect import Returned
from plangen.collect.list_columns import LARGEST_LIST
from plangen.collect.list_lines import lines_of_text
from plangen.spec.problems import InputProblems, Mark, Problem

_ACCEPTED = "a filled PDF (.pdf), the file of a field page (.json, .txt), or a line list (.txt, .csv, .xlsx)"


def read_returned(content: bytes, name: str) -> Returned:
    """Read a filled PDF, a field page's file, a spreadsheet or a line list, by its name's ending or by how it begins.

    Raises `InputProblems` for what can't be read as that.
    """
    ending = PurePath(name).suffix.casefold()
    if ending == ".pdf" or content.startswith(b"%PDF-"):
        from plangen.collect.pdf_fields import read_form

        return read_form(content, name)
    if ending == ".json" or content.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{"):
        from plangen.collect.field_export import LARGEST_EXPORT, is_export, read_export

        text = _text(content[: LARGEST_EXPORT + 1], name)
        if ending == ".json" or is_export(text):
            return read_export(text, name)
    if len(content) > LARGEST_LIST:
        raise InputProblems([Problem(Mark(name), "", f"a file of more than {LARGEST_LIST} bytes", _ACCEPTED)])
    if ending == ".xlsx" or content.startswith(b"PK\x03\x04"):
        from plangen.collect.list_workbook import lines_of_workbook

        return lines_of_workbook(content, PurePath(name).name, name)
    text = _text(content, name)
    if ending == ".csv":
        from plangen.collect.list_table import lines_of_csv

        return lines_of_csv(text, PurePath(name).name)
    return lines_of_text(text, PurePath(name).name)


def _text(content: bytes, name: str) -> str:
    """Return bytes as text: UTF-8, UTF-16 where the file says so, and Windows' letters otherwise."""
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace")
    if b"\0" in content:
        raise InputProblems([Problem(Mark(name), "", "no text", _ACCEPTED)])
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", "replace")
