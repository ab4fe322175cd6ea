"""Records of judging to rows and back."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from sqlalchemy import RowMapping

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.purposes_json import purpose_digest
from benchlog.judge.verdict import AwardKind
from benchlog.trade.component import Component


def row_of(record: Any) -> dict[str, Any]:
    """Return a record as a row; one before the first reading has a blank there."""
    row = {field.name: getattr(record, field.name) for field in fields(record)}
    if "after" in row:
        row["after"] = row["after"] or None
    return row


def overruling_row(overruling: Overruling) -> dict[str, Any]:
    """Return an overruling as a row; one that takes an earlier one back has a blank kind."""
    row = row_of(overruling)
    row["component"] = overruling.component.value
    row["kind"] = overruling.kind.value if overruling.kind else None
    return row


def declaration_row(declaration: Declaration) -> dict[str, Any]:
    """Return a declaration as a row, with the digest of its purpose."""
    row = row_of(declaration)
    row["digest"] = purpose_digest(declaration.purpose) if declaration.purpose else ""
    return row


def _picked(row: RowMapping, record: type[Any]) -> dict[str, Any]:
    kept = {field.name: row[field.name] for field in fields(record)}
    if "after" in kept:
        kept["after"] = kept["after"] or ""
    return kept


def rules_lock_from(row: RowMapping) -> RulesLock:
    """Return the lock of a row."""
    return RulesLock(**_picked(row, RulesLock))


def overruling_from(row: RowMapping) -> Overruling:
    """Return the overruling of a row."""
    kept = _picked(row, Overruling)
    kept["component"] = Component(row["component"])
    kept["kind"] = AwardKind(row["kind"]) if row["kind"] else None
    return Overruling(**kept)


def blind_run_from(row: RowMapping) -> BlindRun:
    """Return the blind run of a row."""
    return BlindRun(**_picked(row, BlindRun))


def reveal_from(row: RowMapping) -> Reveal:
    """Return the reveal of a row."""
    return Reveal(**_picked(row, Reveal))


def poll_from(row: RowMapping) -> Poll:
    """Return the poll of a row."""
    return Poll(**_picked(row, Poll))


def declaration_from(row: RowMapping) -> Declaration:
    """Return the declaration of a row."""
    return Declaration(**_picked(row, Declaration))
