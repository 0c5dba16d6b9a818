"""Quantities as people write them: `42 kW`, `46 ft 3 in`, `600 L`, and back again in metric or US units."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, TypeAlias, TypeGuard

import pint

UnitSystem = Literal["metric", "us", "both"]
if TYPE_CHECKING:
    Quantity: TypeAlias = pint.Quantity[Any]
else:
    Quantity = pint.Quantity

registry: pint.UnitRegistry[Any] = pint.UnitRegistry(
    str(Path(__file__).with_name("units.txt")), autoconvert_offset_to_baseunit=True
)


def is_quantity(value: object) -> TypeGuard[Quantity]:
    """Tell whether the value is a quantity with a unit."""
    return isinstance(value, pint.Quantity)


@cache
def _unit_named(unit: str) -> pint.Unit:
    """Return a unit, whose name is read once."""
    return registry.Unit(unit)


def quantity_of(number: float, unit: str) -> Quantity:
    """Return a number with its unit."""
    return registry.Quantity(number, _unit_named(unit))


def amount_in(value: Quantity, unit: str) -> float:
    """Return the number of a quantity in a unit; pint's errors where it can't be given in that."""
    wanted = _unit_named(unit)
    return float(value.magnitude if value.units == wanted else value.m_as(wanted))


@dataclass(frozen=True)
class QuantityKind:
    """One kind of quantity: how it is called, the units in which it may be written, and an example."""

    name: str
    units: Mapping[str, str]
    example: str

    @property
    def unit(self) -> str:
        """Return the first unit, which stands for the kind's dimension."""
        return next(iter(self.units.values()))

    @property
    def usual_unit(self) -> str:
        """Return the unit of the example, for a hint."""
        return self.example.split(" or ")[0].split(" ", 1)[1]

    @property
    def accepted(self) -> str:
        """Return a sentence of what may be written."""
        return self.accepted_like(self.example)

    def accepted_like(self, example: str) -> str:
        """Return a sentence of what may be written, with an example that suits the key."""
        return f"a {self.name} such as {example} (units: {', '.join(self.units)})"


def _kind(name: str, example: str, units: str) -> QuantityKind:
    pairs = (word.partition("=") for word in units.split())
    return QuantityKind(name, {written: meant or written for written, _, meant in pairs}, example)


KINDS: dict[str, QuantityKind] = {
    kind.name: kind
    for kind in (
        _kind("length", "14.1 m or 46 ft 3 in", "m=metre cm=centimetre mm=millimetre ft=foot in=inch nmi=nautical_mile km"),
        _kind("area", "110 m²", "m²=metre**2 m2=metre**2 ft²=foot**2 ft2=foot**2 sqft=foot**2 mm²=millimetre**2 mm2=millimetre**2"),
        _kind("volume", "600 L or 160 gal", "L=litre l=litre mL=millilitre m³=metre**3 m3=metre**3 gal=gallon"),
        _kind("mass", "14 t or 31000 lb", "kg=kilogram t=metric_ton g=gram lb=pound lbs=pound"),
        _kind("power", "42 kW or 57 hp", "W=watt kW=kilowatt hp=horsepower PS=metric_horsepower BTU/h=Btu/hour Btu/h=Btu/hour"),
        _kind("energy", "10 kWh", "Wh=watt_hour kWh=kilowatt_hour J=joule"),
        _kind("voltage", "12 V", "V=volt mV=millivolt kV=kilovolt"),
        _kind("current", "120 A", "A=ampere mA=milliampere"),
        _kind("charge", "400 Ah", "Ah=ampere_hour"),
        _kind("resistance", "0.5 ohm", "ohm Ω=ohm Mohm=megaohm MΩ=megaohm mohm=milliohm"),
        _kind("frequency", "50 Hz", "Hz=hertz kHz=kilohertz MHz=megahertz"),
        _kind("rotational speed", "3000 rpm", "rpm 1/min=rpm"),
        _kind("speed", "8.5 kn", "kn=knot kt=knot m/s=metre/second km/h=kilometre/hour mph=mile/hour m/min=metre/minute ft/min=foot/minute"),
        _kind("flow", "60 L/h or 15 gal/h", "L/min=litre/minute L/h=litre/hour L/s=litre/second m³/h=metre**3/hour m3/h=metre**3/hour gal/min=gallon/minute gpm=gallon/minute gal/h=gallon/hour gph=gallon/hour gal/day=gallon/day"),
        _kind("pressure", "55 bar or 800 psi", "bar mbar=millibar kPa=kilopascal Pa=pascal MPa=megapascal psi"),
        _kind("force", "10 kN", "N=newton kN=kilonewton daN=decanewton kgf=kilogram_force lbf=pound_force"),
        _kind("temperature", "25 °C or 77 °F", "°C=degC C=degC degC °F=degF F=degF degF K=kelvin"),
        _kind("temperature difference", "10 K", "K=delta_degC Δ°C=delta_degC Δ°F=delta_degF"),
        _kind("angle", "30 °", "°=degree deg=degree degrees=degree"),
        _kind("duration", "20 min or 8 h", "s=second min=minute h=hour days=day day years=year year months=month month ms=millisecond"),
        _kind("fraction", "15 %", "%=percent"),
        _kind("salinity", "35 g/kg", "g/kg ppt=g/kg"),
        _kind("sound level", "65 dB", "dB=dimensionless dB(A)=dimensionless"),
        _kind("fuel economy", "1.2 L/nmi", "L/nmi=litre/nautical_mile gal/nmi=gallon/nautical_mile"),
        _kind("conductivity", "500 µS/cm", "µS/cm=microsiemens/centimetre uS/cm=microsiemens/centimetre mS/cm=millisiemens/centimetre"),
        _kind("concentration", "500 mg/L", "mg/L=milligram/litre ppm=milligram/litre"),
        _kind("irradiance", "1000 W/m²", "W/m²=watt/metre**2 W/m2=watt/metre**2"),
        _kind("illuminance", "300 lx", "lx=lux"),
        _kind("luminous intensity", "4.3 cd", "cd=candela"),
        _kind("linear mass", "2.3 kg/m", "kg/m"),
        _kind("fuel flow density", "0.84 kg/L", "kg/L=kilogram/litre"),
    )
}  # fmt: skip

