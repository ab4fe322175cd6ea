"""The record of a revision as it is frozen: plain values and words, to be read years later.

Everything that a later program needs to say what changed stands in it as text that was printed
or would have been; beside it, under "told", every number as `tell` gives it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from benchlog.errors import ShelfDamaged
from benchlog.judge.rules_file import set_version
from benchlog.judge.rules_json import plain_rules
from benchlog.judge.verdict import Award, AwardKind, Score
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import standing
from benchlog.tasks.declared_view import declared_story
from benchlog.tasks.digest import plain
from benchlog.tasks.frozen_pictures import frozen_pictures, frozen_set_ups, picture_photos
from benchlog.tasks.overruled_view import hand_story
from benchlog.tasks.plan_changes import LINEUP_FIELDS, SPECIMEN_FIELDS
from benchlog.tasks.rank_view import ranks_in_words, ranks_told
from benchlog.tasks.record import Record
from benchlog.tasks.subtitles import value_said
from benchlog.tasks.tell import tell
from benchlog.tasks.value_text import label_of, value_text
from benchlog.trade.component import Component

FORMAT = "benchlog publication"
FORMAT_VERSION = 1
IN_DOUBT = " (in doubt)"

Plain = dict[str, Any]
"""A frozen record, or a part of it, in JSON's own kinds."""


def frozen(
    record: Record,
    changes: Iterable[str] = (),
    licence: str = "",
    wanted: Mapping[str, Any] | None = None,
    chosen: Iterable[str] = (),
) -> Plain:
    """Return a record in JSON's own kinds; `changes` since the revision before, in sentences.

    `licence` is that of the data, "" where the data does not go out. `wanted` is what goes out, as
    `wanted_of` gives it; `chosen` are those of the changes that are the reviewer's wishes.
    """
    return {
        "format": FORMAT,
        "format_version": FORMAT_VERSION,
        "digest": record.digest,
        "revision": record.revision,
        "reason": record.revision_reason,
        "changes": list(changes),
        "licence": licence,
        "wanted": wanted,
        "chosen": list(chosen),
        "lineup": _lineup(record),
        "specimens": [_specimen(plain(s)) for s in record.lineup.specimens],
        "instruments": [_instrument(i) for i in record.instruments],
        "readings": _readings(record),
        "values": [*_values(record), *(_score(record, s) for s in record.verdict.scores)],
        "awards": [_award(record, award) for award in record.verdict.awards],
        "rules": _rules(record),
        "remarks": _remarks(record),
        "photos": _photos(record),
        "set_ups": frozen_set_ups(record),
        "pictures": frozen_pictures(record),
        "checks": _checks(record),
        "purpose": _purpose(record),
        "polls": [{"name": p.question, "votes": plain(p.votes)} for p in record.polls],
        "told": tell(record),
    }


