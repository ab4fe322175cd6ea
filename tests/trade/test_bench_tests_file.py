from __future__ import annotations

from pathlib import Path

import pytest

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.errors import ResourceFault
from benchlog.trade.bench_tests import load_bench_tests
from benchlog.trade.sequence_file import load_sequence

GOOD = """
[test.spring]
label = "Spring under load"
subjects = ["spring_load"]
not_shown = "What years leave of it."
support = "opinion"
source = "common practice, no source"
"""


def at(folder: Path, text: str) -> Path:
    (folder / "trade").mkdir()
    (folder / "trade" / "bench_tests.toml").write_text(text, encoding="utf-8")
    return folder


def test_every_subject_is_known() -> None:
    sequences = (load_sequence("spin_on"), load_sequence("cartridge"))
    known = {a.key for sequence in sequences for a in sequence.attributes}
    known |= {kind.key for kind in FIGURE_KINDS}
    tests = load_bench_tests()
    assert len(tests) >= 8
    for test in tests:
        assert set(test.subjects) <= known, test.key
        assert test.not_shown.endswith(".")


def test_good_file_is_taken(tmp_path: Path) -> None:
    (test,) = load_bench_tests(at(tmp_path, GOOD))
    assert (test.key, test.subjects) == ("spring", ("spring_load",))


@pytest.mark.parametrize("field", ["label", "not_shown", "source"])
def test_empty_words_are_named(tmp_path: Path, field: str) -> None:
    lines = [f'{field} = ""' if line.startswith(field) else line for line in GOOD.splitlines()]
    with pytest.raises(ResourceFault, match=field) as caught:
        load_bench_tests(at(tmp_path, "\n".join(lines)))
    assert "spring" in caught.value.what


def test_subject_of_two_tests_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ResourceFault, match="stands in spring too"):
        load_bench_tests(at(tmp_path, GOOD + GOOD.replace("test.spring", "test.other")))
