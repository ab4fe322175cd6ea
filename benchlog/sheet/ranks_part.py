"""Ranks under the purpose that the reviewer declared; without one there is nothing to print."""

from __future__ import annotations

from reportlab.platypus import Flowable, Table

from benchlog.judge.purposes import OWN
from benchlog.sheet.drawn import Drawn
from benchlog.sheet.flow import Cell, bare, gap, part, section, table
from benchlog.sheet.marks import Tag
from benchlog.sheet.text import draw_lines, para, shortened
from benchlog.sheet.typography import ACCENT, BAND, MUTED, Page
from benchlog.tasks.declared_view import purpose_title, when_declared
from benchlog.tasks.own_purpose import weights_typed
from benchlog.tasks.purpose_view import criterion_label
from benchlog.tasks.rank_view import RankRow, RanksShown, percent, ranks_told
from benchlog.tasks.record import Record
from benchlog.tasks.verdict_view import SUPPORT_WORDS
from benchlog.trade.specimen import Specimen

NUMBERS = ("1st", "2nd", "3rd", "4th", "5th", "6th")
NO_OTHER_TOTAL = (
    "Which component matters more is nobody's measurement: these weights are the reviewer's word "
    "for one purpose. Outside it this sheet has no total and no rank."
)
CHANCE = "Each row: how often it takes each rank among all draws."
BEFORE = (
    "Each row: how often it comes before the one above the column, and by how many points of 10 "
    "it leads in the mean; − where it trails."
)
WEIGHTS = (
    "What each criterion counts under this purpose, and under which weights in the mean each comes "
    "first: none where it never does."
)
BAR = 34.0


class ShareBar(Drawn):
    """A chance as a bar on a light ground, its number beside it."""

    def __init__(self, share: float, said: str, width: float) -> None:
        super().__init__(width, 12.5)
        self._share, self._said = share, said

    def told(self) -> str:
        """Return the chance."""
        return self._said

    def draw(self) -> None:
        """Draw ground, bar and number."""
        self.canv.setFillColor(BAND)
        self.canv.rect(0, 2, BAR, 7, fill=1, stroke=0)
        self.canv.setFillColor(ACCENT)
        self.canv.rect(0, 2, BAR * self._share, 7, fill=1, stroke=0)
        ink = {} if self._share else {"colour": MUTED}
        draw_lines(self.canv, [self._said], BAR + 4, 3, **ink)


def ranks_part(record: Record, page: Page) -> list[Flowable]:
    """Return the part, nothing while no purpose stands declared."""
    if record.declared is None:
        return []
    declared = record.declared
    shown = ranks_told(record, declared.ranking)
    purpose = shown.purpose
    reason = declared.declaration.reason
    told = [
        ("Declared", f"By the reviewer on {when_declared(declared.declaration)}."),
        ("Reviewer’s why", reason),
        ("Weighed so", purpose.reason),
        ("Own weights", weights_typed(purpose) if purpose.key == OWN else ""),
        ("Support", f"{_capital(SUPPORT_WORDS[purpose.support])}; {purpose.source}."),
    ]
    opening = [
        *section(f"For {purpose_title(purpose)}, declared by the reviewer", NO_OTHER_TOTAL),
        *(para(_ended(words), "gutter", label) for label, words in told if words),
    ]
    if shown.refused:
        return [*opening, para(shown.refused, "gutter", "No ranks"), *_notes(shown)]
    said = " ".join(filter(None, (shown.summary, shown.lead)))
    return [
        *opening,
        para(said, "gutter", "Outcome"),
        *_chances(record, shown, page),
        *_before(record, shown, page),
        *_weights(record, shown, page),
        *_notes(shown),
    ]


def _notes(shown: RanksShown) -> list[Flowable]:
    words = [" ".join(shown.left_out), shown.made]
    return [gap(4), *(para(one, "note") for one in words if one)]