#: Units as people spell them, and the sign that stands for each.
SPELT_OUT: Mapping[str, str] = {
    spelt: sign
    for sign, words in {
        "L": "liter liters litre litres ltr", "kg": "kilo kilos kilogram kilograms", "t": "ton tons tonne tonnes to",
        "h": "hour hours hr hrs uur stunden", "min": "minute minutes mins", "s": "sec second seconds", "m": "meter meters metre metres mtr",
        "ft": "feet foot ′ '", "in": 'inch inches ″ "', "kn": "knot knots kts", "nmi": "sm naut.mile seamiles", "gal": "gallon gallons",
        "lb": "pound pounds", "A": "amp amps ampere amperes", "V": "volt volts vdc vac", "W": "watt watts", "kW": "kilowatt kilowatts",
        "hp": "bhp horsepower", "PS": "ps pk ch cv pferdestärken", "Ah": "amp-hours amphours", "°C": "celsius degc", "°F": "fahrenheit",
        "°": "deg. degree", "%": "percent pct", "years": "yr yrs jaar jahre", "months": "mo", "L/h": "lph l/hr l/u", "L/min": "lpm", "rpm": "u/min tr/min t/min",
        "bar": "bars", "mm": "millimetre millimetres millimeter millimeters", "cm": "centimetre centimeter",
    }.items()
    for spelt in words.split()
}  # fmt: skip

#: Units in which nobody writes three decimals, so that a point before three digits may part thousands.
_THOUSANDS = ("L", "l", "kg", "g", "lb", "W", "Ah", "rpm", "h", "gal", "N", "Wh", "L/h")

_TERM = re.compile(r"\s*([+-]?[0-9][0-9_ \u202f]*(?:[.,][0-9]+)?|[+-]?[.,][0-9]+)\s*([^\s0-9+.,-][^\s]*)?")


class QuantityError(ValueError):
    """The text isn't a quantity of the kind that is wanted."""

    def __init__(self, found: str, accepted: str, hint: str = "") -> None:
        super().__init__(f"{found}; accepted: {accepted}" + (f"; {hint}" if hint else ""))
        self.found, self.accepted, self.hint = found, accepted, hint


@cache
def _unit(written: str) -> tuple[QuantityKind, str] | None:
    for kind in KINDS.values():
        if written in kind.units:
            return kind, kind.units[written]
    return None


def _terms(text: str) -> list[tuple[float, str | None]] | None:
    terms: list[tuple[float, str | None]] = []
    position = 0
    while position < len(text.rstrip()):
        match = _TERM.match(text, position)
        if match is None:
            return None
        number = re.sub(r"[_ \u202f]", "", match[1]).replace(",", ".")
        terms.append((float(number), match[2]))
        position = match.end()
    return terms or None


