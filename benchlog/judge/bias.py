"""Whether past awards lean: to what was given, to who came first, to judging with open eyes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import fsum

from benchlog.judge.proportions import Share, apart, paired, wilson

FEWEST = 10
"""With fewer cases than this on either side nothing is said but how many there are."""

COMPARISONS = 3
FAMILY_LEVEL = 0.05
EACH = 1.0 - FAMILY_LEVEL / COMPARISONS
"""The level of each difference, so that all of them together keep theirs (Dunn 1961)."""

FAMILY = (
    f"{COMPARISONS} comparisons are made, so each difference has an interval for "
    f"{100 * EACH:.1f} %: of {COMPARISONS} that do not lean, one or more is called a lean in at "
    f"most {100 * FAMILY_LEVEL:.0f} of 100 shelves (Bonferroni). "
    "Single shares have theirs for 95 %."
)
LIMITS = (
    "These are few filters, chosen by hand and not by lot: the figures show whether awards lean, "
    "not why. What was given may be better, and who stood first may have stood there by chance."
)
OF_WINS = "Wilson, each specimen once"
OF_PAIRS = "Wilson, each line-up once, shared out by Bonferroni"
OF_AWARDS = "Wilson; their difference by Newcombe, shared out by Bonferroni"


@dataclass(frozen=True)
class PastSpecimen:
    """A specimen of a past line-up.

    `given` is None where who paid is not answered, or where it is neither; `first` and `last` in
    bench order are both False where the order was balanced over the stations.
    """

    id: str
    given: bool | None
    first: bool = False
    last: bool = False


@dataclass(frozen=True)
class PastAward:
    """An award as it was published: who won and who was clearly behind, none where nobody was.

    `blind` tells how its component was judged by eye: None where no eye, or both, judged it.
    """

    winners: tuple[str, ...]
    behind: tuple[str, ...]
    blind: bool | None = None


@dataclass(frozen=True)
class PastLineup:
    """One past line-up."""

    id: str
    specimens: tuple[PastSpecimen, ...]
    awards: tuple[PastAward, ...]


@dataclass(frozen=True)
class Side:
    """One side of a comparison: whose share of what; None without any case."""

    label: str
    share: Share | None


@dataclass(frozen=True)
class Lean:
    """Two sides set against each other.

    `gap` is one less the other where both stand in the same line-up, or of all where the sides
    are of different ones; None without any case. `enough` tells whether there are `FEWEST` cases
    of it on either side; `leans` whether its interval leaves nought out.
    """

    key: str
    question: str
    one: Side
    other: Side
    gap: Share | None
    method: str
    enough: bool
    sentence: str

    @property
    def leans(self) -> bool:
        """Whether awards lean beyond chance."""
        return self.enough and self.gap is not None and not self.gap.low <= 0.0 <= self.gap.high


@dataclass(frozen=True)
class BiasCheck:
    """All of it, over so many line-ups in which somebody won something."""

    lineups: int
    leans: tuple[Lean, ...]
    limits: str = f"{FAMILY} {LIMITS}"


def bias_check(lineups: Iterable[PastLineup]) -> BiasCheck:
    """Set win rates against each other over past line-ups.

    A specimen's part of wins is the share of those awards won, alone or jointly, in which
    somebody won and it was compared. Awards of one specimen do not vary freely of each other, so
    that each specimen counts as one case, and each line-up where two of its own are compared.
    """
    every = list(lineups)
    decided = [lineup for lineup in every if any(a.winners and a.behind for a in lineup.awards)]
    return BiasCheck(
        len(decided),
        (
            _within(
                "given", "Given against bought", ("given", "bought"),
                (lambda s: s.given is True, lambda s: s.given is False), decided,
            ),
            _within(
                "order", "First against last in bench order", ("first", "last"),
                (lambda s: s.first, lambda s: s.last), decided,
            ),
            _blind(every),
        ),
    )  # fmt: skip


def wins_of(specimen: PastSpecimen, lineup: PastLineup) -> float | None:
    """Return a specimen's part of the decided awards it was compared in, None for none."""
    own = [
        specimen.id in award.winners
        for award in lineup.awards
        if award.winners and award.behind and specimen.id in (*award.winners, *award.behind)
    ]
    return sum(own) / len(own) if own else None


