"""Tell a record as plain values for JSON: every reading and every figure."""

from __future__ import annotations

from typing import Any

from benchlog.derive.figure import Figure
from benchlog.derive.sum_shown import budget_of
from benchlog.judge.blind import BlindRun
from benchlog.judge.ranked import DeclaredRanks
from benchlog.judge.rules_file import set_version
from benchlog.judge.rules_json import plain_rules
from benchlog.measure.finding import Finding
from benchlog.measure.reading import standing
from benchlog.tasks.digest import plain
from benchlog.tasks.record import Record
from benchlog.tasks.sealed import open_run
from benchlog.tasks.tell_number import told_number, told_term


def tell(record: Record) -> dict[str, Any]:
    """Return the whole record in JSON's own kinds.

    Values are plain numbers in the named unit; `standard_uncertainty` is one standard deviation,
    `expanded_uncertainty` is for 95 %, and degrees of freedom are null where none limit. Of a blind
    run whose codes were not opened neither codes nor answers are told.
    """
    lineup = record.lineup
    stands = {r.id for r in standing(list(record.readings))}
    return {
        "lineup": {
            "id": lineup.id,
            "name": lineup.name,
            "question": lineup.question,
            "created_at": plain(lineup.created_at),
            "rules": {"key": record.rules.key, "version": set_version(record.rules)},
            "revision": record.revision,
            "draft": record.draft,
            "digest": record.digest,
        },
        "specimens": [plain(s) for s in lineup.specimens],
        "instruments": [plain(i) for i in record.instruments],
        "checks": [plain(c) for c in record.checks],
        "corrections": [plain(c) for c in record.corrections],
        "readings": [
            {**plain(r), "stands": r.id in stands}
            for r in record.readings
            if r.id not in record.sealed
        ],
        "findings": [told_finding(f) for f in record.findings.values()],
        "figures": [told_figure(f) for f in record.figures.values()],
        "scores": [plain(s) for s in record.verdict.scores],
        "awards": [plain(a) for a in record.verdict.awards],
        "cut_made": record.cut_made,
        "locks": [{**plain(k), "rules": plain(plain_rules(k.rules))} for k in record.locks],
        "overrulings": [plain(o) for o in record.overrulings.values()],
        "overruling_log": [plain(o) for o in record.overruling_log],
        "blind_runs": [_told_run(run, record) for run in record.blind_runs],
        "reveals": [plain(r) for r in record.reveals],
        "set_ups": [plain(s) for s in record.set_ups],
        "micrographs": [plain(m) for m in record.micrographs],
        "picture_answers": [plain(a) for a in record.answers],
        "polls": [plain(p) for p in record.polls],
        "declarations": [plain(d) for d in record.declarations],
        "ranks": told_ranks(record.declared),
        "plan_changes": [{**plain(c), "sentence": c.sentence} for c in record.plan_changes],
    }


def _told_run(run: BlindRun, record: Record) -> dict[str, Any]:
    told: dict[str, Any] = plain(run)
    if open_run([run], record.reveals):  # from the seed, too, the codes could be worked out
        told |= {"codes": [], "orders": [], "seed": None}
    return told


def told_ranks(declared: DeclaredRanks | None) -> dict[str, Any] | None:
    """Return the ranks under the purpose that stands declared, None while none does.

    Shares, leads and central weights stand in the order of `specimens`, each of which names all
    that are ranked as one, and of `criteria`.
    """
    if declared is None:
        return None
    ranking = declared.ranking
    return {
        "declaration": declared.declaration.id,
        "specimens": [list(party) for party in ranking.parties],
        "criteria": [{"key": c.key, "share": c.share} for c in ranking.criteria],
        "coverage": ranking.coverage,
        "left_out": dict(ranking.left_out),
        "refused": ranking.refused,
        "seed": ranking.seed,
        "shares": plain(ranking.shares),
    }


def told_finding(finding: Finding) -> dict[str, Any]:
    """Return what the readings of one attribute of one specimen come to."""
    return {
        "attribute": finding.attribute,
        "specimen_id": finding.specimen_id,
        "state": finding.state.value,
        **told_number(finding.quantity),
        "word": finding.word,
        "low": finding.low,
        "high": finding.high,
        "contact_pressure_kpa": finding.contact_pressure_kpa,
        "taken_with": list(finding.taken_with),
        "scatter": finding.scatter,
        "readings": [r.id for r in finding.readings],
    }


def told_figure(figure: Figure) -> dict[str, Any]:
    """Return one figure: its number, word or refusal, and the terms of its sum."""
    budget = budget_of(figure)
    return {
        "figure": figure.kind.key,
        "label": figure.kind.label,
        "specimen_id": figure.specimen_id,
        "formula": figure.kind.formula,
        **told_number(figure.quantity, bounded=figure.low is not None),
        "word": figure.word,
        "low": figure.low,
        "high": figure.high,
        "estimate": figure.estimate,
        "refusal": figure.refusal,
        "terms": [told_term(term) for term in budget.terms] if budget else [],
        "assumptions": list(figure.assumed),
        "warnings": list(figure.warnings),
        "beside": figure.kind.beside,
        "readings": list(figure.readings),
    }
