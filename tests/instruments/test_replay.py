"""A port's log written, read and played again."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import ScaleFault
from benchlog.instruments.line_reader import LineReader
from benchlog.instruments.listening import Listening
from benchlog.instruments.replay import Chunk, parse_log, read_log, replay, write_log
from benchlog.instruments.steady import PanWatch

LOG = (
    "0.0\t  0.0 g\\r\\n\n"
    + "".join(f"{0.1 * n:.1f}\t  287\n{0.1 * n + 0.05:.2f}\t.4 g\\r\\n\n" for n in range(1, 5))
    + "0.5\t\\xff\\xfe\\r\\n\n"
)


def listening(templates, heard) -> Listening:
    return Listening(LineReader(templates), PanWatch(), heard)


def test_log_is_played_by_its_own_times(templates, heard):
    caught = replay(parse_log(LOG), listening(templates, heard))
    assert [w.said.value for w in caught if w.said] == [Decimal("287.4")]
    assert caught == heard.caught
    assert [raw for raw, _ in heard.garbage] == [b"\xff\xfe"]


def test_slow_log_never_settles(templates, heard):
    slow = [Chunk(chunk.at_s * 10, chunk.data) for chunk in parse_log(LOG)]
    assert replay(slow, listening(templates, heard)) == []
    assert len(heard.lines) == 5


CHUNKS = st.lists(st.tuples(st.floats(0, 1e6), st.binary(max_size=30)), max_size=10).map(
    lambda pairs: [Chunk(at, data) for at, data in sorted(pairs, key=lambda p: p[0])]
)


@given(CHUNKS)
def test_written_log_reads_back(chunks):
    text = write_log(chunks)
    assert text.isascii()
    assert list(parse_log(text)) == chunks


def test_log_file_is_read(tmp_path):
    path = tmp_path / "scale.log"
    path.write_text(LOG, encoding="ascii")
    assert read_log(path) == list(parse_log(LOG))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("soon\tST\n", "line 1: not a time"),
        ("0.1 ST\n", "line 1"),
        ("0.1\n", "line 1: the time is missing"),
        ("0.2\tST\n0.1\tST\n", "line 2: the time .* goes back"),
        ("nan\tST\n", "line 1"),
        ("0.1\t\\u0416\n", "line 1: not a time, a tab and bytes"),
        ("0.1\t\\x1\n", "line 1: not a time, a tab and bytes"),
    ],
)
def test_wrong_line_is_named(text, words):
    with pytest.raises(ScaleFault, match=words):
        list(parse_log(text))


def test_unreadable_log_is_named(tmp_path):
    with pytest.raises(ScaleFault, match=r"gone\.log cannot be read"):
        read_log(tmp_path / "gone.log")
    (tmp_path / "odd.log").write_bytes(b"\xff\xff")
    with pytest.raises(ScaleFault, match=r"odd\.log cannot be read"):
        read_log(tmp_path / "odd.log")
