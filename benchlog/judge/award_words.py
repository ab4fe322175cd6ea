"""The sentences of an award: why it came out so."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.judge.comparisons import Comparison, Ring
from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import AttributeRule
from benchlog.judge.value_functions import Worth, middle
from benchlog.judge.verdict import Score


def listed(words: Iterable[str]) -> str:
    """Return words as a person lists them: 'a, b and c'."""
    found = list(words)
    return " and ".join(filter(None, [", ".join(found[:-1]), found[-1]])) if found else ""


def points(value: float) -> str:
    """Return points of a score with one decimal, which is finer than any of them is known."""
    return f"{value:.1f}"


def names(ids: Iterable[str], evidence: Evidence) -> str:
    """Return nicknames as a list in words."""
    return listed(evidence.nickname(specimen) for specimen in ids)


def pair_score(specimen: str, pair: Comparison, ring: Ring) -> float:
    """Return a specimen's score at its best estimates on the entries that the pair shares."""
    total = sum(entry.weight for entry in pair.basis)
    parts = 0.0
    for entry in pair.basis:
        worth = ring.worths[specimen][entry.subject]
        if isinstance(worth, Worth):
            parts += entry.weight / total * middle(worth.nominal)
    return parts


def beaten_sentence(pair: Comparison, ring: Ring, evidence: Evidence) -> str:
    """Say by how much one is behind another, against which limit, and in what."""
    ahead, behind = (pair_score(s, pair, ring) for s in (pair.ahead, pair.behind))
    subjects = listed(evidence.label_within(entry.subject) for entry in by_weight(pair.deciding))
    return (
        f"{evidence.nickname(pair.ahead)} is ahead of {evidence.nickname(pair.behind)} by "
        f"{points(abs(pair.gap))} points of 10 ({points(ahead)} against {points(behind)}"
        f"{_on_shared(pair, ring)}), where {points(pair.needed)} was needed; "
        f"the difference lies in {subjects}."
    )


def further_behind(pairs: Iterable[Comparison], evidence: Evidence) -> str:
    """Say who else is behind and by how much, "" for nobody."""
    found = listed(
        f"{evidence.nickname(pair.behind)} (by {points(abs(pair.gap))})" for pair in pairs
    )
    return f"Also behind: {found}." if found else ""


def close_sentence(pair: Comparison, ring: Ring, evidence: Evidence) -> str:
    """Say how near the widest pair is, and what it would have taken."""
    first, second = (pair_score(s, pair, ring) for s in (pair.first, pair.second))
    how = "At most" if len(ring.ids) > 2 else "Only"
    return (
        f"{how} {points(abs(pair.gap))} points of 10 lie between "
        f"{evidence.nickname(pair.first)} ({points(first)}) and "
        f"{evidence.nickname(pair.second)} ({points(second)}){_on_shared(pair, ring)}."
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
    return found


def by_weight(entries: Iterable[AttributeRule]) -> list[AttributeRule]:
    """Return entries with the weightiest first."""
    return sorted(entries, key=lambda entry: (-entry.weight, entry.subject))
