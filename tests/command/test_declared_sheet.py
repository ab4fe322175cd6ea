"""A declared purpose stands on the sheet that is written without a window."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from pypdf import PdfReader

import benchlog
from benchlog.judge.purposes_file import load_purposes
from benchlog.tasks.declare import declare_purpose
from benchlog.wiring import open_workshop
from tests.sheet.reading_back import plain
from tests.tasks.sample_records import pictured_shelf

CODE = """
import sys
from benchlog.__main__ import main
done = main(sys.argv[1:])
print("PySide6" in sys.modules, done)
"""


def run(*words: str) -> str:
    ran = subprocess.run(
        [sys.executable, "-c", CODE, *words],
        capture_output=True, text=True, check=True, cwd=Path(benchlog.__file__).parents[1],
    )  # fmt: skip
    return ran.stdout


def test_command_prints_the_ranks_without_a_window(tmp_path: Path) -> None:
    shelf = pictured_shelf(tmp_path / "shelf")
    price = next(p for p in load_purposes() if p.key == "price")
    with open_workshop(shelf) as workshop:
        (brief,) = workshop.shelf.lineups()
        declare_purpose(workshop.shelf, workshop.clock, brief.id, price, "viewers asked")
    out = tmp_path / "sheet.pdf"
    assert run("--shelf", str(shelf), "sheet", brief.name, "--out", str(out)).endswith("False 0\n")
    text = plain(" ".join(page.extract_text() for page in PdfReader(out).pages))
    assert "For price, declared by the reviewer" in text
    assert "Chance of each rank" in text
    said = run("--shelf", str(shelf), "numbers", brief.name)
    told = json.loads(said[: said.rindex("}") + 1])
    assert told["ranks"]["shares"]["trials"] == 100_000
    assert told["declarations"][0]["reason"] == "viewers asked"
