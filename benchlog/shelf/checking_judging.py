"""Looking over what the shelf keeps of judging: digests that fit, codes and ids that are known."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from benchlog.errors import PlanRefused
from benchlog.judge.blind import BlindRun
from benchlog.judge.declared import Declaration
from benchlog.judge.purposes_json import purpose_digest
from benchlog.judge.rules_file import digest
from benchlog.judge.rules_json import rules_from_json
from benchlog.shelf.judging_shelf import JudgingShelf


def own_rules_problems(raw: sqlite3.Connection) -> Iterator[str]:
    """Return what is wrong with the reviewer's own sets of rules."""
    kept = "SELECT key, version, rules, digest FROM own_rules ORDER BY seq"
    for key, version, text, noted in raw.execute(kept).fetchall():
        try:
            rules = rules_from_json(text)
        except PlanRefused as fault:
            yield f"Own rules '{key}', version {version}: {fault.what}"
            continue
        if (rules.key, rules.version, digest(rules)) != (key, version, noted):
            yield f"Own rules '{key}', version {version}, are not those that were kept."


def judging_problems(shelf: JudgingShelf, raw: sqlite3.Connection, lineup_id: str) -> Iterator[str]:
    """Return what is wrong with the locks, overrulings, blind runs, polls and purposes."""
    there = _ids(raw, "SELECT id FROM reading WHERE lineup_id = ?", lineup_id)
    specimens = _ids(raw, "SELECT id FROM specimen WHERE lineup_id = ?", lineup_id)
    for lock in shelf.rules_locks(lineup_id):
        if digest(lock.rules) != lock.digest:
            yield f"The rules of lock {lock.id} do not fit the digest that was noted of them."
        if lock.after and lock.after not in there:
            yield f"Lock {lock.id} follows reading {lock.after}, which is not in its line-up."
    for one in shelf.overrulings(lineup_id):
        if not specimens.issuperset(one.winners):
            yield f"Overruling {one.id} names a specimen that is not in its line-up."
    runs = {run.id: run for run in shelf.blind_runs(lineup_id)}
    for run in runs.values():
        yield from _run_problems(run, there, specimens)
    for reveal in shelf.reveals(lineup_id):
        if reveal.run_id not in runs:
            yield f"Reveal {reveal.id} opens run {reveal.run_id}, which is not in its line-up."
    for poll in shelf.polls(lineup_id):
        if not specimens.issuperset(name for name, _ in poll.votes):
            yield f"Poll {poll.id} names a specimen that is not in its line-up."
    noted = dict(
        raw.execute("SELECT id, digest FROM declaration WHERE lineup_id = ?", (lineup_id,))
    )
    for declaration in shelf.declarations(lineup_id):
        yield from _declaration_problems(declaration, noted, there)


def _declaration_problems(
    declaration: Declaration, noted: dict[str, str], there: set[str]
) -> Iterator[str]:
    known = purpose_digest(declaration.purpose) if declaration.purpose else ""
    if known != noted[declaration.id]:
        yield f"The purpose of declaration {declaration.id} does not fit its digest."
    if declaration.after and declaration.after not in there:
        yield (
            f"Declaration {declaration.id} follows reading {declaration.after}, which is not in"
            " its line-up."
        )


def _ids(raw: sqlite3.Connection, wanted: str, lineup_id: str) -> set[str]:
    return {name for (name,) in raw.execute(wanted, (lineup_id,))}


def _run_problems(run: BlindRun, there: set[str], specimens: set[str]) -> Iterator[str]:
    codes = dict(run.codes)
    if not specimens.issuperset(codes):
        yield f"Blind run {run.id} has a code for a specimen that is not in its line-up."
    known = sorted(codes.values())
    if len(run.orders) != len(run.attributes) or any(sorted(one) != known for one in run.orders):
        yield f"Blind run {run.id} has an order that does not fit its codes."
    if run.after and run.after not in there:
        yield f"Blind run {run.id} follows reading {run.after}, which is not in its line-up."
