"""Walk the sample line-up through the same verbs that the bench uses."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

from benchlog.errors import AskAgain, OurFault
from benchlog.measure.check import CheckMoment
from benchlog.measure.entry import parse_entry
from benchlog.measure.reading import Source
from benchlog.measure.state import State
from benchlog.tasks.answer import understand
from benchlog.tasks.checks import brackets_of, check_instrument
from benchlog.tasks.fields import STATION as MICROSCOPE
from benchlog.tasks.group_correct import correct_group
from benchlog.tasks.lock import lock_rules, rules_in_force
from benchlog.tasks.photos import add_photo
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.tasks.ports import Capture, Clock, Progress, ScaleState, ScriptedScale, Shelf, Weight
from benchlog.tasks.remark import say
from benchlog.tasks.sample import Sample, picture_of
from benchlog.tasks.sample_media import rehearse_media
from benchlog.tasks.slots import round_of
from benchlog.tasks.walk import Teardown
from benchlog.trade.attribute import Attribute, Kind, Sequence
from benchlog.trade.specimen import Lineup

ScaleMaker = Callable[[Decimal, str], ScriptedScale]
"""Makes a scale that will weigh one load of so many of a unit."""


class _Nobody:
    """Listens to a scripted scale whose weights are taken from `play_one` instead."""

    def scale_line(self, weight: Weight, capture: Capture) -> None:
        """Lines before the catch need nothing here."""

    def scale_caught(self, weight: Weight) -> None:
        """`play_one` returns it."""

    def scale_garbage(self, raw: bytes, why: str) -> None:
        """Refuse: a script plays no garbage."""
        raise OurFault(f"the rehearsal scale sent {raw!r}: {why}")

    def scale_state(self, state: ScaleState, detail: str) -> None:
        """Connecting and closing need nothing here."""


def plan_rehearsal(
    shelf: Shelf, clock: Clock, sequence: Sequence, sample: Sample
) -> tuple[Lineup, dict[str, str]]:
    """Put the sample's line-up and instruments on the shelf, nothing recorded yet."""
    for tool in sample.tools().values():
        shelf.save_instrument(tool)
    lineup, keys = sample.plan(clock, sequence)
    shelf.save_lineup(lineup)
    return lineup, keys


def rehearse(
    shelf: Shelf,
    clock: Clock,
    sequence: Sequence,
    sample: Sample,
    make_scale: ScaleMaker,
    progress: Progress,
    pictures: Path | None = None,
    *,
    put_right: bool = True,
    measurer: PictureMeasurer | None = None,
) -> str:
    """Lock the rules, walk the whole sample line-up, and return its id.

    Weights arrive from a scripted scale. One instrument fails its closing check; unless
    `put_right`, its readings stay in doubt. `pictures` is the resources folder, for tests. With a
    `measurer` the media are looked at through the microscope too. Raises ResourceFault when an
    answer of the sample cannot be taken.
    """
    lineup, keys = plan_rehearsal(shelf, clock, sequence, sample)
    lock_rules(shelf, clock, lineup.id, rules_in_force(shelf, lineup), sequence)
    teardown = Teardown(shelf, clock, sequence, lineup.id)
    total = teardown.view().missing
    for station in sequence.stations:
        teardown.go_to_station(station.key)
        if teardown.yes_wanted:
            teardown.say_yes()
            teardown.go_to_station(station.key)
        _check_tools(shelf, clock, teardown, sample, make_scale, CheckMoment.OPENING)
        _walk_station(teardown, sample, keys, make_scale, progress, total)
        teardown.go_to_station(station.key)
        _check_tools(shelf, clock, teardown, sample, make_scale, CheckMoment.CLOSING)
        if put_right:
            _put_right(shelf, clock, teardown, sample, station.key)
        _add_pictures(shelf, clock, lineup, keys, sample, station.key, pictures)
        if measurer is not None and station.key == MICROSCOPE and sample.set_up is not None:
            rehearse_media(
                shelf, clock, sequence, lineup, {key: one for one, key in keys.items()},
                sample.set_up, sample.micrographs, measurer, progress, pictures,
                session_s=teardown.session_s,
            )  # fmt: skip
            teardown.reload()
    for component, text in sample.remarks.items():
        say(shelf, clock, lineup.id, component, text)
    return lineup.id


