"""How times, decimals, floats and lists of words lie in the file, so that they come back whole."""

# ruff: noqa: ARG002 - SQLAlchemy hands every type the dialect, wanted or not
from __future__ import annotations

import json
import math
from dataclasses import asdict
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Dialect, Float, String, TypeDecorator

from benchlog.errors import OurFault, PlanRefused
from benchlog.judge.purposes import Purpose
from benchlog.judge.purposes_json import purpose_as_json, purpose_from_json
from benchlog.judge.rules import Rules
from benchlog.judge.rules_json import rules_as_json, rules_from_json
from benchlog.trade.conditions import Conditions


class UtcTime(TypeDecorator[datetime]):
    """An aware time, kept as ISO text in UTC of one fixed length, so that text sorts as time."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """Refuse a time without a zone: nobody could say later when it was."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise OurFault(f"The time {value} has no zone and was not stored.")
        return value.astimezone(UTC).isoformat(timespec="microseconds")

    def process_result_value(self, value: Any | None, dialect: Dialect) -> datetime | None:
        """Give back an aware time in UTC."""
        return None if value is None else datetime.fromisoformat(value)


class DecimalText(TypeDecorator[Decimal]):
    """A decimal kept as text: 287.40 stays apart from 287.4."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> str | None:
        """Write every digit."""
        return None if value is None else str(value)

    def process_result_value(self, value: Any | None, dialect: Dialect) -> Decimal | None:
        """Read every digit."""
        return None if value is None else Decimal(value)


class Real(TypeDecorator[float]):
    """A double; refuses 'not a number', which SQLite would turn into a blank without a word."""

    impl = Float
    cache_ok = True

    def process_bind_param(self, value: float | None, dialect: Dialect) -> float | None:
        """Refuse what would come back as something else."""
        if value is not None and math.isnan(value):
            raise OurFault("A value that is not a number was not stored.")
        return value

    def process_result_value(self, value: Any | None, dialect: Dialect) -> float | None:
        """Give back the double."""
        return None if value is None else float(value)


class Listing(TypeDecorator[Any]):
    """Words, or pairs of words, kept as a JSON list and given back as tuples."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: Any | None, dialect: Dialect) -> str | None:
        """Write a JSON list that a person can read."""
        return None if value is None else json.dumps(value, ensure_ascii=False)

    def process_result_value(self, value: Any | None, dialect: Dialect) -> Any | None:
        """Give back a tuple, of words or of tuples."""
        if value is None:
            return None
        return tuple(tuple(x) if isinstance(x, list) else x for x in json.loads(value))


class ConditionsText(TypeDecorator[Conditions]):
    """Stated conditions kept as JSON with their names, so that the log of changes can be read."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: Conditions | None, dialect: Dialect) -> str | None:
        """Write every condition by name."""
        return None if value is None else json.dumps(asdict(value), ensure_ascii=False)

    def process_result_value(self, value: Any | None, dialect: Dialect) -> Conditions | None:
        """Give back the conditions; raises TypeError or ValueError for any other text."""
        return None if value is None else Conditions(**json.loads(value))


class RulesText(TypeDecorator[Rules]):
    """A set of judging rules kept as canonical JSON; the very same rules come back."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: Rules | None, dialect: Dialect) -> str | None:
        """Write every rule."""
        return None if value is None else rules_as_json(value)

    def process_result_value(self, value: Any | None, dialect: Dialect) -> Rules | None:
        """Give back the rules; raises ValueError for a text that is none."""
        if value is None:
            return None
        try:
            return rules_from_json(value)
        except PlanRefused as fault:
            raise ValueError(fault.what) from fault


class PurposeText(TypeDecorator[Purpose]):
    """A declared purpose kept whole as canonical JSON; a blank takes the one before it back."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: Purpose | None, dialect: Dialect) -> str | None:
        """Write every weight, and every rule that counts under it alone."""
        return None if value is None else purpose_as_json(value)

    def process_result_value(self, value: Any | None, dialect: Dialect) -> Purpose | None:
        """Give back the purpose; raises ValueError for a text that is none."""
        if value is None:
            return None
        try:
            return purpose_from_json(value)
        except PlanRefused as fault:
            raise ValueError(fault.what) from fault
