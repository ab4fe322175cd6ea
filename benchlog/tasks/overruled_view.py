"""What the reviewer says of a component instead of the rules, in words beside the rules' own."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.award_words import listed
from benchlog.judge.parties import part_name, parties_of
from benchlog.judge.verdict import AwardKind
from benchlog.tasks.lock import moment_text
from benchlog.tasks.overrule import ALL, NAMES, NONE
from benchlog.tasks.poll import GONE
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


@dataclass(frozen=True)
class WinnerOffer:
    """Who may be named as one: a specimen, or several of one part; `label` names them all."""

    ids: tuple[str, ...]
    label: str


def winner_offers(record: Record) -> tuple[WinnerOffer, ...]:
    """Return who may be named by hand, in bench order."""
    specimens = record.lineup.specimens
    names = {specimen.id: specimen.nickname for specimen in specimens}
    return tuple(
        WinnerOffer(
            party,
            names[party[0]]
            if len(party) == 1
            else f"{part_name(party, specimens)}: {listed(names[one] for one in party)}",
        )
        for party in parties_of(specimens)
    )


def hand_story(record: Record, component: Component) -> str:
    """Return all that was said by hand of a component and no longer stands so, in one line.

    "" while nothing was said, or only what stands. Of what stands the moment alone is told: the
    rest stands beside it.
    """
    own = [one for one in record.overruling_log if one.component is component]
    if len(own) < 2:
        return ""
    told = []
    for n, one in enumerate(own):
        why = f" ({one.reason.rstrip('.')})" if one.reason else ""
        if one.kind is None:
            told.append(f"taken back on {moment_text(one.at)}{why}")
            continue
        verb = "changed" if n and own[n - 1].kind is not None else "overruled"
        if n and one is own[-1]:
            told.append(f"{verb}{'' if verb == 'changed' else ' again'} on {moment_text(one.at)}")
            continue
        who = _who(record, one.kind, one.winners)
        told.append(f"{verb} on {moment_text(one.at)} to {one.kind}{who}{why}")
    said = "; ".join(told)
    return f"{said[:1].upper()}{said[1:]}."


def _who(record: Record, kind: AwardKind, winners: tuple[str, ...]) -> str:
    """Return whom an award names, those of one part by its name."""
    if NAMES[kind] in (ALL, NONE):
        return ""
    specimens = record.lineup.specimens
    names = {specimen.id: specimen.nickname for specimen in specimens}
    whole = [p for p in parties_of(specimens) if len(p) > 1 and set(p) <= set(winners)]
    told = {one: part_name(party, specimens) for party in whole for one in party}
    said = dict.fromkeys(told.get(one) or names.get(one, GONE) for one in winners)
    return f", {listed(said)}" if said else ""
