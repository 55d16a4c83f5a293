"""Whatever changes of a firing: a page whose draft tells the same as before is the same page, byte for byte."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest

from builder.archive.archive import Archive, Record, gather
from builder.archive.findings import find_out
from builder.archive.parcels import Measured, PackedRecord, parcel
from builder.base.problem import Problem
from builder.heat.figures import Figure, FiringHeat, ProbeHeat
from builder.kept.digest import digest
from builder.pages import firing_lines, list_columns, list_pages
from builder.pages.drafts import Draft
from builder.pages.list_columns import list_files, listed_firings
from builder.pages.site_pages import site_drafts
from builder.publish.site import Page
from builder.settings import Group, Potter, Settings, Source
from builder.ware.outcome import judge
from tests.pages.invented import CURVES
from tests.simulation.archive_maker import SETTINGS as PLAIN
from tests.simulation.archive_maker import Truth, make_records

SOURCE = Source("north", Settings(Group("The North"), {}, {"first": PLAIN.methods["first"]}), {"first": "first"})
SETTINGS = replace(
    PLAIN,
    group=replace(PLAIN.group, url="https://example.org/"),
    potters={key: Potter(key, key.upper()) for key in "abc"},
    sources={"north": SOURCE},
)
CHANGED = 12
"""Number of the firing that changes: neither among the first nor among the newest."""
Change = Callable[[Record], Record]


def _furnished(record: Record) -> Record:
    at = record.number
    conditions = {"clay.temper": (("chaff", "grog")[at % 2],), "fuel.wood": ("hazel",), **record.firing.conditions}
    firing = replace(
        record.firing,
        potter="abc"[at % 3],
        ware=("jar", "cup")[at % 2],
        place=("fen", "ford", None)[at % 3],
        source="north" if at % 4 == 0 else "",
        date=date(2024, 1, 1) + timedelta(days=30 * at),
        conditions=conditions,
    )
    return replace(record, firing=firing)


RECORDS = tuple(_furnished(record) for record in make_records(Truth(), 40, 7))


def _firing(**changes: object) -> Change:
    return lambda record: replace(record, firing=replace(record.firing, **changes))  # type: ignore[arg-type]


def _condition(path: str, value: tuple[str, ...]) -> Change:
    def changed(record: Record) -> Record:
        return replace(record, firing=replace(record.firing, conditions={**record.firing.conditions, path: value}))

    return changed


def _hotter(record: Record) -> Record:
    return replace(record, heat=FiringHeat((ProbeHeat("wall", {"peak_c": Figure(777.0, 767.0, 787.0)}),), 0))


def _all_lost(record: Record) -> Record:
    pieces = tuple(replace(judged.piece, survival="broken", carbon=None) for judged in record.pieces)
    firing = replace(record.firing, pieces=pieces)
    method = SETTINGS.methods[firing.method]
    return replace(record, firing=firing, pieces=tuple(judge(piece, method, firing.painted) for piece in pieces))


CHANGES: dict[str, Change] = {
    "nothing": lambda record: record,
    "peak": _hotter,
    "pieces": _all_lost,
    "curve": lambda record: replace(record, curves=CURVES),
    "title": _firing(title="Another"),
    "slug": _firing(slug="another"),
    "day": _firing(date=date(2021, 5, 4)),
    "potter": _firing(potter="c"),
    "helpers": _firing(helpers=("b",)),
    "place": _firing(place="weir"),
    "ware": _firing(ware="Bowl"),
    "group": _firing(source=""),
    "temper": _condition("clay.temper", ("grog", "shell")),
    "wood": _condition("fuel.wood", ("HAZEL", "ash")),
    "condition": _condition("fuel.form", ("split",)),
}


def _packed(records: Sequence[Record]) -> list[Record]:
    return [
        PackedRecord(number, parcel(Measured(one.firing, one.curves, one.heat, one.pieces), one.sketch))
        for number, one in enumerate(records, 1)
    ]


def _drafts(records: Sequence[Record], settings: Settings = SETTINGS) -> tuple[Draft, ...]:
    archive: Archive = gather(_packed(records), settings)
    listed = listed_firings(archive, settings)
    problems: tuple[Problem, ...] = ()
    pages = site_drafts(archive, settings, (), problems, {"cautions": "- Care."}, find_out(archive, settings), listed)
    return (*pages, *list_files(archive, settings, listed))


@pytest.fixture(autouse=True)
def small_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(list_pages, "PAGE_FIRINGS", 6)
    monkeypatch.setattr(list_columns, "CURVES_EACH", 5)
    monkeypatch.setattr(firing_lines, "MOST_LINES", 4)


@cache
def _before() -> dict[str, tuple[str, Page | bytes]]:
    return {draft.address: (digest(draft.seen), draft.make()) for draft in _drafts(RECORDS)}


def _same(drafts: Sequence[Draft]) -> set[str]:
    """Addresses of the drafts that tell the same as before, each of which is held to be the same page."""
    before, found = _before(), set()
    for draft in drafts:
        seen, made = before.get(draft.address, ("", b""))
        if digest(draft.seen) == seen:
            assert draft.make() == made, draft.address
            found.add(draft.address)
    return found


@pytest.mark.parametrize("what", CHANGES)
def test_what_tells_the_same_is_the_same_page(what: str) -> None:
    changed = [CHANGES[what](record) if record.number == CHANGED else record for record in RECORDS]
    same = _same(_drafts(changed))
    assert "fields" in same
    assert (same == set(_before())) == (what == "nothing")


@pytest.mark.parametrize("at", [0, CHANGED, len(RECORDS)])
def test_what_tells_the_same_is_the_same_page_where_a_firing_is_new_or_gone(at: int) -> None:
    new = replace(RECORDS[0], firing=replace(RECORDS[0].firing, slug="new", title="New"))
    _same(_drafts([*RECORDS[:at], new, *RECORDS[at:]]))
    _same(_drafts([*RECORDS[: at - 1], *RECORDS[at:]]))


def test_readings_change_no_page_of_which_their_firing_is_no_part() -> None:
    """Worked by hand: firing 12 is potter a's, with chaff and another slip, in the fen, in 2024, one of the north's."""
    changed = [_hotter(record) if record.number == CHANGED else record for record in RECORDS]
    other = set(_before()) - _same(_drafts(changed))
    assert RECORDS[CHANGED - 1].firing.method == "first"
    assert other == {
        *("index", "firings/index", "firings/list.js", "methods/index", "potters/index", "results", "conditions"),
        *("firings/numbers-7-12", "firings/curves-2.js", "methods/first", "potters/a", "groups/north"),
        *("materials/temper-chaff", "materials/slip-other", "materials/wood-hazel", "places/fen", "years/2024"),
    }