def _chances(record: Record, shown: RanksShown, page: Page) -> list[Flowable]:
    many = len(shown.rows)
    widths = _columns(page, many)
    rows: list[list[Cell]] = [["", *NUMBERS[:many]]]
    for row in shown.rows:
        bars = [
            ShareBar(share, percent(share), widths[1] - 6) for place, share in enumerate(row.shares)
        ]
        rows.append([_who(record, row, widths[0]), *bars])
    return [*part("Chance of each rank", 150), para(CHANCE, "note"), table(rows, widths)]


def _before(record: Record, shown: RanksShown, page: Page) -> list[Flowable]:
    widths = _columns(page, len(shown.rows))
    heads: list[Cell] = [_who(record, row, width) for row, width in zip(shown.rows, widths[1:],
                                                                       strict=True)]  # fmt: skip
    rows: list[list[Cell]] = [["", *heads]]
    for row in shown.rows:
        cells: list[Cell] = [
            "" if share is None or lead is None else f"{percent(share)}, {_lead(lead)}"
            for share, lead in zip(row.before, row.leads, strict=True)
        ]
        rows.append([_who(record, row, widths[0]), *cells])
    return [*part("Chance of coming before", 150), para(BEFORE, "note"), table(rows, widths)]


def _lead(lead: float) -> str:
    size = f"{abs(lead):.1f}"
    return size if float(size) == 0 else f"{'−' if lead < 0 else '+'}{size}"


def _weights(record: Record, shown: RanksShown, page: Page) -> list[Flowable]:
    """Return what each criterion weighs; rows as they weigh, the heaviest first."""
    assert record.declared is not None
    ranking = record.declared.ranking
    assert ranking.shares is not None
    central = dict(zip(ranking.ids, ranking.shares.central, strict=True))
    sure = dict(zip(ranking.ids, ranking.shares.confidence, strict=True))
    whole = sum(criterion.share for criterion in ranking.criteria)
    heads: list[Cell] = ["", "Weight"]
    ids = [row.specimen_id for row in shown.rows]
    widths = [*_columns(page, len(ids) + 1)]
    heads += [_who(record, row, widths[2]) for row in shown.rows]
    rows: list[list[Cell]] = [heads]
    order = sorted(range(len(ranking.criteria)), key=lambda n: (-ranking.criteria[n].share, n))
    for n in order:
        criterion = ranking.criteria[n]
        is_open = " open" if criterion.key in shown.purpose.left_open else ""
        cells: list[Cell] = [
            percent(own[n]) if (own := central[one]) is not None else "none" for one in ids
        ]
        rows.append(
            [criterion_label(criterion.key), f"{percent(criterion.share / whole)}{is_open}", *cells]
        )
    chances = [sure[one] for one in ids]
    firsts: list[Cell] = ["–" if chance is None else percent(chance) for chance in chances]
    rows.append(["First under just these", "", *firsts])
    return [*part("Weights", 150), para(WEIGHTS, "note"), table(rows, widths)]


def _columns(page: Page, count: int) -> list[float]:
    first = 118.0 if count < 6 else 88.0
    each = min((page.content - first) / count, 118.0)
    return [first, *([each] * count)]


def _who(record: Record, row: RankRow, width: float) -> Flowable:
    """Return the tags of all who are ranked in a row, and what they are called."""
    by_id = {specimen.id: specimen for specimen in record.lineup.specimens}
    own: list[Specimen] = [by_id[one] for one in row.party]
    tags = [Tag(specimen, 4.2) for specimen in own]
    room = max(width - 6 - 12 * len(tags), 30.0)
    words = row.nickname if len(own) == 1 else ", ".join(s.nickname for s in own)
    name = para(shortened(words, 40), "label")
    widths = [*([12.0] * len(tags)), room]
    return Table([[*tags, name]], colWidths=widths, style=bare(), hAlign="LEFT")


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _ended(sentence: str) -> str:
    return sentence if sentence.endswith((".", "!", "?")) else f"{sentence}."