def _within(
    key: str,
    question: str,
    labels: tuple[str, str],
    belongs: tuple[Callable[[PastSpecimen], bool], Callable[[PastSpecimen], bool]],
    lineups: list[PastLineup],
) -> Lean:
    found: tuple[list[float], list[float]] = ([], [])
    gaps = []
    for lineup in lineups:
        here = tuple(_parts(lineup, side) for side in belongs)
        for whole, own in zip(found, here, strict=True):
            whole.extend(own)
        if all(here):
            gaps.append(_mean(here[0]) - _mean(here[1]))
    sides = [Side(label, _share(own)) for label, own in zip(labels, found, strict=True)]
    gap = paired(gaps, EACH) if gaps else None
    enough = len(gaps) >= FEWEST
    what = f"{len(gaps)} line-up{'' if len(gaps) == 1 else 's'} in which both stood"
    if gap is None or not enough:
        said = f"Too few to say: {what}, and it takes {FEWEST}."
    else:
        said = f"{_lean_said(gap, *labels)} Over {what}."
    method = f"{OF_WINS}; their difference: {OF_PAIRS}"
    return Lean(key, question, sides[0], sides[1], gap, method, enough, said)


def _parts(lineup: PastLineup, belongs: Callable[[PastSpecimen], bool]) -> list[float]:
    parts = (wins_of(s, lineup) for s in lineup.specimens if belongs(s))
    return [part for part in parts if part is not None]


def _blind(lineups: list[PastLineup]) -> Lean:
    """Compare how often judging by eye found a winner at all, blind and with open eyes."""
    sides = []
    for label, blind in (("blind", True), ("open", False)):
        found = []
        for lineup in lineups:
            own = [bool(a.winners and a.behind) for a in lineup.awards if a.blind is blind]
            if own:
                found.append(sum(own) / len(own))
        sides.append(Side(label, _share(found)))
    one, other = sides[0].share, sides[1].share
    gap, enough = None, False
    cases = [share.cases if share else 0 for share in (one, other)]
    if one and other:
        gap = Share(
            one.value - other.value,
            *apart(*(wilson(s.value, s.cases, EACH) for s in (one, other))),
            min(cases),
        )
        enough = min(cases) >= FEWEST
    what = f"{cases[0]} line-ups judged blind and {cases[1]} with open eyes"
    if gap is None or not enough:
        said = f"Too few to say: {what}, and it takes {FEWEST} of each."
    else:
        said = f"{_lean_said(gap, 'blind judging', 'open eyes', 'found')} Over {what}."
    question = "Blind against open: how often judging by eye found a winner"
    return Lean("blind", question, sides[0], sides[1], gap, OF_AWARDS, enough, said)


def _lean_said(gap: Share, one: str, other: str, verb: str = "won") -> str:
    if gap.low <= 0.0 <= gap.high:
        ends = f"{_points(gap.low)} to {_points(gap.high)}"
        return f"No lean is seen: the difference may be {ends} percentage points."
    more, less = (one, other) if gap.value > 0 else (other, one)
    low, high = sorted(abs(end) for end in (gap.low, gap.high))
    return (
        f"Awards lean: {more} {verb} {_points(low)} to {_points(high)} percentage points more "
        f"often than {less}."
    )


def _points(share: float) -> str:
    return f"{100.0 * share:.0f}".replace("-0", "0").replace("-", "−")


def _share(parts: list[float]) -> Share | None:
    return wilson(min(_mean(parts), 1.0), len(parts)) if parts else None


def _mean(parts: list[float]) -> float:
    return fsum(parts) / len(parts)
