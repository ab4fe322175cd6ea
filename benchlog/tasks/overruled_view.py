"""What the reviewer says of a component instead of the rules, in words beside the rules' own."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.award_words import listed
from benchlog.judge.verdict import AwardKind
from benchlog.tasks.overrule import ALL, NAMES, NONE
from benchlog.tasks.record import Record
from benchlog.trade.component import Component


@dataclass(frozen=True)
class Overruled:
    """An overruled award: its kind, short and full words, and why."""

    kind: AwardKind
    short: str
    words: str
    reason: str


@dataclass(frozen=True)
class AwardOffer:
    """An award that may be given by hand; `names_some` tells that specimens are to be chosen."""

    kind: AwardKind
    label: str
    names_some: bool


def overruled_in(record: Record, component: Component) -> Overruled | None:
    """Return the overruling of a component that stands, None when the rules' award does."""
    standing = record.overrulings.get(component)
    if standing is None or standing.kind is None:
        return None
    kind, who = standing.kind, _who(record, standing.kind, standing.winners)
    rules = next((a for a in record.verdict.awards if a.component is component), None)
    gave = f"{rules.kind}{_who(record, rules.kind, rules.winners)}" if rules else "nothing"
    return Overruled(
        kind=kind,
        short=short_of(kind),
        words=f"The rules gave: {gave}. You say: {kind}{who}.",
        reason=standing.reason,
    )


def short_of(kind: AwardKind) -> str:
    """Return an overruled award in so few words that they stand in the table's narrow column."""
    return f"you: {kind.value.partition(',')[0]}"


def award_offers() -> tuple[AwardOffer, ...]:
    """Return every award in the order in which they are offered."""
    return tuple(
        AwardOffer(kind, f"{kind.value}: {names}", names not in (ALL, NONE))
        for kind, names in NAMES.items()
    )


def _who(record: Record, kind: AwardKind, winners: tuple[str, ...]) -> str:
    if NAMES[kind] in (ALL, NONE):
        return ""
    names = {specimen.id: specimen.nickname for specimen in record.lineup.specimens}
    return f", {listed(names[one] for one in winners)}" if winners else ""
