"""The reviewer's own purpose: a weight from 0 to 10 for each component, or one left open."""

from __future__ import annotations

from collections.abc import Mapping

from benchlog.errors import EntryRefused, PlanRefused
from benchlog.judge.purposes import OWN, Purpose, purpose_of_weights
from benchlog.judge.rules_changes import number_text
from benchlog.measure.entry import parse_entry
from benchlog.tasks.purpose_view import PurposeOffer, weights_in_words
from benchlog.tasks.verdict_view import SUPPORT_WORDS
from benchlog.trade.component import Component

LABEL = "Your own weights"
OPEN = "open"
MOST = 10.0
WANTED = f"Type a number from 0 to {MOST:g}, or {OPEN}."
REASON = (
    "Only proportions count. What is open is drawn in every way, and weighs on average what the "
    "others weigh on average."
)


def own_purpose(texts: Mapping[str, str]) -> Purpose:
    """Return the purpose of weights as they are typed, by component; nothing typed weighs 0.

    Raises PlanRefused, naming the component as the field, for what is no weight, and with no
    field when no component weighs anything.
    """
    weights: dict[str, float] = {}
    left_open: list[str] = []
    for component in Component:
        text = texts.get(component.value, "").strip()
        if text.casefold() == OPEN:
            left_open.append(component.value)
        elif text and (weight := _weight(component, text)) > 0:
            weights[component.value] = weight
    if not weights and not left_open:
        raise PlanRefused(
            "No component weighs anything yet.",
            f"{WANTED[:-1]}, beside one component or more.",
        )
    return purpose_of_weights(weights, tuple(left_open), LABEL, REASON)


def own_offer(texts: Mapping[str, str]) -> PurposeOffer:
    """Return the reviewer's own purpose as it is shown; raises as `own_purpose`."""
    purpose = own_purpose(texts)
    return PurposeOffer(
        purpose=purpose,
        label=LABEL,
        weights=f"{own_weights_said(purpose)}. That is {weights_in_words(purpose)}",
        reason=purpose.reason,
        support=f"{SUPPORT_WORDS[purpose.support]}; {purpose.source}",
    )


def own_weights_said(purpose: Purpose) -> str:
    """Return the reviewer's weights so that anybody can repeat them, "" for a shipped purpose."""
    return f"{LABEL}: {weights_typed(purpose)}" if purpose.key == OWN else ""


def weights_typed(purpose: Purpose) -> str:
    """Return own weights as they were typed: "media 3, can open, all others 0"."""
    typed = texts_of(purpose)
    said = [f"{c.value} {typed[c.value]}" for c in Component if c.value in typed]
    rest = "" if len(said) == len(Component) else ", all others 0"
    return f"{', '.join(said)}{rest}"


def texts_of(purpose: Purpose) -> dict[str, str]:
    """Return own weights as they are typed, by component."""
    typed = {key: number_text(weight) for key, weight in purpose.weights}
    return typed | dict.fromkeys(purpose.left_open, OPEN)


def kept_weights(texts: Mapping[str, object]) -> dict[str, str]:
    """Return weights as they were kept, without what is no component or no text."""
    kept = {c.value: texts.get(c.value) for c in Component}
    return {key: text for key, text in kept.items() if isinstance(text, str) and text.strip()}


def _weight(component: Component, text: str) -> float:
    try:
        said = parse_entry(text, "count", "count")
        weight = float(said.value)
    except (EntryRefused, OverflowError):
        said, weight = None, -1.0
    if said is None or said.low is not None or said.approximate or not 0 <= weight <= MOST:
        raise PlanRefused(
            f"{component.value}: '{text}' is no weight.", WANTED, field=component.value
        )
    return weight
