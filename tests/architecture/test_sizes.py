"""Files and functions stay short enough to be read whole. These limits may only shrink."""

from __future__ import annotations

import ast
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]
FILE_LINES = 400
MEDIAN_FILE_LINES = 150
FUNCTION_LINES = 60

FILES = sorted(
    file for folder in ("benchlog", "tests", "packaging") for file in (ROOT / folder).rglob("*.py")
)
SCRIPTS = [ROOT / "packaging" / name for name in ("run", "test", "setup.sh")]


def name_of(file: Path) -> str:
    return str(file.relative_to(ROOT))


def lines_of(file: Path) -> int:
    return len(file.read_text(encoding="utf-8").splitlines())


def long_functions(source: str) -> list[str]:
    """Name the functions that are longer than the limit, from `def` to the last line."""
    return [
        f"{node.name}, {length} lines"
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and (length := (node.end_lineno or 0) - node.lineno + 1) > FUNCTION_LINES
    ]


def test_files_are_short() -> None:
    long = {name_of(f): n for f in [*FILES, *SCRIPTS] if (n := lines_of(f)) > FILE_LINES}
    assert not long


def test_functions_are_short() -> None:
    long = {name_of(f): found for f in FILES if (found := long_functions(f.read_text("utf-8")))}
    assert not long


def test_package_files_mostly_small() -> None:
    filled = [lines_of(file) for file in (ROOT / "benchlog").rglob("*.py") if lines_of(file) > 1]
    assert median(filled) <= MEDIAN_FILE_LINES


def test_long_function_is_noticed() -> None:
    body = "    pass\n" * FUNCTION_LINES
    assert long_functions(f"class A:\n  def f():\n{body}") == [f"f, {FUNCTION_LINES + 1} lines"]
    assert not long_functions("async def f():\n" + "    pass\n" * (FUNCTION_LINES - 1))
