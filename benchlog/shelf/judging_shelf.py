"""What the shelf keeps of how a line-up is judged; every entry is for good."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any, TypeVar

from sqlalchemy import RowMapping, Table, insert, select

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.rules import Rules
from benchlog.judge.rules_file import digest
from benchlog.shelf import judging_rows as rows
from benchlog.shelf import judging_tables as tables
from benchlog.shelf.session import Session

T = TypeVar("T")


class JudgingShelf:
    """The part of the shelf that holds how a line-up is judged, and what it is ranked for.

    Entries of a line-up come back in the order in which they were made.
    """

    def __init__(self, session: Session, now: Callable[[], datetime]) -> None:
        self._session = session
        self._now = now

    def add_rules_lock(self, lock: RulesLock) -> None:
        """Put the rules as they were locked, or changed later, on the shelf for good."""
        self._append(tables.rules_lock, rows.row_of(lock))

    def rules_locks(self, lineup_id: str) -> list[RulesLock]:
        """Return every lock of a line-up's rules; the latest is in force."""
        return self._of(tables.rules_lock, lineup_id, rows.rules_lock_from)

    def add_own_rules(self, rules: Rules, at: datetime) -> None:
        """Keep a version of the reviewer's own set; OurFault when it is there already."""
        row = {"key": rules.key, "version": rules.version, "rules": rules}
        self._append(tables.own_rules, {**row, "digest": digest(rules), "at": at})

    def own_rules(self) -> list[Rules]:
        """Return every version of every set of the reviewer's own, in the order of keeping."""
        wanted = select(tables.own_rules).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, lambda row: row["rules"])

    def add_overruling(self, overruling: Overruling) -> None:
        """Put what the reviewer says instead of an award on the shelf for good."""
        self._append(tables.overruling, rows.overruling_row(overruling))

    def overrulings(self, lineup_id: str) -> list[Overruling]:
        """Return every overruling of a line-up; the latest of a component counts."""
        return self._of(tables.overruling, lineup_id, rows.overruling_from)

    def add_blind_run(self, run: BlindRun) -> None:
        """Put a round of blind judging on the shelf for good."""
        self._append(tables.blind_run, rows.row_of(run))

    def blind_runs(self, lineup_id: str) -> list[BlindRun]:
        """Return every round of blind judging of a line-up."""
        return self._of(tables.blind_run, lineup_id, rows.blind_run_from)

    def add_reveal(self, reveal: Reveal) -> None:
        """Note for good that a run's codes were opened; OurFault when they were before."""
        self._append(tables.reveal, rows.row_of(reveal))

    def reveals(self, lineup_id: str) -> list[Reveal]:
        """Return every reveal of a line-up."""
        return self._of(tables.reveal, lineup_id, rows.reveal_from)

    def add_poll(self, poll: Poll) -> None:
        """Put what viewers picked on the shelf for good."""
        self._append(tables.poll, rows.row_of(poll))

    def polls(self, lineup_id: str) -> list[Poll]:
        """Return every poll of a line-up."""
        return self._of(tables.poll, lineup_id, rows.poll_from)

    def add_declaration(self, declaration: Declaration) -> None:
        """Note for good that a purpose was declared, or taken back."""
        self._append(tables.declaration, rows.declaration_row(declaration))

    def declarations(self, lineup_id: str) -> list[Declaration]:
        """Return every declaration of a line-up; the latest stands."""
        return self._of(tables.declaration, lineup_id, rows.declaration_from)

    def _append(self, table: Table, row: dict[str, Any]) -> None:
        with self._session.writing() as connection:
            connection.execute(insert(table), [row])

    def _of(self, table: Table, lineup_id: str, made: Callable[[RowMapping], T]) -> list[T]:
        wanted = select(table).where(table.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, made)
