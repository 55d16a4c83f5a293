"""Firings held packed: nothing is lost, and nothing is unpacked before it is asked for."""

from __future__ import annotations

import pickle
from dataclasses import fields, replace

import pytest

from builder.archive import parcels
from builder.archive.archive import Record
from builder.archive.parcels import Measured, PackedRecord, Parcel, parcel
from builder.checks.firing import RawReadings
from builder.heat.figures import FIGURE_KINDS, FiringHeat
from builder.kept.digest import digest
from builder.kept.packed import packed, unpacked
from tests.exports.example import archive

WRITTEN = RawReadings(time="elapsed", lit=None, probes=(), ware_probe="wall", rows=((9, "0:00 20 °C"),))
FULL = archive().records[0]
WHOLE = replace(FULL, firing=replace(FULL.firing, readings=WRITTEN), sketch="<svg/>")


def _parcel(record: Record = WHOLE) -> Parcel:
    return parcel(Measured(record.firing, record.curves, record.heat, record.pieces), record.sketch)


def test_a_parcel_opened_holds_what_was_put_in() -> None:
    found = unpacked(packed(_parcel())).opened()
    assert digest(found.firing, found.curves.events, found.heat, found.pieces) == digest(
        WHOLE.firing, WHOLE.curves.events, WHOLE.heat, WHOLE.pieces
    )
    assert [one.celsius.tolist() for one in found.curves.curves] == [
        one.celsius.tolist() for one in WHOLE.curves.curves
    ]


def test_another_story_has_the_same_outline_and_anything_else_another() -> None:
    other = _parcel(replace(WHOLE, firing=replace(WHOLE.firing, story="We lit it at ten.")))
    assert other.outline == _parcel().outline
    changed = (
        replace(WHOLE, firing=replace(WHOLE.firing, title="Another jar")),
        replace(WHOLE, firing=replace(WHOLE.firing, readings=replace(WRITTEN, rows=((9, "0:00 21 °C"),)))),
        replace(WHOLE, pieces=WHOLE.pieces[:1]),
        replace(WHOLE, heat=FiringHeat(WHOLE.heat.probes, None)),
        replace(WHOLE, curves=replace(WHOLE.curves, ware=None)),
    )
    assert len({_parcel(one).outline for one in (WHOLE, *changed)}) == len(changed) + 1


def test_a_packed_record_gives_what_a_plain_one_gives_but_for_the_story_and_the_readings_as_written() -> None:
    kept = PackedRecord(1, _parcel())
    assert (kept.number, kept.slug, kept.title, kept.date) == (1, WHOLE.slug, WHOLE.title, WHOLE.date)
    assert kept.firing == replace(WHOLE.firing, story="", readings=None)
    assert (kept.heat, kept.pieces, kept.sketch) == (WHOLE.heat, WHOLE.pieces, "<svg/>")
    opened = kept.opened()
    assert opened.firing == WHOLE.firing
    assert (opened.firing.story, opened.firing.readings) == ("<b>story</b>", WRITTEN)
    assert {type(getattr(kept, field.name)) for field in fields(Record)} == {
        type(getattr(WHOLE, field.name)) for field in fields(Record)
    }


def test_facts_are_unpacked_once_and_not_by_those_who_ask_for_name_and_day(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[bytes] = []

    def counted(content: bytes) -> object:
        asked.append(content)
        return unpacked(content)

    monkeypatch.setattr(parcels, "unpacked", counted)
    kept = PackedRecord(1, _parcel())
    assert [kept.slug, kept.title, kept.date, kept.sketch] and asked == []
    assert kept.firing is kept.firing and kept.pieces
    assert len(asked) == 1
    assert kept.figure("peak_c") and kept.figure("soak_min") and kept.figure("unheard_of") is None
    assert len(asked) == 2
    assert kept.apart().firing == kept.firing
    assert len(asked) == 3


def test_a_figure_is_that_of_the_probe_that_stands_for_the_ware() -> None:
    for record in (WHOLE, replace(WHOLE, heat=FiringHeat((), None))):
        kept = PackedRecord(1, _parcel(record))
        for kind in FIGURE_KINDS:
            assert kept.figure(kind.name) == record.figure(kind.name) == record.heat.ware_figures.get(kind.name)


def test_a_packed_record_goes_to_another_process() -> None:
    kept = PackedRecord(1, _parcel())
    assert kept.firing
    sent = pickle.loads(pickle.dumps(kept))
    assert (sent.number, sent.slug, sent.firing) == (1, kept.slug, kept.firing)
