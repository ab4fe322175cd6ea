"""Line-ups without a bench, judged: findings built straight, for tests."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from benchlog.derive.all_figures import figures_of
from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import Anchor, AttributeRule, RankValue, Rules, ValueKind
from benchlog.judge.rules_file import load_rules
from benchlog.judge.verdict import Award, Verdict
from benchlog.judge.verdict_of import judge
from benchlog.measure.finding import Finding
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Shape, Specimen

NAMES = ("Alpha", "Bravo", "Charlie", "Delta", "Echo", "Foxtrot")
SPECIMENS = tuple(
    Specimen(name[0].lower(), name, shape, "#000000", currency="EUR")
    for name, shape in zip(NAMES, Shape, strict=True)
)
SPIN_ON = load_sequence("spin_on")
SHIPPED = load_rules()


def first(count: int) -> tuple[Specimen, ...]:
    """The first so many specimens."""
    return SPECIMENS[:count]


def piecewise(
    subject: str, *anchors: tuple[float, float], weight: float = 1.0, **more: object
) -> AttributeRule:
    """A rule about a number of the spin-on sequence, with the shipped one's other fields."""
    corners = tuple(Anchor(at, worth) for at, worth in anchors)
    return _rule(subject, kind=ValueKind.PIECEWISE, weight=weight, anchors=corners, **more)


def ranked(subject: str, weight: float = 1.0, **worths: float) -> AttributeRule:
    """A rule about words."""
    ranks = tuple(RankValue(key, worth) for key, worth in worths.items())
    return _rule(subject, kind=ValueKind.RANK, weight=weight, ranks=ranks)


def unscored(subject: str, **more: object) -> AttributeRule:
    """A rule that only compares."""
    return _rule(subject, kind=ValueKind.NONE, weight=0.0, **more)


def _rule(subject: str, **fields: object) -> AttributeRule:
    attribute = SPIN_ON.attribute(subject)
    made = AttributeRule(
        subject,
        attribute.component,
        ValueKind.NONE,
        0.0,
        Support.ENGINEERING,
        source="invented for a test",
        reason="invented for a test",
        unit=attribute.unit,
    )
    return replace(made, **fields)


def rules(*entries: AttributeRule, coverage: float = 0.5, score: float = 0.5) -> Rules:
    """A set of rules of these entries only."""
    return Rules("test", "Test", "1", coverage, score, entries)


def keyed(findings: Iterable[Finding]) -> dict[tuple[str, str], Finding]:
    """Findings as the judge takes them."""
    return {(finding.attribute, finding.specimen_id): finding for finding in findings}


def worked_out(findings: Iterable[Finding], specimens: tuple[Specimen, ...]) -> dict:
    """Every figure of every specimen as the judge takes them."""
    found = list(findings)
    return {
        (key, specimen.id): figure
        for specimen in specimens
        for key, figure in figures_of(
            {f.attribute: f for f in found if f.specimen_id == specimen.id}, specimen
        ).items()
    }


def judged(
    findings: Iterable[Finding],
    by: Rules = SHIPPED,
    specimens: tuple[Specimen, ...] = SPECIMENS[:2],
) -> Verdict:
    """The verdict on these findings."""
    found = list(findings)
    return judge(specimens, keyed(found), worked_out(found, specimens), by, SPIN_ON)


def evidence(
    findings: Iterable[Finding], specimens: tuple[Specimen, ...] = SPECIMENS[:2]
) -> Evidence:
    """What the judge knows from these findings."""
    found = list(findings)
    return Evidence(keyed(found), worked_out(found, specimens), SPIN_ON, specimens)


def award(verdict: Verdict, component: Component) -> Award:
    """The one award of a component."""
    (found,) = [one for one in verdict.awards if one.component is component]
    return found
