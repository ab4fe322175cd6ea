"""The sentences of an award: why it came out so."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.judge.comparisons import Comparison, Ring, nominals
from benchlog.judge.evidence import Evidence
from benchlog.judge.groups import mean_of
from benchlog.judge.parties import Party, part_name
from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.judge.value_functions import middle, uncertainty
from benchlog.judge.verdict import Score

LEVEL = 1e-9
"""Points this close are the same."""

FULL = 9.95
"""Points that are printed as ten."""


def listed(words: Iterable[str]) -> str:
    """Return words as a person lists them: 'a, b and c'; 'a, b; c; and d' where one has a comma."""
    found = list(words)
    if len(found) > 1 and any("," in one for one in found):
        return "; ".join([*found[:-1], f"and {found[-1]}"])
    return " and ".join(filter(None, [", ".join(found[:-1]), found[-1]])) if found else ""


def points(value: float) -> str:
    """Return points of a score with one decimal, which is finer than any of them is known."""
    return f"{value:.1f}"


def names(ids: Iterable[str], evidence: Evidence) -> str:
    """Return nicknames as a list in words."""
    return listed(evidence.nickname(specimen) for specimen in ids)


def called(party: Party, evidence: Evidence) -> str:
    """Return a specimen's nickname, or what several of one part are called together."""
    if len(party) == 1:
        return evidence.nickname(party[0])
    return part_name(party, evidence.specimens)


def flat_sentence(pair: Comparison, ring: Ring, evidence: Evidence) -> list[str]:
    """Return why two stand level, and in full points maybe, and yet cannot be told apart.

    Where a value function is flat the best estimates are worth the same; within their uncertainty
    it falls off. None where it is flat in nothing that is left open.
    """
    flat = [
        lead.entry
        for lead in pair.leads
        if lead.entry.kind is ValueKind.PIECEWISE
        and abs(middle(lead.points)) < LEVEL
        and uncertainty(lead.points) > LEVEL
    ]
    if not flat:
        return []
    labels = listed(evidence.label_within(entry.subject) for entry in by_weight(flat))
    full = all(pair_score(one, pair, ring) > FULL for one in (pair.first, pair.second))
    points = "full points" if full else "the same points"
    return [
        f"In {labels} both have {points}, because a little more or less changes nothing there; "
        "within what the readings leave open it does."
    ]


def called_all(ids: Iterable[str], ring: Ring, evidence: Evidence) -> str:
    """Return what the parties of these specimens are called, as a list in words."""
    return listed(called(ring.party(one), evidence) for one in ids)


def opening(words: str, party: Party) -> str:
    """Return words that open a sentence; a nickname stays as it is written."""
    return words if len(party) == 1 else words[:1].upper() + words[1:]


def pair_score(specimen: str, pair: Comparison, ring: Ring) -> float:
    """Return a party's mean score at its best estimates on the entries that the pair shares."""
    total = sum(entry.weight for entry in pair.basis)
    parts = 0.0
    for entry in pair.basis:
        known = nominals(ring.party(specimen), entry.subject, ring)
        parts += entry.weight / total * middle(mean_of(known))
    return parts


def beaten_sentence(pair: Comparison, ring: Ring, evidence: Evidence) -> str:
    """Say by how much one is behind another, against which limit, and in what."""
    ahead, behind = (pair_score(s, pair, ring) for s in (pair.ahead, pair.behind))
    subjects = listed(evidence.label_within(entry.subject) for entry in by_weight(pair.deciding))
    party = ring.party(pair.ahead)
    verb = "is" if len(party) == 1 else "are"
    return (
        f"{opening(called(party, evidence), party)} {verb} ahead of "
        f"{called(ring.party(pair.behind), evidence)} by "
        f"{points(abs(pair.gap))} points of 10 ({points(ahead)} against {points(behind)}"
        f"{_on_shared(pair, ring)}), where {points(pair.needed)} was needed; "
        f"the difference lies in {subjects}."
    )


def further_behind(pairs: Iterable[Comparison], ring: Ring, evidence: Evidence) -> str:
    """Say who else is behind and by how much, "" for nobody."""
    found = listed(
        f"{called(ring.party(pair.behind), evidence)} (by {points(abs(pair.gap))})"
        for pair in pairs
    )
    return f"Also behind: {found}." if found else ""


def close_sentence(pair: Comparison, ring: Ring, evidence: Evidence) -> str:
    """Say how near the widest pair is, and what it would have taken."""
    first, second = (pair_score(s, pair, ring) for s in (pair.first, pair.second))
    how = f"{'At most' if len(ring.ids) > 2 else 'Only'} {points(abs(pair.gap))}"
    if how.endswith(" 0.0"):
        how = "Less than 0.1"
    return (
        f"{how} points of 10 lie between "
        f"{called(ring.party(pair.first), evidence)} ({points(first)}) and "
        f"{called(ring.party(pair.second), evidence)} ({points(second)}){_on_shared(pair, ring)}."
    )


def _on_shared(pair: Comparison, ring: Ring) -> str:
    """Say on how much the comparison rests when that is not everything."""
    if len(pair.basis) == len(ring.entries):
        return ""
    return f", on the {len(pair.basis)} of {len(ring.entries)} values that both have"


def notes(ring: Ring, unscored: Iterable[Score], evidence: Evidence) -> list[str]:
    """Say what was kept out of the comparison, and who."""
    found = [
        f"{evidence.label(subject)} was left out of the comparison: {reason}."
        for subject, reason in ring.dropped.items()
    ]
    left_out = names((score.specimen_id for score in unscored), evidence)
    if left_out and ring.ids:
        found.append(f"Not judged for want of values: {left_out}.")
    return [*found, *counted_together(ring, evidence)]


def counted_together(ring: Ring, evidence: Evidence) -> list[str]:
    """Say which specimens were compared as one part, and which stand for themselves alone."""
    several = [party for party in map(ring.party, ring.ids) if len(party) > 1]
    found = []
    if several:
        who = " and ".join(
            f"{called(party, evidence)} ({names(party, evidence)}; n = {len(party)})"
            for party in several
        )
        mean = "mean, as sure as the scatter between them leaves it"
        if len(several) > 1:
            mean = "means, as sure as the scatter within each leaves them"
        found.append(f"{opening(who, several[0])} stand by their {mean}.")
    alone = [one for one in ring.ids if len(ring.party(one)) == 1]
    if several and alone:
        verb = "stands for itself" if len(alone) == 1 else "stand for themselves"
        found.append(f"{names(alone, evidence)} (n = 1) {verb} alone.")
    return found


def by_weight(entries: Iterable[AttributeRule]) -> list[AttributeRule]:
    """Return entries with the weightiest first."""
    return sorted(entries, key=lambda entry: (-entry.weight, entry.subject))
