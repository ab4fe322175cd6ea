"""Records of every kind, as they may come from a bench: for tests by property.

The ids that tie records together are arguments, so that a test can build a whole that holds.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

from hypothesis import strategies as st

from benchlog.measure.check import Check, CheckMoment, GroupCorrection, Remedy
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.reading import Reading, Said, Source
from benchlog.measure.state import State
from benchlog.tasks.ports import Moment, Photo, Place, Remark
from benchlog.trade.component import Component
from benchlog.trade.conditions import Conditions
from benchlog.trade.specimen import Lineup, Paid, Shape, Specimen

words = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
names = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=20)
ids = st.uuids(version=4).map(lambda one: one.hex)
zones = st.one_of(
    st.just(UTC), st.integers(-14 * 60, 14 * 60).map(lambda m: timezone(timedelta(minutes=m)))
)
times = st.datetimes(datetime(2000, 1, 2), datetime(2099, 12, 30), timezones=zones)
numbers = st.floats(allow_nan=False, allow_infinity=False)
amounts = st.floats(0, 1e6, allow_nan=False)
seconds = st.floats(0, 1e6, allow_nan=False)
decimals = st.decimals(allow_nan=False, allow_infinity=False)
units = st.sampled_from(["inch", "millimeter", "gram", "pound_per_square_inch", ""])
marks = st.text("abcdefghij_", min_size=1, max_size=12)


@st.composite
def saids(draw: st.DrawFn) -> Said:
    """A number as said, alone or with its interval."""
    low = high = None
    value = draw(decimals)
    if draw(st.booleans()):
        low, high = sorted((draw(decimals), draw(decimals)))
    return Said(draw(words), value, draw(units), low, high, draw(st.booleans()))


@st.composite
def readings(
    draw: st.DrawFn,
    lineup_id: str = "lineup",
    specimen_ids: tuple[str, ...] = ("specimen",),
    instrument_ids: tuple[str, ...] = (),
    supersedes: str | None = None,
    groups: tuple[str, ...] = (),
) -> Reading:
    """One reading; a value stands behind it exactly when its state has one."""
    state = draw(st.sampled_from(State))
    said, word = None, None
    if state.has_value and draw(st.booleans()):
        said = draw(saids())
    elif state.has_value:
        word = draw(words)
    si = st.none() if said is None else st.one_of(st.none(), numbers)
    return Reading(
        id=draw(ids),
        lineup_id=lineup_id,
        specimen_id=draw(st.sampled_from(specimen_ids)),
        attribute=draw(marks),
        ordinal=draw(st.integers(1, 99)),
        state=state,
        text=draw(words),
        at=draw(times),
        session_s=draw(seconds),
        source=draw(st.sampled_from(Source)),
        said=said,
        word=word,
        si_value=draw(si),
        si_low=draw(si),
        si_high=draw(si),
        si_unit=draw(units),
        instrument_id=draw(st.sampled_from((None, *instrument_ids))),
        raw=draw(st.none() | st.binary(max_size=40)),
        reason=draw(words),
        supersedes=supersedes,
        withdrawn=supersedes is not None and draw(st.booleans()),
        group=draw(st.sampled_from(("", *groups))),
        blind=draw(st.booleans()),
    )


specimens = st.builds(
    Specimen,
    id=ids,
    nickname=names,
    shape=st.sampled_from(Shape),
    colour=st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}"),
    maker=words,
    part_number=words,
    lot=words,
    origin_box=words,
    origin_can=words,
    origin_inferred=words,
    paid=st.sampled_from(Paid),
    giver=words,
    price=st.none() | decimals,
    currency=st.sampled_from(["", "EUR", "GBP", "USD"]),
    bought_on=words,
    note=words,
)

conditions = st.builds(
    Conditions,
    flow_l_min=amounts,
    oil_grade=words,
    oil_v40=amounts,
    oil_v100=amounts,
    oil_density_kg_m3=amounts,
    oil_temperature_c=numbers,
    can_pressure_kpa=amounts,
    km_per_year=amounts,
)

lineups = st.builds(
    Lineup,
    id=ids,
    name=names,
    question=words,
    sequence=marks,
    rules=marks,
    created_at=times,
    specimens=st.lists(specimens, min_size=1, max_size=6, unique_by=lambda one: one.id).map(tuple),
    attributes=st.lists(marks, unique=True, max_size=8).map(tuple),
    reviewer=words,
    rehearsal=st.booleans(),
    conditions=st.none() | conditions,
    balanced=st.booleans(),
)

instruments = st.builds(
    Instrument,
    id=ids,
    name=names,
    kind=st.sampled_from(InstrumentKind),
    unit=units,
    resolution=amounts,
    permissible_error=amounts,
    contact_pressure_kpa=st.none() | amounts,
    note=words,
    accuracy_class=st.sampled_from(["", "II", "III"]),
    verification_interval=amounts,
)


def checks(
    lineup_id: str, instrument_ids: tuple[str, ...], reading_ids: tuple[str, ...] = ()
) -> st.SearchStrategy[Check]:
    """Checks of instruments in one line-up, before the first reading or after a known one."""
    return st.builds(
        Check,
        id=ids,
        lineup_id=st.just(lineup_id),
        instrument_id=st.sampled_from(instrument_ids),
        moment=st.sampled_from(CheckMoment),
        known=numbers,
        tolerance=amounts,
        said=saids(),
        at=times,
        session_s=seconds,
        after=st.sampled_from(("", *reading_ids)),
        standard=words,
        note=words,
    )


def group_corrections(check: Check) -> st.SearchStrategy[GroupCorrection]:
    """Corrections of the group that a check closed."""
    return st.builds(
        GroupCorrection,
        id=ids,
        lineup_id=st.just(check.lineup_id),
        instrument_id=st.just(check.instrument_id),
        check_id=st.just(check.id),
        remedy=st.sampled_from(Remedy),
        shift=numbers,
        reason=words,
        at=times,
    )


def moments(lineup_id: str = "lineup") -> st.SearchStrategy[Moment]:
    """Flagged moments of one line-up."""
    return st.builds(
        Moment, id=ids, lineup_id=st.just(lineup_id), at=times, session_s=seconds, label=words
    )


def remarks(
    lineup_id: str = "lineup", specimen_ids: tuple[str, ...] = ("specimen",)
) -> st.SearchStrategy[Remark]:
    """Remarks on one line-up, some on the comparison as a whole."""
    return st.builds(
        Remark,
        id=ids,
        lineup_id=st.just(lineup_id),
        component=st.sampled_from(Component).map(str),
        specimen_id=st.sampled_from(("", *specimen_ids)),
        text=words,
        at=times,
    )


def photos(
    photo_id: str, lineup_id: str = "lineup", specimen_ids: tuple[str, ...] = ("specimen",)
) -> st.SearchStrategy[Photo]:
    """Records of one picture in one line-up."""
    return st.builds(
        Photo,
        id=st.just(photo_id),
        lineup_id=st.just(lineup_id),
        specimen_id=st.sampled_from(("", *specimen_ids)),
        station=marks,
        name=words,
        media_type=st.sampled_from(["image/jpeg", "image/png", "image/x-unknown"]),
        width=st.integers(1, 20_000),
        height=st.integers(1, 20_000),
        at=times,
        caption=words,
    )


def places(
    lineup_id: str = "lineup", specimen_ids: tuple[str, ...] = ("specimen",)
) -> st.SearchStrategy[Place]:
    """Places of the bench in one line-up."""
    return st.builds(
        Place,
        lineup_id=st.just(lineup_id),
        station=marks,
        attribute=marks,
        specimen_id=st.sampled_from(specimen_ids),
        by_specimen=st.booleans(),
        half_typed=words,
        passed=st.lists(marks, max_size=3).map(tuple),
        tools=st.lists(st.tuples(marks, words), max_size=3).map(tuple),
    )