def parse_quantity(text: object, kind_name: str | None = None) -> Quantity:
    """Read a quantity written with its unit, of the named kind or (without one) of any kind.

    Terms with descending units add up, as in `46 ft 3 in`.

    >>> str(parse_quantity("46 ft 6 in", "length").to("foot"))
    '46.5 foot'
    """
    kind = KINDS[kind_name] if kind_name else None
    accepted = kind.accepted if kind else "a number with its unit, such as 12 V"
    if isinstance(text, bool) or not isinstance(text, (str, int, float)):
        raise QuantityError(f"{text!r}", accepted)
    if isinstance(text, (int, float)):
        usual = kind.usual_unit if kind else "m"
        raise QuantityError(f"{text} without a unit", accepted, f"write for instance {text} {usual}")
    if len(text) > 60:
        raise QuantityError("a long text", accepted)
    _refuse_thousands(text, accepted)
    terms = _terms(text)
    if terms is None:
        raise QuantityError(f"{text!r}", accepted)
    if len({written for _, written in terms}) < len(terms):
        raise QuantityError(f"{text!r}, with the same unit twice", accepted)
    total: Quantity | None = None
    for number, written in terms:
        term = _term_quantity(text, number, written, kind, accepted)
        total = term if total is None else total + term
    assert total is not None
    return total


