"""What every part of the spec is built from: strict sections, named items, quantities and references by name."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from plangen.spec.quantity import KINDS, Quantity, QuantityError, is_quantity, parse_quantity


@dataclass(frozen=True)
class OfKind:
    """Marks a field as a quantity of one kind, and validates it so."""

    kind: str
    signed: bool = False
    nominal: bool = False

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.validate)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return quantity_schema(self)

    def validate(self, value: object) -> Quantity:
        if is_quantity(value):
            return value
        try:
            quantity = parse_quantity(value, self.kind)
        except QuantityError as error:
            context = {"found": error.found, "accepted": error.accepted, "hint": error.hint}
            raise PydanticCustomError("quantity", "{found}", context) from error
        if not self.signed and quantity.magnitude < 0:
            context = {
                "found": f"{value!r}, which is below zero",
                "accepted": KINDS[self.kind].accepted,
                "hint": "",
            }
            raise PydanticCustomError("quantity", "{found}", context)
        return nominal_voltage(quantity) if self.nominal else quantity


#: What a 12 V battery, alternator or appliance may bear on its label, in volts, for each volt of the nominal voltage.
_LABEL_LOW, _LABEL_HIGH = 11.5 / 12, 14.8 / 12
_NOMINAL_VOLTAGES = (6, 12, 24, 36, 48)


def nominal_voltage(label: Quantity) -> Quantity:
    """Return the nominal voltage that a label stands for: 12.8 V and 13.8 V are 12 V, 25.6 V and 28 V are 24 V.

    >>> str(nominal_voltage(parse_quantity("51.2 V"))), str(nominal_voltage(parse_quantity("18 V")))
    ('48.0 volt', '18.0 volt')
    """
    volts = float(label.to("volt").magnitude)
    for nominal in _NOMINAL_VOLTAGES:
        if nominal * _LABEL_LOW <= volts <= nominal * _LABEL_HIGH:
            return parse_quantity(f"{nominal} V").to("volt") if volts != nominal else label
    return label


def quantity_schema(of_kind: OfKind) -> dict[str, Any]:
    """Return the JSON Schema of a quantity as it is written."""
    kind = KINDS[of_kind.kind]
    units = "|".join(u.replace("(", r"\(").replace(")", r"\)").replace("/", r"\/") for u in kind.units)
    sign = "[-+]?" if of_kind.signed else ""
    number = rf"{sign}[0-9][0-9 _]*([.,][0-9]+)?"
    return {
        "type": "string",
        "pattern": rf"^\s*{number}\s*({units})(\s+{number}\s*({units}))?\s*$",
        "examples": kind.example.split(" or "),
    }


@dataclass(frozen=True)
class RefersTo:
    """Marks a text field as the name of an item in a list of the spec."""

    target: str


@dataclass(frozen=True)
class Singular:
    """Gives a list field the name of one of its items, as rules bind it and as unnamed items are called."""

    name: str
    paired: bool = False


Length = Annotated[Quantity, OfKind("length")]
Area = Annotated[Quantity, OfKind("area")]
Volume = Annotated[Quantity, OfKind("volume")]
Mass = Annotated[Quantity, OfKind("mass")]
Power = Annotated[Quantity, OfKind("power")]
Energy = Annotated[Quantity, OfKind("energy")]
Voltage = Annotated[Quantity, OfKind("voltage")]
NominalVoltage = Annotated[Quantity, OfKind("voltage", nominal=True)]
Current = Annotated[Quantity, OfKind("current")]
Charge = Annotated[Quantity, OfKind("charge")]
Resistance = Annotated[Quantity, OfKind("resistance")]
Frequency = Annotated[Quantity, OfKind("frequency")]
RotationalSpeed = Annotated[Quantity, OfKind("rotational speed")]
Speed = Annotated[Quantity, OfKind("speed")]
Flow = Annotated[Quantity, OfKind("flow")]
Pressure = Annotated[Quantity, OfKind("pressure")]
Force = Annotated[Quantity, OfKind("force")]
Temperature = Annotated[Quantity, OfKind("temperature", signed=True)]
TemperatureDifference = Annotated[Quantity, OfKind("temperature difference")]
Angle = Annotated[Quantity, OfKind("angle", signed=True)]
Duration = Annotated[Quantity, OfKind("duration")]
Fraction = Annotated[Quantity, OfKind("fraction")]
Salinity = Annotated[Quantity, OfKind("salinity")]
SoundLevel = Annotated[Quantity, OfKind("sound level")]
FuelEconomy = Annotated[Quantity, OfKind("fuel economy")]
Concentration = Annotated[Quantity, OfKind("concentration")]
LinearMass = Annotated[Quantity, OfKind("linear mass")]


def _count(value: object) -> object:
    if isinstance(value, bool) or not isinstance(value, int):
        raise PydanticCustomError(
            "whole_number",
            "{found}",
            {"found": repr(value), "accepted": "a whole number of things", "hint": ""},
        )
    return value


Count = Annotated[int, BeforeValidator(_count), Field(ge=0, le=1000)]


def _people(value: object) -> object:
    count = isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 40
    if count or (isinstance(value, (list, tuple)) and 0 < len(value) == len({str(one) for one in value})):
        return value
    accepted = "how many people, or a list of their names, each another"
    raise PydanticCustomError(
        "people", "{found}", {"found": repr(value), "accepted": accepted, "hint": "people: [Ann, Ben]"}
    )


Amount = Annotated[str, Field(pattern=r"^[0-9][0-9 ]*(\.[0-9]{2})? [A-Z]{3}$", examples=["12 000 EUR"])]


def _word(value: object) -> object:
    plain_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return str(value) if plain_number else value


Name = Annotated[
    str, BeforeValidator(_word), Field(min_length=1, max_length=80, pattern=r"^[^\x00-\x1f\x7f]+$")
]
Text = Annotated[str, BeforeValidator(_word), Field(max_length=400, pattern=r"^[^\x00-\x08\x0b-\x1f\x7f]*$")]
People = Annotated[int | tuple[Name, ...], BeforeValidator(_people)]
ZoneName = Annotated[str, RefersTo("zones")]


class SpecModel(BaseModel):
    """A section of the spec: unknown keys are faults, values never change."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True)


