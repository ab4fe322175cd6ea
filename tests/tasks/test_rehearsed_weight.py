from __future__ import annotations

import pytest

from benchlog.tasks.rehearsed_weight import rehearsed_weight
from benchlog.tasks.sample import load_sample
from benchlog.tasks.slots import Slot
from benchlog.trade.sequence_file import load_sequence
from tests.small_trade import HandClock, small_lineup

SAMPLE = load_sample()
SEQUENCE = load_sequence(SAMPLE.lineup.sequence)


@pytest.fixture
def lineup():
    return SAMPLE.plan(HandClock(), SEQUENCE)[0]


def weighed(lineup, attribute: str, specimen: int, taken: int = 0) -> str | None:
    slot = Slot(attribute, lineup.specimens[specimen].id)
    said = rehearsed_weight(SAMPLE, SEQUENCE, lineup, slot, taken)
    return None if said is None else said.text


def test_weight_is_that_of_the_specimen(lineup) -> None:
    texts = SAMPLE.answers["whole_mass"].texts
    keys = [s.key for s in SAMPLE.specimens]
    assert [weighed(lineup, "whole_mass", n) for n in range(3)] == [texts[k][0] for k in keys]


def test_nothing_is_weighed_beyond_the_repeats(lineup) -> None:
    repeats = len(SAMPLE.answers["whole_mass"].texts[SAMPLE.specimens[0].key])
    assert weighed(lineup, "whole_mass", 0, repeats) is None


def test_only_weights_are_weighed(lineup) -> None:
    assert weighed(lineup, "can_diameter", 0) is None


def test_stranger_is_not_weighed() -> None:
    strange = small_lineup()
    slot = Slot("whole_mass", "nobody")
    assert rehearsed_weight(SAMPLE, SEQUENCE, strange, slot, 0) is None