def _refuse_thousands(text: str, accepted: str) -> None:
    """Refuse a number whose comma or point may part thousands as well as decimals."""
    if both := re.search(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+|[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+", text):
        last = max(both[0].rfind(","), both[0].rfind("."))
        plain = re.sub(r"[.,]", "", both[0][:last]) + "." + both[0][last + 1 :]
        meant = text.replace(both[0], plain)
        raise QuantityError(f"{text!r}, with a sign that parts thousands", accepted, f"write {meant}")
    if re.search(r"(?<![0-9.,])[0-9]{1,3},[0-9]{3}(?![0-9])", text):
        raise QuantityError(
            f"{text!r}, where the comma may part thousands or decimals", accepted, "write no comma"
        )
    point = re.fullmatch(r"\s*([1-9][0-9]{0,2})\.([0-9]{3})\s*(\S+)\s*", text)
    if point and SPELT_OUT.get(point[3].casefold(), point[3]) in _THOUSANDS:
        meant = f"write {point[1]}{point[2]} {point[3]}, or {float(f'{point[1]}.{point[2]}'):g} {point[3]}"
        raise QuantityError(f"{text!r}, where the point may part thousands or decimals", accepted, meant)


def _term_quantity(
    text: str, number: float, written: str | None, kind: QuantityKind | None, accepted: str
) -> Quantity:
    if written is None:
        first = next(iter(kind.units)) if kind else "m"
        raise QuantityError(f"{text!r} without a unit", accepted, f"write for instance {number:g} {first}")
    if _unit(written) is None:
        written = SPELT_OUT.get(written.casefold(), written)
    if kind and written in kind.units:
        return quantity_of(number, kind.units[written])
    known = _unit(written)
    if known and kind is None:
        return quantity_of(number, known[1])
    if written.casefold() == "nm":
        hint = f"write {number:g} nmi for nautical miles; nm is the sign of the nanometre, Nm of the newton metre"
        raise QuantityError(f"{text!r} with the unit {written!r}", accepted, hint)
    if known:
        raise QuantityError(f"{text!r}, which is a {known[0].name}", accepted)
    raise QuantityError(f"{text!r} with the unit {written!r}", accepted)


def has_dimension(value: Quantity, unit: str) -> bool:
    """Tell whether the quantity can be given in the unit."""
    return bool(value.dimensionality == registry.Unit(unit).dimensionality)


@cache
def unit_from_label(label: str) -> str:
    """Return the unit that a rule's `unit:` label stands for; a counted thing such as `flushes` is a plain number."""
    if label in ("", "1"):
        return "dimensionless"
    known = _unit(label)
    return known[1] if known else "dimensionless"


def is_unit_label(label: str) -> bool:
    """Tell whether the label is a unit of measure rather than the name of a counted thing."""
    return _unit(label) is not None


_US_LABEL: dict[str, str] = {
    "m": "ft", "cm": "in", "mm": "in", "m²": "ft²", "L": "gal", "m³": "gal", "kg": "lb", "t": "lb",
    "L/min": "gal/min", "L/h": "gal/h", "bar": "psi", "mbar": "psi", "kPa": "psi", "°C": "°F", "K": "Δ°F",
    "kN": "lbf", "N": "lbf", "L/nmi": "gal/nmi", "m/min": "ft/min",
}  # fmt: skip


def us_label(label: str) -> str:
    """Return the US customary unit's label for a metric one; the same label where there's no other."""
    return _US_LABEL.get(label, label)


def round_significant(value: float, digits: int = 3) -> float:
    """Round to significant digits, never coarser than whole units.

    >>> round_significant(1234.5), round_significant(0.012345), round_significant(14.26)
    (1234.0, 0.0123, 14.3)
    """
    if value == 0:
        return 0.0
    from math import floor, log10

    decimals = max(0, digits - 1 - floor(log10(abs(value))))
    return float(round(value, decimals))


#: Significant digits in which a value that somebody stated is shown; what is reckoned is shown in three.
STATED = 5


def number_text(value: float, decimals: int | None = None, digits: int = 3) -> str:
    """Write a number without needless zeros, with three significant digits unless told otherwise."""
    if decimals is not None:
        return f"{value:.{decimals}f}"
    rounded = round_significant(value, digits)
    return f"{int(rounded)}" if rounded == int(rounded) else f"{rounded:.10f}".rstrip("0")


def decimals_for(values: Iterable[float]) -> int:
    """Return the decimals that show the differences between the values.

    >>> decimals_for([34, 40, 46]), decimals_for([11.4, 12.6]), decimals_for([0.85, 1.0])
    (0, 1, 2)
    """
    from math import floor, log10

    listed = sorted(set(values))
    gaps = [b - a for a, b in pairwise(listed) if b > a]
    reference = min(gaps) if gaps else (abs(listed[0]) / 10 if listed and listed[0] else 1.0)
    return max(0, min(4, -floor(log10(reference / 2)))) if reference > 0 else 0


def convert_number(value: float, from_label: str, to_label: str) -> float:
    """Convert a number between the units that two labels stand for."""
    if from_label == to_label:
        return value
    return amount_in(quantity_of(value, unit_from_label(from_label)), unit_from_label(to_label))


@dataclass(frozen=True)
class Scale:
    """The base units behind a unit, and the factor and offset that turn a number of it into one of these."""

    base: str
    factor: float
    offset: float


@cache
def scale_of(unit: str) -> Scale:
    """Return how a unit's numbers are turned into base units; an angle's aren't those of a plain number.

    >>> scale_of("kilowatt").factor, scale_of("degC").offset
    (1000.0, 273.15)
    """
    zero = registry.Quantity(0.0, unit).to_root_units()
    offset = float(zero.magnitude)
    step = f"delta_{unit}" if offset else unit
    factor = float(registry.Quantity(1.0, step).to_root_units().magnitude)
    return Scale(str(zero.units), factor, offset)


def twelve_digits(value: float) -> float:
    """Return a number with no more digits than anybody reads off an instrument, so that 212 °F are 100 °C and no more."""
    return float(f"{value:.12g}")


def rescaled(value: float, unit: str, to_unit: str) -> float:
    """Return a number of one unit in another one of the same base; the field page reckons in the same way.

    >>> rescaled(212.0, "degF", "degC"), rescaled(240.0, "millivolt", "volt")
    (100.0, 0.24)
    """
    own, other = scale_of(unit), scale_of(to_unit)
    if own == other:
        return value
    base = value * own.factor
    if own.offset or other.offset:
        base = twelve_digits(base + own.offset) - other.offset
    return twelve_digits(base / other.factor)


@cache
def _labels() -> dict[str, str]:
    labels: dict[str, str] = {}
    for kind in KINDS.values():
        for written, meant in kind.units.items():
            labels.setdefault(str(registry.Unit(meant)), written)
    return labels


@cache
def _label(units: pint.Unit) -> str:
    text = str(units)
    return _labels().get(text, "" if text == "dimensionless" else f"{units:~}")


def label_of(value: Quantity) -> str:
    """Return the written unit of a quantity, as accepted on input."""
    return _label(value.units)


def quantity_text(value: Quantity, units: UnitSystem = "metric", digits: int = 3) -> str:
    """Write a quantity for people in metric, US or both units; a converted value has at most three digits.

    >>> quantity_text(parse_quantity("13.99 m"), "both", STATED)
    '13.99 m (45.9 ft)'
    """
    own = label_of(value)
    number = float(value.magnitude)
    metric = _METRIC_OF.get(own, own)
    us = us_label(metric)
    texts = {
        system: f"{number_text(convert_number(number, own, label), digits=digits if label == own else 3)} {label}".strip()
        for system, label in (("metric", metric), ("us", us))
    }
    if units != "both":
        return texts[units]
    return texts["metric"] if us == metric else f"{texts['metric']} ({texts['us']})"


_METRIC_OF: dict[str, str] = {"ft": "m", "in": "mm", "gal": "L", "lb": "kg", "lbs": "kg", "psi": "bar", "°F": "°C", "F": "°C",
                              "gal/h": "L/h", "gal/min": "L/min", "gph": "L/h", "gpm": "L/min", "hp": "kW"}  # fmt: skip
