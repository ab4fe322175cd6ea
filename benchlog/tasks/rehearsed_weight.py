"""Which weight the rehearsal scale puts on the pan for what is asked now."""

from __future__ import annotations

from benchlog.measure.reading import Said
from benchlog.tasks.answer import understand
from benchlog.tasks.sample import Sample
from benchlog.tasks.slots import Slot
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup


def rehearsed_weight(
    sample: Sample, sequence: Sequence, lineup: Lineup, slot: Slot, taken: int
) -> Said | None:
    """Return what the sample weighs for one slot of which `taken` repeats are in.

    None where no weight is asked, where the sample has none, for a specimen that is not of the
    sample, and once all its repeats are in.
    """
    attribute = sequence.attribute(slot.attribute)
    answer = sample.answers.get(slot.attribute)
    nickname = next((s.nickname for s in lineup.specimens if s.id == slot.specimen_id), "")
    key = next((s.key for s in sample.specimens if s.nickname == nickname), "")
    if attribute.dimension != "mass" or answer is None:
        return None
    texts = answer.texts.get(key, ())
    return understand(attribute, texts[taken], inch=False).said if taken < len(texts) else None
