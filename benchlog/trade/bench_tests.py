"""The bench tests that a sheet may show, each with what it does not show."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.attribute import Support
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource

BENCH_TESTS_FILE = "trade/bench_tests.toml"


@dataclass(frozen=True)
class BenchTest:
    """One test at the bench: the keys of its attributes and figures, in the order of printing.

    `not_shown` is the sentence that stands beside its results wherever they are printed.
    """

    key: str
    label: str
    subjects: tuple[str, ...]
    not_shown: str
    support: Support
    source: str


@cache
def load_bench_tests(root: Path | None = None) -> tuple[BenchTest, ...]:
    """Return the tests of trade/bench_tests.toml in the file's order; raises ResourceFault."""
    file = read_resource(BENCH_TESTS_FILE, root)
    file.only("test")
    found: dict[str, str] = {}
    tests = []
    for entry in file.entries("test"):
        test = _test(file, entry)
        for subject in test.subjects:
            if subject in found:
                raise file.fault(entry, "subjects", f"'{subject}' stands in {found[subject]} too")
            found[subject] = test.key
        tests.append(test)
    return tuple(tests)


def _test(file: ResourceFile, entry: Entry) -> BenchTest:
    test = file.convert(entry, BenchTest)
    for field in ("label", "subjects", "not_shown", "source"):
        if not getattr(test, field):
            raise file.fault(entry, field, "is empty")
    return test
