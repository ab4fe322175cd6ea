"""One page in large letters: who paid, what each component came to, and what was not judged.

For viewers to whom the sheet's own letters are too small. It is one page, whatever the line-up:
lines that name many specimens are shortened before any letter is.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from benchlog.judge.verdict import AwardKind
from benchlog.sheet.address_code import code_size, draw_code
from benchlog.sheet.drawn import Drawn
from benchlog.sheet.front_notes import how_many_cut
from benchlog.sheet.marks import draw_award
from benchlog.sheet.shown_award import NAMING, ShownAward, shown_award
from benchlog.sheet.text import draw_lines, lines_in
from benchlog.sheet.typography import BOLD, FACE, INK, MUTED, Page
from benchlog.sheet.words import components_shown, date_of, disclosure, names, short_digest
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words
from benchlog.trade.component import Component

LARGE = 18.0
"""The least size on this page, which is where large print begins. Common practice, no source."""

SCALES = (1.4, 1.3, 1.2, 1.1, 1.0)
"""How much larger the letters may be where the page has room."""

TITLE = 26.0
LEADING = 1.24
"""Height of a line for the size of its letters."""

MARK = 30.0
CODE = 96.0
MOST_OF_PAID = 5
GROUPED = (
    (AwardKind.TIE, "Tie, too close to call"),
    (AwardKind.DIFFERENT, "Different, not better"),
    (AwardKind.CANNOT_SEPARATE, "Cannot separate"),
    (AwardKind.NOT_JUDGED, "Not judged"),
)
UNSCORED = (AwardKind.DIFFERENT, AwardKind.NOT_JUDGED)


@dataclass(frozen=True)
class _Block:
    """Words with their letters; `most` lines are drawn, the outcome's mark in front."""

    text: str
    bold: bool = False
    size: float = LARGE
    most: int = 2
    above: float = 0.0
    mark: AwardKind | None = None
    quiet: bool = False
    title: bool = False

    def lines(self, width: float) -> list[str]:
        """Return the lines in a width."""
        room = width - (MARK if self.mark else 0.0)
        return lines_in(self.text, BOLD if self.bold else FACE, self.size, room, self.most)

    def height(self, width: float) -> float:
        """Return what it takes in points."""
        return self.above + len(self.lines(width)) * self.size * LEADING


class LargePage(Drawn):
    """The page as one flowable, which never grows beyond its frame."""

    def __init__(self, record: Record, page: Page, address: str = "") -> None:
        super().__init__(page.content, page.height - page.bottom - 40.0)
        self._record = record
        self._address = address
        self._code = code_size(address, CODE)

    def draw(self) -> None:
        """Draw all blocks downwards, and the code of the data's address in the lower corner."""
        y = self.height
        for block in self._fitted():
            y -= block.above
            lines = block.lines(self.width)
            x = MARK if block.mark else 0.0
            if block.mark:
                draw_award(self.canv, block.mark, 11, y - 0.68 * block.size, 0.47 * block.size)
            draw_lines(
                self.canv, lines, x, y - block.size, font=BOLD if block.bold else FACE,
                size=block.size, leading=block.size * LEADING, colour=MUTED if block.quiet else INK,
                kind="H1" if block.title else "P",
            )  # fmt: skip
            y -= block.size * LEADING * len(lines)
        if self._code:
            draw_code(self.canv, self._address, self.width - self._code, 0, self._code)
            said = lines_in("The data", BOLD, LARGE, self.width - self._code, 1)
            draw_lines(self.canv, said, self.width - self._code - 92, self._code / 2, font=BOLD,
                       size=LARGE)  # fmt: skip

    def _fitted(self) -> list[_Block]:
        """Return the blocks in the largest letters that have room.

        Where even the least do not, blocks further down are cut to one line.
        """
        bare = [*_head(self._record), *_outcomes(self._record), *_foot(self._record)]
        room = self.height - self._code
        for scale in SCALES:
            blocks = [replace(block, size=block.size * scale, most=99) for block in bare]
            if sum(block.height(self.width) for block in blocks) <= room:
                return blocks
        blocks = bare
        for at in reversed(range(len(blocks))):
            if sum(block.height(self.width) for block in blocks) <= room:
                break
            if blocks[at].most == 2:
                blocks[at] = replace(blocks[at], most=1)
        return blocks


def _head(record: Record) -> list[_Block]:
    lineup = record.lineup
    paid = _Block(disclosure_of(lineup).sheet, bold=True, most=MOST_OF_PAID, above=9)
    if len(replace(paid, most=99).lines(500.0)) > MOST_OF_PAID:
        paid = replace(paid, text=disclosure(record))
    blocks = [_Block("REHEARSAL: invented data", bold=True)] if lineup.rehearsal else []
    return [
        *blocks,
        _Block(lineup.name or "Line-up without a name", bold=True, size=TITLE, title=True),
        _Block(lineup.question or "No question was written down", quiet=True),
        paid,
    ]


def _outcomes(record: Record) -> list[_Block]:
    """Return a line for each component that somebody won, then the others by what they came to."""
    awards = {award.component: shown_award(record, award) for award in record.verdict.awards}
    shown = [(component, awards[component]) for component in components_shown(record)]
    blocks = [
        _Block(_won(record, component, award), mark=award.kind, above=3)
        for component, award in shown
        if award.kind in NAMING
    ]
    for kind, words in GROUPED:
        others = [component for component, award in shown if award.kind is kind]
        if others:
            said = f"{words}: {_listed(record, others, kind)}"
            blocks.append(_Block(said, mark=kind, above=3, most=max(2, len(others) // 2)))
    if blocks:
        blocks[0] = replace(blocks[0], above=14)
    return blocks


def _won(record: Record, component: Component, award: ShownAward) -> str:
    word = "" if award.kind is AwardKind.WINNER else "joint winners "
    by_hand = " (the reviewer says so, against the rules)" if award.by_hand else ""
    return f"{component.value.capitalize()}: {word}{names(record, award.winners)}{by_hand}"


def _listed(record: Record, components: Iterable[Component], kind: AwardKind) -> str:
    """Return components, each with the specimens that its outcome says nothing of."""
    said = []
    for component in components:
        left = () if kind in UNSCORED else _not_judged(record, component)
        said.append(component.value + (f" ({names(record, left)} not judged)" if left else ""))
    return ", ".join(said)


def _not_judged(record: Record, component: Component) -> tuple[str, ...]:
    scores = (s for s in record.verdict.scores if s.component is component)
    return tuple(score.specimen_id for score in scores if score.value is None)


def _note(record: Record) -> str:
    cut = how_many_cut(record)
    return (
        f"There is no overall total. {cut}; others may differ more. "
        "The sheet has the numbers, their doubts and the reasons."
    )


def _foot(record: Record) -> list[_Block]:
    facts = f"{date_of(record)} · {revision_words(record)} · digest {short_digest(record)}"
    return [
        _Block(_note(record), most=4, above=14),
        _Block(facts, quiet=True, above=6),
    ]
