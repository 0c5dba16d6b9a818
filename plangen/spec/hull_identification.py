"""The hull identification number of ISO 10087 and of 33 CFR 181.25."""

from __future__ import annotations

import re

_ISO = re.compile(
    r"(?P<country>[A-Z]{2})-?(?P<maker>[A-Z0-9]{3})(?P<serial>[A-HJ-NPR-Z0-9]{5})(?P<month>[A-L])(?P<year>[0-9])(?P<model_year>[0-9]{2})"
)
_US = re.compile(
    r"(?:US-?)?(?P<maker>[A-Z]{3})(?P<serial>[A-HJ-NPR-Z0-9]{5})(?P<month>[A-L])(?P<year>[0-9])(?P<model_year>[0-9]{2})"
)


def hull_id_fault(text: str) -> str:
    """Return what is wrong with the structure of a hull identification number, or nothing.

    ISO 10087:2019: country code of two letters, maker's code of three characters, serial number of five,
    month of production A to L, last digit of its year, model year of two digits. 33 CFR 181.25(a): the same
    twelve characters after the country, the letters I, O and Q left out of the serial number.
    Both known from memory.

    >>> hull_id_fault("FR-ABC12345A627")
    ''
    >>> hull_id_fault("ABC12345A607")
    ''
    >>> hull_id_fault("FR-ABC12345Z627")
    'the month of production is a letter from A to L'
    """
    plain = text.strip().upper()
    if _ISO.fullmatch(plain) or _US.fullmatch(plain):
        return ""
    bare = plain.replace("-", "")
    if len(bare) not in (12, 14):
        return f"{len(bare)} characters without hyphens; 14 are wanted, or 12 without the country code"
    if not bare.isalnum():
        return "only letters, digits and the hyphen after the country code"
    if any(letter in "IOQ" for letter in bare[-9:-4]):
        return "the serial number has no I, O or Q"
    if bare[-4] not in "ABCDEFGHIJKL":
        return "the month of production is a letter from A to L"
    if not bare[-3:].isdigit():
        return "the last three characters are digits: year of production and model year"
    return "country (two letters), maker (three), serial number (five), month, year, model year"


def year_fault(text: str, built: int) -> str:
    """Return how the years in a hull identification number contradict the year of build, or nothing.

    The year digit is that of production, the last two the model year, which may be one year later or earlier.

    >>> year_fault("FR-ABC12345A627", 2026), year_fault("FR-ABC12345A627", 2020)
    ('', 'the code says production in a year that ends in 6 and model year 27')
    """
    bare = text.strip().upper().replace("-", "")
    digit, model_year = int(bare[-3]), int(bare[-2:])
    near = any((built + step) % 100 == model_year for step in (-1, 0, 1))
    produced = any((built + step) % 10 == digit for step in (-1, 0, 1))
    if near and produced:
        return ""
    return f"the code says production in a year that ends in {digit} and model year {model_year:02d}"