def frozen_text(
    record: Record,
    changes: Iterable[str] = (),
    licence: str = "",
    wanted: Mapping[str, Any] | None = None,
    chosen: Iterable[str] = (),
) -> str:
    """Return a frozen record as JSON; see `frozen`."""
    told = frozen(record, changes, licence, wanted, chosen)
    return json.dumps(told, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def thawed(text: str) -> Plain:
    """Return a frozen record of its JSON; raises ShelfDamaged when it is none."""
    try:
        given = json.loads(text)
    except (ValueError, RecursionError):
        given = None
    if not isinstance(given, dict) or given.get("format") != FORMAT:
        raise ShelfDamaged(
            "The record of a published revision cannot be read.",
            "Go on with a copy of the shelf from before.",
        )
    return given


def _lineup(record: Record) -> Plain:
    """Return the plan's fields as label and text, and what is asked as labels."""
    lineup = record.lineup
    conditions = plain(lineup.conditions) or {}
    fields = {
        "Name": lineup.name,
        LINEUP_FIELDS["question"]: lineup.question,
        "Reviewer": lineup.reviewer,
        "Rehearsal": _yes_no(lineup.rehearsal),
        LINEUP_FIELDS["sequence"]: f"{record.sequence.label}, version {record.sequence.version}",
        LINEUP_FIELDS["balanced"]: _yes_no(lineup.balanced),
        "Order on the bench": ", ".join(s.nickname for s in lineup.specimens),
        **{f"Stated condition, {_spaced(k)}": str(v) for k, v in conditions.items()},
    }
    return {"fields": fields, "asked": [label_of(record, key) for key in lineup.attributes]}


def _specimen(told: Plain) -> Plain:
    fields = {
        SPECIMEN_FIELDS.get(key, _spaced(key)): "" if value is None else str(value)
        for key, value in told.items()
        if key not in ("id", "nickname")
    }
    return {"id": told["id"], "name": told["nickname"], "fields": fields}


def _instrument(instrument: Instrument) -> Plain:
    fields = {
        _spaced(key): "" if value is None else str(value)
        for key, value in plain(instrument).items()
        if key not in ("id", "name")
    }
    return {"id": instrument.id, "name": instrument.name, "fields": fields}


def _readings(record: Record) -> list[Plain]:
    stands = {r.id for r in standing(list(record.readings))}
    names = _names(record)
    return [
        {
            "id": r.id,
            "subject": r.attribute,
            "label": label_of(record, r.attribute),
            "specimen_id": r.specimen_id,
            "specimen": names.get(r.specimen_id, ""),
            "ordinal": r.ordinal,
            "text": value_said(record, r) + (IN_DOUBT if r.id in record.in_doubt else ""),
            "at": plain(r.at),
            "reason": r.reason,
            "supersedes": r.supersedes,
            "withdrawn": r.withdrawn,
            "stands": r.id in stands,
        }
        for r in record.readings
    ]


def _values(record: Record) -> list[Plain]:
    """Return every finding and figure in the words in which it is printed, in metric units."""
    names = _names(record)
    found = []
    counted = {place: len(one.readings) for place, one in record.findings.items()}
    counted |= {place: len(one.readings) for place, one in record.figures.items()}
    for (key, specimen_id), readings in counted.items():
        found.append(
            {
                "key": key,
                "kind": "figure" if (key, specimen_id) in record.figures else "finding",
                "label": label_of(record, key),
                "specimen_id": specimen_id,
                "specimen": names.get(specimen_id, ""),
                "text": value_text(record, key, specimen_id),
                "readings": readings,
            }
        )
    return found


def _score(record: Record, score: Score) -> Plain:
    text = "not judged"
    if score.value is not None and score.low is not None and score.high is not None:
        text = f"{score.value:.1f} ({score.low:.1f} to {score.high:.1f}) of 10"
    return {
        "key": f"score of {score.component.value}",
        "kind": "score",
        "label": f"{_titled(score.component)} score",
        "specimen_id": score.specimen_id,
        "specimen": _names(record).get(score.specimen_id, ""),
        "text": text,
        "readings": 0,
    }


def _award(record: Record, award: Award) -> Plain:
    names = _names(record)
    text = _won(award.kind, [names.get(one, one) for one in award.winners])
    by_hand = record.overrulings.get(award.component)
    if by_hand is not None and by_hand.kind is not None:
        said = _won(by_hand.kind, [names.get(one, one) for one in by_hand.winners])
        text += f"; the reviewer says {said}: {by_hand.reason}"
    return {
        "component": award.component.value,
        "label": f"{_titled(award.component)} award",
        "text": text,
        "reason": award.reason,
        "hand": hand_story(record, award.component),
    }


def _won(kind: AwardKind, names: list[str]) -> str:
    """Return "Cobalt", "joint winners: Amber, Moss", or the award's word."""
    if kind is AwardKind.WINNER and len(names) == 1:
        return names[0]
    return f"{kind.value}: {', '.join(names)}" if kind is AwardKind.JOINT_WINNERS else kind.value


def _rules(record: Record) -> Plain:
    told = {**plain(plain_rules(record.rules)), "version": set_version(record.rules)}
    entries = {
        entry.pop("subject"): {_spaced(key): value for key, value in entry.items()}
        for entry in told.pop("entries")
    }
    return {
        "fields": {_spaced(key): value for key, value in told.items()},
        "entries": [
            {"subject": subject, "label": label_of(record, subject), "fields": fields}
            for subject, fields in entries.items()
        ],
        "locks": [{"at": plain(k.at), "reason": k.reason} for k in record.locks],
    }


def _purpose(record: Record) -> Plain:
    """Return what was declared and taken back, and the ranks under what stands, in words."""
    rows = ranks_told(record, record.declared.ranking).rows if record.declared else ()
    return {
        "story": list(declared_story(record.declarations)),
        "ranks": [
            {"specimen_id": r.specimen_id, "specimen": r.nickname, "text": ranks_in_words(r.shares)}
            for r in rows
        ],
    }


def _remarks(record: Record) -> list[Plain]:
    names = _names(record)
    return [
        {
            "name": ", ".join(filter(None, (component, names.get(specimen_id, "")))),
            "text": remark.text,
        }
        for (component, specimen_id), remark in record.remarks.items()
    ]


def _photos(record: Record) -> list[Plain]:
    """Return every photo but those of the media, which stand among the pictures."""
    names, others = _names(record), picture_photos(record)
    return [
        {
            "id": photo.id,
            "name": ", ".join(filter(None, (photo.station, names.get(photo.specimen_id, "")))),
            "caption": photo.caption,
        }
        for photo in record.photos
        if photo.id not in others
    ]


def _checks(record: Record) -> list[Plain]:
    tools = {tool.id: tool.name for tool in record.instruments}
    return [
        {
            "id": check.id,
            "name": f"{tools.get(check.instrument_id, 'instrument')}, {check.moment.value}",
            "text": f"{check.said.text} for {check.known:g}",
        }
        for check in record.checks
    ]


def _names(record: Record) -> dict[str, str]:
    return {one.id: one.nickname for one in record.lineup.specimens}


def _titled(component: Component) -> str:
    return component.value[:1].upper() + component.value[1:]


def _spaced(key: str) -> str:
    return key.replace("_", " ")


def _yes_no(value: bool) -> str:
    return "yes" if value else "no"
