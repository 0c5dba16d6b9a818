"""A number with its unit: what can be reckoned with it, and what can't."""

from __future__ import annotations

from operator import add, ge, gt, le, lt, sub
from typing import TYPE_CHECKING, Any

from plangen.spec.units import Unit, UnitError, conversion, plain_unit, unit_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from plangen.spec.units import Terms


class Quantity:
    """A number with its unit; quantities of different dimensions can't be added or compared.

    A temperature is a place on a scale: two of them have a difference, and a difference is added to one of them.

    >>> str(Quantity(2, "metre") + Quantity(5, "centimetre")), str(Quantity(20.0, "degC") - Quantity(12.0, "degC"))
    ('2.05 metre', '8.0 delta_degree_Celsius')
    """

    __slots__ = ("magnitude", "units")

    def __init__(self, magnitude: float, units: Unit | str) -> None:
        """Set a number beside its unit."""
        self.magnitude = magnitude
        self.units = unit_of(units) if isinstance(units, str) else units

    def __reduce__(self) -> tuple[type[Quantity], tuple[float, str]]:
        return Quantity, (self.magnitude, str(self.units))

    def __repr__(self) -> str:
        return f"<Quantity({self.magnitude}, '{self.units}')>"

    def __str__(self) -> str:
        return f"{self.magnitude} {self.units}"

    @property
    def dimensionality(self) -> Terms:
        """Return what is measured, as powers of length, time and so on; nothing for plain numbers."""
        return self.units.dimensionality

    def to(self, units: Unit | str) -> Quantity:
        """Return the same in another unit; raises `UnitError` where it can't be given in that."""
        wanted = unit_of(units) if isinstance(units, str) else units
        return self if wanted is self.units else Quantity(self._in(wanted), wanted)

    def _in(self, wanted: Unit) -> float:
        own = self.units
        if own is wanted:
            return self.magnitude
        if own.offset is None and wanted.offset is None:
            return self.magnitude * conversion(own, wanted)
        if own.is_difference or wanted.is_difference:
            raise UnitError(f"Cannot convert from {str(own)!r} to {str(wanted)!r}")
        conversion(own, wanted)
        root = self.magnitude * own.factor + (own.offset or 0.0)
        return (root - (wanted.offset or 0.0)) / wanted.factor

    def _in_base(self) -> float:
        return self.magnitude * self.units.factor + (self.units.offset or 0.0)

    def __add__(self, other: Any) -> Quantity:
        return self._summed(other, add)

    def __radd__(self, other: Any) -> Quantity:
        return self._summed(other, add)

    def __sub__(self, other: Any) -> Quantity:
        return self._summed(other, sub)

    def __rsub__(self, other: Any) -> Quantity:
        return -self._summed(other, sub)

    def _summed(self, other: Any, by: Callable[[float, float], float]) -> Quantity:
        if not isinstance(other, Quantity):
            if not isinstance(other, (int, float)):
                raise TypeError(f"a quantity and {other!r} can't be added")
            if other == 0:
                return Quantity(by(self.magnitude, other), self.units)
            if not self.units.is_plain:
                raise UnitError(f"Cannot convert from '{self.units}' to 'dimensionless'")
            return Quantity(by(self._in(plain_unit()), other), plain_unit())
        one, two = self.units, other.units
        if one.dimensionality != two.dimensionality:
            conversion(one, two)
        if one.offset is None and two.offset is None:
            if one is not two and one.is_difference and not two.is_difference:
                return Quantity(by(self._in(two), other.magnitude), two)
            return Quantity(by(self.magnitude, other._in(one)), one)
        if by is sub and one.offset is not None and not two.is_difference:
            return Quantity(by(self.magnitude, other._in(one)), one.difference)
        if by is sub and two.offset is not None and not one.is_difference:
            return Quantity(by(self.magnitude, other._in(one)), one)
        if one.offset is not None and two.is_difference:
            return Quantity(by(self.magnitude, other._in(one.difference)), one)
        if two.offset is not None and one.is_difference:
            return Quantity(by(self._in(two.difference), other.magnitude), two)
        raise UnitError(f"Ambiguous operation with offset unit ({one}, {two}).")

    def __mul__(self, other: Any) -> Quantity:
        if isinstance(other, Quantity):
            one, two = self._absolute(), other._absolute()
            return Quantity(one.magnitude * two.magnitude, one.units.times(two.units))
        return Quantity(self.magnitude * other, self.units)

    def __rmul__(self, other: Any) -> Quantity:
        return Quantity(other * self.magnitude, self.units)

    def __truediv__(self, other: Any) -> Quantity:
        if isinstance(other, Quantity):
            one, two = self._absolute(), other._absolute()
            return Quantity(one.magnitude / two.magnitude, one.units.times(two.units, -1))
        if self.units.offset is not None:
            raise UnitError(f"Ambiguous operation with offset unit ({self.units}).")
        return Quantity(self.magnitude / other, self.units)

    def __rtruediv__(self, other: Any) -> Quantity:
        one = self._absolute()
        return Quantity(other / one.magnitude, plain_unit().times(one.units, -1))

    def _absolute(self) -> Quantity:
        """Return a temperature on the absolute scale, and all else as it is."""
        if self.units.offset is None:
            return self
        return self.to(" * ".join(name for name, _ in self.units.base))

    def __neg__(self) -> Quantity:
        return Quantity(-self.magnitude, self.units)

    def __pos__(self) -> Quantity:
        return self

    def __abs__(self) -> Quantity:
        return Quantity(abs(self.magnitude), self.units)

    def __bool__(self) -> bool:
        return bool(self.magnitude)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            if other == 0 and self.units.offset is None:
                return self.magnitude == 0
            return self.units.is_plain and self._in(plain_unit()) == other
        if self.units is other.units:
            return self.magnitude == other.magnitude
        return (
            self.dimensionality == other.dimensionality and self._in_or_none(other.units) == other.magnitude
        )

    def _in_or_none(self, wanted: Unit) -> float | None:
        try:
            return self._in(wanted)
        except UnitError:
            return None

    def __hash__(self) -> int:
        base = self._in_base()
        return hash(base) if self.units.is_plain else hash((base, self.units.base))

    def __lt__(self, other: Any) -> bool:
        return self._compared(other, lt)

    def __le__(self, other: Any) -> bool:
        return self._compared(other, le)

    def __gt__(self, other: Any) -> bool:
        return self._compared(other, gt)

    def __ge__(self, other: Any) -> bool:
        return self._compared(other, ge)

    def _compared(self, other: Any, by: Callable[[float, float], bool]) -> bool:
        if not isinstance(other, Quantity):
            if self.units.is_plain:
                return by(self._in(plain_unit()), other)
            if other == 0:
                return by(self._in_base(), other)
            raise ValueError("a quantity can't be compared with a plain number")
        if self.units is other.units:
            return by(self.magnitude, other.magnitude)
        conversion(self.units, other.units)
        return by(self._in_base(), other._in_base())
