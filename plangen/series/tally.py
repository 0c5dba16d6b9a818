"""Counting over hulls, one after another: only what is counted is kept of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from plangen.assess.model import Assessment, CheckVerdict
from plangen.packs.grades import GRADES
from plangen.series.causes import CauseBook, ChecksOnHulls, day_number, passes
from plangen.series.model import (
    FailingCheck,
    GroupYield,
    HullStanding,
    OpenSnag,
    OptionShare,
    Share,
    Skipped,
    Tally,
)
from plangen.series.readings import ReadingColumns

_FAILING = ("fail", "leaning-fail")
_NOT_JUDGED = ("not-done", "does-not-apply")
_OPEN = ("open", "disputed")
_ORDER = {str(grade): number for number, grade in enumerate(GRADES)}


@dataclass
class _Check(ChecksOnHulls):
    """What is counted of one check: the hulls on which it was judged, failed and is open, a bit for each hull."""

    title: str = ""
    item: str = ""
    system: str = ""
    grade: str = ""
    judged: int = 0
    failed: int = 0
    still_open: int = 0
    readings: dict[str, None] = field(default_factory=dict)


@dataclass
class _Group:
    """What is counted of one system or stage."""

    title: str
    passed: int = 0
    judged: int = 0
    hulls: int = 0
    failed_hulls: int = 0

    def add(self, hull: int, passed: bool) -> None:
        """Count one check of a hull that was judged at first."""
        self.judged += 1
        self.passed += passed
        self.hulls |= hull
        self.failed_hulls |= 0 if passed else hull

    def counted(self, id: str) -> GroupYield:
        """Return the yield of the group."""
        all_hulls = self.hulls.bit_count()
        clean = Share(all_hulls - self.failed_hulls.bit_count(), all_hulls)
        return GroupYield(id, self.title, self.passed, self.judged, clean)


@dataclass
class SeriesTally:
    """The counts of the hulls added so far."""

    _hulls: list[HullStanding] = field(default_factory=list)
    _layers: dict[str, int] = field(default_factory=dict)
    _checks: dict[str, _Check] = field(default_factory=dict)
    _systems: dict[str, _Group] = field(default_factory=dict)
    _stages: dict[str, _Group] = field(default_factory=dict)
    _whole: _Group = field(default_factory=lambda: _Group("all checks"))
    _readings: ReadingColumns = field(default_factory=ReadingColumns)
    _causes: CauseBook = field(default_factory=CauseBook)
    _open: list[OpenSnag] = field(default_factory=list)
    _skipped: list[Skipped] = field(default_factory=list)

    def skip(self, folder: str, faults: Sequence[str]) -> None:
        """Note a folder that is left out."""
        self._skipped.append(Skipped(folder, tuple(faults)))

    def add(self, assessment: Assessment) -> None:
        """Count a hull."""
        number = len(self._hulls)
        bit = 1 << number
        titles = {line.system: line.title for line in assessment.summary}
        trial = assessment.vessel.trial_date if assessment.vessel else None
        for stage in assessment.stages:
            self._stages.setdefault(stage.id, _Group(stage.title))
        for check in assessment.checks:
            passed = day_number(check.attempts[-1].when, trial) if passes(check.verdict) else None
            self._checks.setdefault(check.id, _Check()).ask(number, passed)
            self._count(check, bit, titles)
        for layer in _option_sets(assessment):
            self._layers[layer] = self._layers.get(layer, 0) | bit
        for snag in assessment.snags:
            if snag.state in _OPEN:
                self._open.append(
                    OpenSnag(
                        assessment.boat, snag.grade, snag.check, snag.item, snag.title, snag.found, snag.state,
                        snag.due, snag.cause,
                    )
                )  # fmt: skip
                if snag.check in self._checks:
                    self._checks[snag.check].still_open |= bit
        self._hulls.append(_standing(assessment))
        self._readings.add(number, assessment)
        self._causes.add(assessment)

    def _count(self, check: CheckVerdict, bit: int, titles: Mapping[str, str]) -> None:
        known = self._checks[check.id]
        if not known.title:
            known.title, known.item, known.system = check.title, check.item, check.system
        if not known.grade or _grade(check.grade) < _grade(known.grade):
            known.grade = check.grade
        judged = [attempt for attempt in check.attempts if attempt.verdict not in _NOT_JUDGED]
        if not judged:
            return
        known.judged |= bit
        known.failed |= bit if any(attempt.verdict in _FAILING for attempt in judged) else 0
        for attempt in judged:
            for reading in attempt.readings:
                if reading.verdict in _FAILING:
                    known.readings[reading.reading] = None
        first = judged[0].verdict
        if not passes(first) and first not in _FAILING:
            return  # unclear or limited by conditions: neither passed nor failed
        system = self._systems.setdefault(check.system, _Group(titles.get(check.system, check.system)))
        groups = [self._whole, system]
        if check.stage is not None:
            groups.append(self._stages.setdefault(check.stage, _Group(check.stage)))
        for group in groups:
            group.add(bit, passes(first))

    def result(self) -> Tally:
        """Return what the hulls added so far come to."""
        names = [hull.name for hull in self._hulls]
        everyone = (1 << len(names)) - 1
        options = {layer: bits for layer, bits in self._layers.items() if bits != everyone}
        labels = option_labels(list(options))
        return Tally(
            hulls=tuple(
                replace(hull, options=tuple(labels[layer] for layer in hull.options if layer in labels))
                for hull in self._hulls
            ),
            options=tuple(labels.values()),
            by_stage=tuple(group.counted(id) for id, group in self._stages.items() if group.judged),
            by_system=tuple(group.counted(id) for id, group in self._systems.items()),
            whole=self._whole.counted("all"),
            failing=tuple(
                self._failing(names, {labels[layer]: bits for layer, bits in options.items()}, everyone)
            ),
            readings=tuple(self._readings.spreads(names)),
            open_snags=tuple(sorted(self._open, key=lambda one: _grade(one.grade))),
            causes=self._causes.causes(names, self._checks),
            skipped=tuple(self._skipped),
        )

    def _failing(
        self, names: Sequence[str], options: Mapping[str, int], everyone: int
    ) -> Iterator[FailingCheck]:
        failing = [(id, one) for id, one in self._checks.items() if one.failed]
        failing.sort(key=lambda pair: (-pair[1].failed.bit_count(), _grade(pair[1].grade), pair[0]))
        total = sum(one.failed.bit_count() for _, one in failing)
        so_far = 0
        for id, one in failing:
            so_far += one.failed.bit_count()
            shares = [
                OptionShare(option, _share(one, bits), _share(one, everyone & ~bits))
                for option, bits in options.items()
            ]
            yield FailingCheck(
                check=id,
                title=one.title,
                item=one.item,
                readings=tuple(one.readings),
                system=one.system,
                grade=one.grade,
                failed=_share(one, everyone),
                hulls=_named(names, one.failed),
                still_open=_named(names, one.still_open),
                options=tuple(sorted(_telling(shares), key=lambda share: -share.difference)),
                cumulated=so_far / total,
            )


def _option_sets(assessment: Assessment) -> tuple[str, ...]:
    """Return what a hull was drafted from: model and option sets, and of which issue."""
    vessel = assessment.vessel
    if vessel is None:
        return ()
    issues = (f"{one.spec.removesuffix('.yaml')}{_ISSUE}{one.issue}" for one in vessel.drafted_from)
    return (*vessel.layers, *issues)


#: Stands between the name of a spec and the number of its issue.
_ISSUE = " issue "


def option_labels(options: Sequence[str]) -> dict[str, str]:
    """Return the option sets by the names of their specs, without the word that they all begin with.

    >>> option_labels(["option-sport", "option-comfort", "model issue 1", "model issue 2"])
    {'option-sport': 'sport', 'option-comfort': 'comfort', 'model issue 1': 'issue 1', 'model issue 2': 'issue 2'}
    >>> option_labels(["option-sport", "model issue 1", "engine issue 2"])
    {'option-sport': 'option-sport', 'model issue 1': 'model issue 1', 'engine issue 2': 'engine issue 2'}
    """
    layers = [option for option in options if _ISSUE not in option]
    heads = {layer.partition("-")[0] for layer in layers}
    shared = len(layers) > 1 and len(heads) == 1 and all("-" in layer.strip("-") for layer in layers)
    labels = {layer: layer.partition("-")[2] if shared else layer for layer in layers}
    issues = [option for option in options if _ISSUE in option]
    one_spec = len({issue.partition(_ISSUE)[0] for issue in issues}) == 1
    return labels | {issue: f"issue {issue.rpartition(' ')[2]}" if one_spec else issue for issue in issues}


def _grade(grade: str) -> int:
    return _ORDER[grade]


def _telling(shares: Iterable[OptionShare]) -> Iterator[OptionShare]:
    """Yield the option sets with which a check fails more often than without; one fail, or one hull without, tells nothing."""
    return (
        share for share in shares if share.difference > 0 and share.with_it.count > 1 and share.without.of > 1
    )


def _share(check: _Check, hulls: int) -> Share:
    return Share((check.failed & hulls).bit_count(), (check.judged & hulls).bit_count())


def _named(names: Sequence[str], hulls: int) -> tuple[str, ...]:
    return tuple(name for number, name in enumerate(names) if hulls >> number & 1)


def _standing(assessment: Assessment) -> HullStanding:
    snags = [snag for snag in assessment.snags if snag.state in _OPEN]
    counts = ((grade, sum(snag.grade == grade for snag in snags)) for grade in GRADES)
    firsts = (
        next((one.verdict for one in check.attempts if one.verdict not in _NOT_JUDGED), "")
        for check in assessment.checks
    )
    vessel = assessment.vessel
    return HullStanding(
        name=assessment.boat,
        hull_id=vessel.hull_id if vessel else None,
        model=" ".join(part for part in (vessel.builder, vessel.model) if part) if vessel else "",
        options=_option_sets(assessment),
        day=vessel.trial_date if vessel else None,
        checks=len(assessment.checks),
        to_do=len(assessment.not_done),
        failed_at_first=sum(first in _FAILING for first in firsts),
        open_snags=tuple((grade, count) for grade, count in counts if count),
        stage=next((one.title for one in assessment.stages if one.state == "open"), ""),
        handover=assessment.handover.answer,
    )
