"""What a component's verdict opens with: the rules' outcome, and the reviewer's where he overrules.

Both stand side by side with their marks; neither takes the other's place.
"""

from __future__ import annotations

from reportlab.platypus import Flowable, Table

from benchlog.judge.verdict import Award, AwardKind
from benchlog.sheet.blind_words import blind_mark
from benchlog.sheet.glossary_part import LETTERS
from benchlog.sheet.marks import AwardMark, HandMark
from benchlog.sheet.paragraph import Text
from benchlog.sheet.shown_award import ShownAward, outcome_words, shown_award
from benchlog.sheet.table_tags import TableTags
from benchlog.sheet.text import markup, para
from benchlog.sheet.typography import FACE, SMALL, STYLES
from benchlog.sheet.values_table import GREY
from benchlog.sheet.words import names
from benchlog.tasks.record import Record

FOR_MARK = 24.0
STYLE = [
    ("FONT", (0, 0), (-1, -1), FACE, SMALL),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("TOPPADDING", (0, 0), (-1, -1), 0),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
]


def headline(award: Award, record: Record, width: float) -> Table:
    """Return the outcome of a component; two side by side where the reviewer overruled it."""
    shown = shown_award(record, award)
    if not shown.by_hand:
        return _outcome(record, award, width)
    half = width / 2
    heads: list[Flowable] = [
        para("By the rules", "gutter_head"),
        para("The reviewer says instead", "gutter_head"),
    ]
    both: list[Flowable] = [_outcome(record, award, half - 8), _by_hand(record, shown, half - 8)]
    tags = TableTags(1, row_heads=False)
    return Table([heads, both], colWidths=[half, half], style=STYLE, hAlign="LEFT", renderCB=tags)


def _outcome(record: Record, award: Award, width: float) -> Table:
    behind = names(record, award.behind)
    more = [f"clearly behind: {behind}"] if behind else []
    if award.kind is not AwardKind.NOT_JUDGED:
        more.append(f"support {LETTERS[award.support]}, {award.support.value}")
    blind = blind_mark(record, award.component)
    more += [blind] if blind else []
    words = markup(outcome_words(record, award))
    if more:
        words += f' <font face="{FACE}" size="{SMALL:g}" color="{GREY}"> '
        words += f"{markup('; '.join(more))}</font>"
    row = [AwardMark(award.kind), Text(words, STYLES["label"])]
    return Table([row], colWidths=[FOR_MARK, width - FOR_MARK], style=STYLE, hAlign="LEFT")


def _by_hand(record: Record, shown: ShownAward, width: float) -> Table:
    said = para(outcome_words(record, shown), "label")
    row = [AwardMark(shown.kind), HandMark(4.6), said]
    widths = [FOR_MARK, 18.0, width - FOR_MARK - 18.0]
    return Table([row], colWidths=widths, style=STYLE, hAlign="LEFT")