def _walk_station(
    teardown: Teardown,
    sample: Sample,
    keys: dict[str, str],
    make_scale: ScaleMaker,
    progress: Progress,
    total: int,
) -> None:
    station = teardown.sequence.station(teardown.place.station)
    for slot in round_of(teardown.sequence, teardown.lineup, station.key, by_specimen=False):
        attribute = teardown.sequence.attribute(slot.attribute)
        answer = sample.answers.get(attribute.key)
        key = keys[slot.specimen_id]
        texts = answer.texts.get(key, ()) if answer else ()
        progress.step(total - teardown.view().missing, total, f"{station.label}: {attribute.label}")
        _take_tool(teardown, sample, attribute, answer.tool.get(key, "") if answer else "")
        for text in texts:
            teardown.go_to(slot.attribute, slot.specimen_id)
            _answer(teardown, attribute, text, make_scale)
        if not texts and attribute.kind is not Kind.TEXT:
            teardown.go_to(slot.attribute, slot.specimen_id)
            teardown.no_value(State.NOT_MEASURED, "not part of this rehearsal")


def _check_tools(
    shelf: Shelf,
    clock: Clock,
    teardown: Teardown,
    sample: Sample,
    make_scale: ScaleMaker,
    moment: CheckMoment,
) -> None:
    """Check every instrument whose bracket begins, or ends, at the station that is walked."""
    opening = moment is CheckMoment.OPENING
    for check in sample.checks:
        if (check.begins if opening else check.ends) != teardown.place.station:
            continue
        tool = sample.tools()[check.instrument]
        for standard, text in check.steps(moment, tool):
            given: str | Weight = text
            if standard.unit == "gram":
                said = parse_entry(text, tool.unit, "mass")
                given = _weighed(make_scale(said.value, said.unit))
            check_instrument(
                shelf,
                clock,
                teardown.lineup.id,
                tool.id,
                moment,
                given,
                standard,
                session_s=teardown.session_s,
            )


def _put_right(
    shelf: Shelf, clock: Clock, teardown: Teardown, sample: Sample, station: str
) -> None:
    """Do what the sample says with the readings that a closing check at a station spoke against."""
    remedies = {sample.tools()[c.instrument].id: c for c in sample.checks if c.ends == station}
    for bracket in brackets_of(shelf, teardown.lineup.id):
        check = remedies.get(bracket.instrument_id)
        if check is None or check.remedy is None or not bracket.in_doubt:
            continue
        correct_group(
            shelf,
            clock,
            teardown.lineup.id,
            bracket.failed[0].id,
            check.remedy,
            check.reason,
            session_s=teardown.session_s,
        )
        teardown.reload()


def _take_tool(teardown: Teardown, sample: Sample, attribute: Attribute, chosen: str) -> None:
    """Take the chosen instrument in hand, or the sample's first one of the usual kind."""
    tools = sample.tools()
    usual = next((k for k, t in tools.items() if t.kind.value == attribute.instrument), "")
    if chosen or usual:
        teardown.use_tool(tools[chosen or usual].id)


def _answer(teardown: Teardown, attribute: Attribute, text: str, make_scale: ScaleMaker) -> None:
    answer = understand(attribute, text, inch=False)
    try:
        if attribute.dimension == "mass" and answer.said is not None:
            weight = _weighed(make_scale(answer.said.value, answer.said.unit))
            teardown.accept_weight(weight, source=Source.REHEARSAL)
        elif not answer.state.has_value:
            teardown.no_value(answer.state)
        else:
            teardown.accept(text)
    except AskAgain:
        teardown.accept(text, sure=True, reason="as the sample has it")


def _weighed(scale: ScriptedScale) -> Weight:
    scale.start(_Nobody())
    caught = scale.play_one()
    scale.close()
    if caught is None:
        raise OurFault("the rehearsal scale settled on nothing")
    return caught


def _add_pictures(
    shelf: Shelf,
    clock: Clock,
    lineup: Lineup,
    keys: dict[str, str],
    sample: Sample,
    station: str,
    root: Path | None,
) -> None:
    for name, (at, caption) in sample.captions.items():
        if at != station:
            continue
        for specimen in lineup.specimens:
            path = picture_of(keys[specimen.id], name, root)
            if path.exists():
                add_photo(
                    shelf,
                    clock,
                    lineup.id,
                    specimen.id,
                    station,
                    path.name,
                    path.read_bytes(),
                    caption,
                )