class Item(SpecModel):
    """One thing of a list in the spec."""

    name: Name = Field(description="what the crew calls it; every name in a list is different")
    zone: ZoneName | None = Field(default=None, description="the room or deck where it is")
    serial: Text | None = Field(default=None, description="serial number")
    formerly: tuple[Name, ...] = Field(
        default=(), description="names that it had before; what was found under them stays with it"
    )


def told(description: str, example: str | None = None, within: tuple[str, str] | None = None) -> Any:
    """Return a field that the spec may leave out, with a believable value and what no such boat lies outside of."""
    return Field(
        default=None,
        description=description,
        examples=[example] if example else None,
        json_schema_extra={"within": list(within)} if within else None,
    )


def required(description: str, example: str, within: tuple[str, str]) -> Any:
    """Return a field that the spec has to give; see `told`."""
    return Field(description=description, examples=[example], json_schema_extra={"within": list(within)})


def listed(description: str, example: str | None = None) -> Any:
    """Return a list field, empty unless the spec names items."""
    return Field(default=(), description=description, examples=[example] if example else None)


def yes_or_no(description: str) -> Any:
    """Return a yes/no field, no unless the spec says yes."""
    return Field(default=False, description=description)


class Equipment(Item):
    """A thing aboard that somebody made, that ages and that is serviced; what isn't told of it falls back to the boat's."""

    maker: Text | None = told("maker")
    model: Text | None = told("maker's model")
    firmware: Text | None = told("version of the program in it")
    year: Annotated[int, Field(ge=1900, le=2100)] | None = told(
        "year of make, where it isn't the boat's", "2019"
    )
    hours: Duration | None = told("running hours", "850 h", ("0 h", "60000 h"))
    last_service: datetime.date | None = told("date of the last service")
    service_hours: Duration | None = told("running hours at the last service", "780 h", ("0 h", "60000 h"))
    service_interval: Duration | None = told(
        "maker's service interval in running hours", "250 h", ("10 h", "5000 h")
    )
