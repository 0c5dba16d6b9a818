"""The columns of a line list that is a table, and how large one may be."""

from __future__ import annotations

#: Columns by their headings; the others are there to be read by people.
CODE, FOUND, REMARK, PHOTO = "code", "found", "remark", "photo"
WHAT, PLACE, GRADE = "what", "where in her", "grade"
PRINTED = ("round", "what to do", "good if")

#: What is larger than this is no list that comes back from a boat.
LARGEST_LIST = 4_194_304
