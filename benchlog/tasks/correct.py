"""Correct a reading: a new one supersedes it and says why; nothing is overwritten."""

from __future__ import annotations

from dataclasses import replace

from benchlog.errors import EntryRefused
from benchlog.measure.reading import Reading, Source, standing
from benchlog.tasks.answer import understand, with_si
from benchlog.tasks.doubt import Doubter
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf
from benchlog.tasks.slots import by_slot
from benchlog.trade.attribute import Sequence


def correct(
    shelf: Shelf,
    clock: Clock,
    sequence: Sequence,
    lineup_id: str,
    reading_id: str,
    text: str,
    reason: str,
    *,
    inch: bool = False,
    sure: bool = False,
) -> Reading:
    """Supersede one standing reading by what `text` says.

    Raises EntryRefused without a reason, for a reading that no longer stands, and for text that
    cannot be understood; AskAgain, unless `sure`, for a value outside its range or one that
    contradicts other readings or disagrees with its repeats. The reason says why the reading
    changes, and confirms nothing by itself.
    """
    if not reason.strip():
        raise EntryRefused("A correction needs its reason.", "Say in a few words why it changes.")
    readings = standing(shelf.readings(lineup_id))
    old = next((r for r in readings if r.id == reading_id), None)
    if old is None:
        raise EntryRefused(
            "That reading was corrected or scratched before.", "Correct the one that stands now."
        )
    attribute = sequence.attribute(old.attribute)
    answer = understand(attribute, text, inch=inch)
    fresh = with_si(
        replace(
            old,
            id=new_id(),
            at=clock.now(),
            session_s=0.0,
            source=Source.TYPED,
            state=answer.state,
            text=answer.text,
            said=answer.said,
            word=answer.word,
            si_value=None,
            si_low=None,
            si_high=None,
            si_unit="",
            raw=None,
            reason=reason.strip(),
            supersedes=old.id,
            group="",
            blind=False,
        )
    )
    doubter = Doubter(shelf, shelf.lineup(lineup_id), sequence)
    doubter.ask(fresh, by_slot(readings), sure=sure, reason=reason if sure else "")
    shelf.add_reading(fresh)
    return fresh
