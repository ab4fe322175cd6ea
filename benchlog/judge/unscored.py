"""What differs without making anyone better."""

from __future__ import annotations

from itertools import combinations

from benchlog.judge.award_words import listed
from benchlog.judge.chance import judged_by
from benchlog.judge.differences import difference
from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import Rules
from benchlog.judge.scores import scoring
from benchlog.judge.support import weakest
from benchlog.judge.verdict import Award, AwardKind
from benchlog.trade.component import Component


def compared_unscored(component: Component, rules: Rules, evidence: Evidence) -> dict[str, bool]:
    """Return the unscored subjects that some pair could be compared in, and if any pair differs."""
    ids = tuple(party[0] for party in evidence.parties)
    scored = set(scoring(rules, component))
    seen: dict[str, bool] = {}
    for entry in rules.of(component):
        if entry in scored or not entry.compared:
            continue
        found = [difference(entry, a, b, evidence) for a, b in combinations(ids, 2)]
        compared = [pair for pair in found if not pair.refused]
        if compared:
            seen[entry.subject] = any(pair.differs for pair in compared)
    return seen


def differing_sentence(seen: dict[str, bool], evidence: Evidence) -> list[str]:
    """Return a sentence on what differs without making anyone better, none when nothing does."""
    differing = [evidence.label_within(subject) for subject, differs in seen.items() if differs]
    if not differing:
        return []
    return [f"They differ in {listed(differing)}, which by itself makes none of them better."]


def unscored_award(
    component: Component, seen: dict[str, bool], rules: Rules, evidence: Evidence
) -> Award:
    """Award a component of which nothing was recorded that makes one better than another."""
    winners: tuple[str, ...] = ()
    differing = differing_sentence(seen, evidence)
    if differing:
        kind, reason = AwardKind.DIFFERENT, differing[0]
        change = _what_would_rank(component, rules, evidence)
    elif seen:
        kind, winners = AwardKind.TIE, tuple(specimen.id for specimen in evidence.specimens)
        alike = listed(evidence.label_within(subject) for subject in seen)
        reason = f"No difference found in what was compared: {alike}."
        change = "A clear difference in one of these would make them different, not better."
    elif not any(entry.compared for entry in rules.of(component)):
        kind = AwardKind.NOT_JUDGED
        reason = "The rules compare nothing of this component."
        change = "Only a rule that compares something of it."
    else:
        kind = AwardKind.NOT_JUDGED
        reason = "Nothing of this component was recorded for two specimens that can be compared."
        change = "Values of this component for two specimens or more."
    support = weakest(e for e in rules.of(component) if not seen or seen.get(e.subject) is not None)
    how = judged_by(len(evidence.parties)) if seen else ""
    return Award(component, kind, winners, (), support, reason, change, how)


def _what_would_rank(component: Component, rules: Rules, evidence: Evidence) -> str:
    """Say which values would judge the component, or that only a rule could."""
    scored = [evidence.label_within(entry.subject) for entry in scoring(rules, component)]
    if scored:
        return f"Values for {listed(scored)} would let this be judged."
    return "Only a rule that ranks one of these and says why."
