"""The purposes that a reviewer may declare, as they are offered."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.award_words import listed
from benchlog.judge.purposes import Purpose
from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.rules_file import every_subject
from benchlog.tasks.verdict_view import SUPPORT_WORDS
from benchlog.trade.component import Component

NO_TOTAL = (
    "No purpose is declared, so there is no total and no rank: which component matters more "
    "is nobody's measurement."
)


@dataclass(frozen=True)
class PurposeOffer:
    """One purpose to choose: what it is called, how it weighs, why, and how well that stands."""

    purpose: Purpose
    label: str
    weights: str
    reason: str
    support: str


def purposes_offered() -> tuple[PurposeOffer, ...]:
    """Return the shipped purposes in the order of their file."""
    return tuple(offer_of(purpose) for purpose in load_purposes())


def offer_of(purpose: Purpose, label: str = "") -> PurposeOffer:
    """Return a purpose as it is offered, under its own label or another."""
    return PurposeOffer(
        purpose=purpose,
        label=label or purpose.label,
        weights=weights_in_words(purpose),
        reason=purpose.reason,
        support=f"{SUPPORT_WORDS[purpose.support]}; {purpose.source}",
    )


def weights_in_words(purpose: Purpose) -> str:
    """Return how a purpose weighs: the fixed shares, the largest first, and what is left open."""
    fixed = sorted(purpose.weights, key=lambda one: -one[1])
    said = [f"{criterion_label(key)} {100 * purpose.share(key):.0f} %" for key, _ in fixed]
    if purpose.left_open:
        names = listed(criterion_label(key) for key in purpose.left_open)
        said.append(f"{100 * purpose.open_share:.0f} % left open among {names}")
    return "; ".join(said)


def criterion_label(key: str) -> str:
    """Return what a criterion is called: a component by its name, a subject by its label."""
    if key in Component._value2member_map_:
        return key
    meant = every_subject().get(key)
    label = meant[0].label if meant else key.replace("_", " ")
    return label if label[1:2].isupper() else label[:1].lower() + label[1:]
