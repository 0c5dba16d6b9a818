"""Reading an instrument register: strict, every fault with its place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from pydantic import ValidationError

from plangen.findings.parse_reading import typed_number
from plangen.findings.register import OwnInstrument, Register, folded
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name
from plangen.spec.yaml_source import Node, read_yaml

if TYPE_CHECKING:
    from plangen.packs.model import Instrument

_EXAMPLE = "a list, as `- {id: M-01, kind: multimeter, serial: A1234, accuracy: 0.01 V, accuracy_percent: 0.2, calibrated: 2026-11-02, calibration_due: 2027-11-02}`"
#: What the program sets itself and no file may.
_SET_BY_US = ("title", "error_fixed", "unit")
_DIFFERENCES = {"°C": "K", "°F": "K"}


def read_register(text: str, name: str, catalogue: Mapping[str, Instrument] | None) -> Register:
    """Read the text of an instrument register; without a catalogue, kinds and accuracies stay as they are written.

    Raises `InputProblems` with every fault: unknown keys and kinds with the nearest, an accuracy of another unit than the
    kind measures in, digits without a resolution, an id that stands twice, a calibration that is due before it was made.
    """
    root = read_yaml(text, name)
    problems: list[Problem] = []
    listed = (root.mapping or {}).get("instruments")
    for key in root.mapping or {}:
        if key != "instruments":
            problems.append(
                Problem(
                    root.key_marks[key],
                    key,
                    f"unknown key {key!r}",
                    "instruments",
                    nearest_name(key, ["instruments"]),
                )
            )
    if listed is None or (
        listed.items is None and not (listed.mapping is None and listed.value in (None, ""))
    ):
        mark = listed.mark if listed is not None else root.mark
        problems.append(Problem(mark, "instruments", "no list of instruments", _EXAMPLE))
        raise InputProblems(problems)
    read = [one for item in listed.items or [] if (one := _instrument(item, catalogue, problems)) is not None]
    _refuse_same(listed, problems)
    if problems:
        raise InputProblems(problems)
    return Register(instruments=tuple(read))


def _instrument(
    node: Node, catalogue: Mapping[str, Instrument] | None, problems: list[Problem]
) -> OwnInstrument | None:
    if node.mapping is None:
        problems.append(
            Problem(node.mark, "instruments", f"{node.value!r}", _EXAMPLE.removeprefix("a list, as "))
        )
        return None
    keys = [key for key in OwnInstrument.model_fields if key not in _SET_BY_US]
    for key in _SET_BY_US:
        if key in node.mapping:
            problems.append(
                Problem(node.key_marks[key], key, f"unknown key {key!r}", name_list(keys), "accuracy")
            )
    plain = {key: _text(key, value.plain()) for key, value in node.mapping.items() if key not in _SET_BY_US}
    try:
        own = OwnInstrument.model_validate(plain)
    except ValidationError as error:
        from plangen.spec.explain import existing_path, problem_of

        for detail in error.errors(include_url=False):
            location = detail["loc"] if detail["type"] == "missing" else existing_path(node, detail["loc"])
            problems.append(problem_of(OwnInstrument, node, location, detail))
        return None
    label = f"instruments: {own.id}"
    _refuse_dates(own, node, label, problems)
    if catalogue is None:
        return own
    kinds = {id: one for id, one in catalogue.items() if one.kind == "instrument"}
    kind = kinds.get(own.kind)
    if kind is None:
        accepted = "an instrument of the catalogue: " + name_list(list(kinds))
        found = f"no instrument {own.kind!r} in the catalogue"
        problems.append(
            Problem(node.mark_at(("kind",)), f"{label}: kind", found, accepted, nearest_name(own.kind, kinds))
        )
        return None
    return own.model_copy(
        update={
            "title": kind.title,
            "unit": kind.unit,
            "error_fixed": _fixed(own, kind, node, label, problems),
        }
    )


def _text(key: str, value: object) -> object:
    """Return what was written as text where a text is meant: a serial number of digits only is one too."""
    words = ("id", "kind", "maker", "model", "serial", "accuracy", "resolution", "certificate")
    plain = isinstance(value, (int, float)) and not isinstance(value, bool)
    return f"{value}" if key in words and plain else value


def _fixed(
    own: OwnInstrument, kind: Instrument, node: Node, label: str, problems: list[Problem]
) -> float | None:
    """Return the part of the error that doesn't grow with the reading, in the kind's unit."""
    total = None
    if own.accuracy is not None:
        total = _amount(own.accuracy, kind.unit, node, label, "accuracy", problems)
    if own.accuracy_digits is not None:
        if own.resolution is None:
            accepted = "resolution: the smallest step that the display shows, such as 0.01 V"
            found = "digits without a resolution"
            problems.append(
                Problem(node.mark_at(("accuracy_digits",)), f"{label}: accuracy_digits", found, accepted)
            )
        else:
            step = _amount(own.resolution, kind.unit, node, label, "resolution", problems)
            total = None if step is None else (total or 0.0) + own.accuracy_digits * step
    return total


def _amount(
    written: str, unit: str, node: Node, label: str, key: str, problems: list[Problem]
) -> float | None:
    read = typed_number(written.lstrip("±").strip(), _DIFFERENCES.get(unit, unit))
    if read.is_single and read.number is not None and read.number >= 0:
        return read.number
    example = f"0.1 {_DIFFERENCES.get(unit, unit)}".strip()
    found = f"{written!r}" + (f": {read.fault}" if read.fault else "")
    problems.append(
        Problem(node.mark_at((key,)), f"{label}: {key}", found, f"a number with its unit, such as {example}")
    )
    return None


def _refuse_dates(own: OwnInstrument, node: Node, label: str, problems: list[Problem]) -> None:
    for calibrated, due, path in (
        (own.calibrated, own.calibration_due, ("calibration_due",)),
        *(
            (one.calibrated, one.calibration_due, ("earlier", n, "calibration_due"))
            for n, one in enumerate(own.earlier)
        ),
    ):
        if calibrated is not None and due is not None and due < calibrated:
            found = f"{due}, before it was calibrated on {calibrated}"
            problems.append(Problem(node.mark_at(path), f"{label}: calibration_due", found, "a later day"))


def _refuse_same(listed: Node, problems: list[Problem]) -> None:
    seen: dict[str, int] = {}
    for item in listed.items or []:
        id = (item.mapping or {}).get("id")
        if id is None:
            continue
        key = folded(str(id.value))
        if key in seen:
            found = f"{id.value!r}, which stands in line {seen[key]} already"
            problems.append(Problem(id.mark, "instruments: id", found, "an id of its own for each"))
        seen.setdefault(key, id.mark.line)
