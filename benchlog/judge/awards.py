"""One component's award: who is ahead of whom, and why."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.judge.award_words import (
    beaten_sentence,
    called_all,
    close_sentence,
    flat_sentence,
    further_behind,
    listed,
    names,
    notes,
)
from benchlog.judge.chance import judged_by
from benchlog.judge.comparisons import Comparison, Ring, ring_of
from benchlog.judge.differences import exceeds
from benchlog.judge.evidence import Evidence
from benchlog.judge.flips import flip_of_doubt, flip_of_lead, flip_of_tie
from benchlog.judge.rules import Rules
from benchlog.judge.scores import scoring
from benchlog.judge.support import weakest
from benchlog.judge.unscored import compared_unscored, differing_sentence, unscored_award
from benchlog.judge.verdict import Award, AwardKind, Score
from benchlog.trade.component import Component


def award_of(
    component: Component, scores: tuple[Score, ...], rules: Rules, evidence: Evidence
) -> Award:
    """Return a component's award from the scores of all specimens in it.

    Every pair is compared (see `comparisons`). Joint winners are all those whom nobody clearly
    beats, so ties do not chain; where nobody is beaten it is a tie if the bench could have shown
    a difference that counts, and 'cannot separate' if it could not. A component of which nothing
    that scores was recorded is 'different, not better' when the rest of it differs. Pairs are
    compared on what both have; where values are missing this can go round in a ring, each ahead
    of the next, and then nobody is judged. Specimens of one part win, tie and lose together.
    """
    seen = compared_unscored(component, rules, evidence)
    if not scoring(rules, component) or (
        any(seen.values()) and all(score.counted == 0 for score in scores)
    ):
        return unscored_award(component, seen, rules, evidence)
    judged = tuple(score.specimen_id for score in scores if score.value is not None)
    ring = ring_of(component, judged, rules, evidence)
    missing = [score for score in scores if score.value is None]
    extra = [*notes(ring, missing, evidence), *differing_sentence(seen, evidence)]
    if not ring.compared:
        return _not_judged(ring, rules, scores, extra, evidence)
    kept_out = [s for s in ring.ids if not any(s in (p.first, p.second) for p in ring.compared)]
    if kept_out:
        extra.append(f"Nothing to compare {called_all(kept_out, ring, evidence)} in.")
    standing = tuple(s for s in ring.ids if s not in kept_out)
    beaten = {pair.behind for pair in ring.compared if pair.ahead}
    if beaten and beaten.issuperset(standing):
        return _round_in_a_ring(ring, standing, extra, evidence)
    if beaten:
        return _won(ring, standing, extra, rules, evidence)
    return _level(ring, standing, extra, rules, evidence)


def _won(
    ring: Ring, standing: tuple[str, ...], extra: list[str], rules: Rules, evidence: Evidence
) -> Award:
    leads = [pair for pair in ring.compared if pair.ahead]
    behind = tuple(s for s in standing if any(pair.behind == s for pair in leads))
    winners = tuple(s for s in standing if s not in behind)
    kind = AwardKind.WINNER if len(winners) == 1 else AwardKind.JOINT_WINNERS
    shown = [_widest(p for p in leads if p.behind == s) for s in behind]
    shown.sort(key=lambda pair: abs(pair.gap))
    reasons = [beaten_sentence(shown[0], ring, evidence), further_behind(shown[1:], ring, evidence)]
    if kind is AwardKind.JOINT_WINNERS:
        reasons.insert(0, f"Nobody is clearly ahead of {called_all(winners, ring, evidence)}.")
    return Award(
        component=ring.component,
        kind=kind,
        winners=_every(winners, ring),
        behind=_every(behind, ring),
        support=weakest(entry for pair in shown for entry in pair.deciding),
        reason=" ".join(filter(None, [*reasons, *extra])),
        would_change=flip_of_lead(shown, ring, rules, evidence),
        judged_by=judged_by(len(evidence.parties)),
    )


def _round_in_a_ring(
    ring: Ring, standing: tuple[str, ...], extra: list[str], evidence: Evidence
) -> Award:
    beaten = called_all(standing, ring, evidence)
    return Award(
        component=ring.component,
        kind=AwardKind.NOT_JUDGED,
        winners=(),
        behind=(),
        support=weakest(entry for pair in ring.compared for entry in pair.basis),
        reason=" ".join(
            [
                f"Each of {beaten} is clearly behind another on the values that those two have, "
                "so nobody stands ahead.",
                *extra,
            ]
        ),
        would_change=f"The same values for {beaten}, so that all are compared on one footing.",
        judged_by=judged_by(len(evidence.parties)),
    )


def _level(
    ring: Ring, standing: tuple[str, ...], extra: list[str], rules: Rules, evidence: Evidence
) -> Award:
    widest = _widest(ring.compared)
    # Whatever the order of the specimens: one pair that the readings leave open is enough.
    open_pair = max(ring.compared, key=lambda pair: pair.expanded)
    blind = exceeds(open_pair.expanded, open_pair.limit)
    change = (
        flip_of_doubt(open_pair, ring, evidence)
        if blind
        else flip_of_tie(ring.compared, ring, rules, evidence)
    )
    reasons = [close_sentence(widest, ring, evidence)]
    if blind:
        reasons.append(
            f"The readings leave {open_pair.expanded:.1f} points open, more than the "
            f"{open_pair.limit:.1f} that count: they cannot tell these apart."
        )
        reasons += flat_sentence(open_pair, ring, evidence)
    elif exceeds(abs(widest.gap), widest.limit):
        reasons.append("No single value in it differs clearly, so this is too close to call.")
    else:
        reasons.append(f"Less than {widest.limit:.1f} counts as no difference.")
    return Award(
        component=ring.component,
        kind=AwardKind.CANNOT_SEPARATE if blind else AwardKind.TIE,
        winners=() if blind else _every(standing, ring),
        behind=(),
        support=weakest(entry for pair in ring.compared for entry in pair.basis),
        reason=" ".join([*reasons, *extra]),
        would_change=change,
        judged_by=judged_by(len(evidence.parties)),
    )


def _every(leading: tuple[str, ...], ring: Ring) -> tuple[str, ...]:
    """Return all specimens of the parties that these stand for."""
    return tuple(one for first in leading for one in ring.party(first))


def _widest(pairs: Iterable[Comparison]) -> Comparison:
    return max(pairs, key=lambda pair: (abs(pair.gap), pair.expanded))


def _not_judged(
    ring: Ring,
    rules: Rules,
    scores: tuple[Score, ...],
    extra: list[str],
    evidence: Evidence,
) -> Award:
    if len(scores) < 2:
        why, change = "Only one specimen stands here.", "A second specimen to compare it with."
    elif len(ring.ids) < 2:
        share = f"{100 * rules.smallest_coverage:.0f} %"
        whom = "parts" if len(evidence.parties) < len(scores) else "specimens"
        why = f"Fewer than two {whom} have values for {share} of what counts here."
        change = f"Values for {_wanted(scores, evidence)}."
    elif ring.dropped:
        why = "What counts most here cannot be compared between them."
        change = "Readings taken alike."
    else:
        why = "Too little of what counts here is known for the same two specimens."
        change = f"Values for {_wanted(scores, evidence)}."
    return Award(
        component=ring.component,
        kind=AwardKind.NOT_JUDGED,
        winners=(),
        behind=(),
        support=weakest(ring.entries),
        reason=" ".join([why, *extra]),
        would_change=change,
    )


def _wanted(scores: tuple[Score, ...], evidence: Evidence) -> str:
    """Name what has no value, the weightiest first, and for whom."""
    wanted: dict[str, list[str]] = {}
    for score in scores:
        for part in sorted(score.contributions, key=lambda c: -c.weight):
            if part.value is None:
                wanted.setdefault(part.subject, []).append(score.specimen_id)
    return listed(
        f"{evidence.label_within(subject)} ({_whose(ids, evidence)})"
        for subject, ids in wanted.items()
    )


def _whose(ids: list[str], evidence: Evidence) -> str:
    return "all" if len(ids) == len(evidence.specimens) else names(ids, evidence)
