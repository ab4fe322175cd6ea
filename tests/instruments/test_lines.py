"""Lines put together from chunks."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.instruments.lines import LONGEST_LINE, Lines


@pytest.mark.parametrize("end", [b"\r", b"\n", b"\r\n", b"\n\r", b"\r\r\n"])
def test_every_line_end_ends_a_line(end):
    assert Lines().feed(b"  287.4 g" + end + b"+1" + end) == [b"  287.4 g", b"+1"]


def test_frame_marks_end_lines_too():
    assert Lines().feed(b"\x02287.4 g\x03\x02287.5 g\x03") == [b"287.4 g", b"287.5 g"]


def test_unended_line_is_held():
    lines = Lines()
    assert lines.feed(b"ST,GS,+002") == []
    assert lines.feed(b"87.4  g\r") == [b"ST,GS,+00287.4  g"]
    assert lines.feed(b"\n") == []


def test_mid_stream_drops_the_tail_of_a_line():
    lines = Lines(mid_stream=True)
    assert lines.feed(b"7.4") == []
    assert lines.feed(b"  g\r\n+12.0 g\r\n") == [b"+12.0 g"]


def test_flood_without_end_is_told_once():
    lines = Lines()
    told = [line for _ in range(1000) for line in lines.feed(b"x" * 50)]
    assert told == [b"x" * (LONGEST_LINE + 1)]
    assert lines.feed(b"tail\r\n+1 g\r\n") == [b"+1 g"]


def test_longest_line_passes_whole():
    assert Lines().feed(b"1" * LONGEST_LINE + b"\r") == [b"1" * LONGEST_LINE]


ALPHABET = st.sampled_from([b"\r", b"\n", b"\x02", b"\x03", b"\0", b"4", b"g", b"z" * 60])


@given(
    pieces=st.lists(ALPHABET, max_size=40), cuts=st.lists(st.integers(0, 400)), mid=st.booleans()
)
def test_splitting_changes_nothing(pieces, cuts, mid):
    data = b"".join(pieces)
    whole = Lines(mid_stream=mid).feed(data)
    edges = sorted({0, len(data), *(min(cut, len(data)) for cut in cuts)})
    split = Lines(mid_stream=mid)
    got = [line for a, b in pairwise(edges) for line in split.feed(data[a:b])]
    assert got == whole
    assert all(0 < len(line) <= LONGEST_LINE + 1 for line in got)
