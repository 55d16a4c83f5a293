"""What an earlier build found out of all firings is taken up where it holds, and found out again where it does not."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from builder.archive.archive import Archive, Record, gather
from builder.archive.conditions import ChanceQuestion, CountQuestion, Tried
from builder.archive.findings import Findings, find_out
from builder.archive.soaking import SoakingQuestion
from builder.archive.windows import WindowQuestion
from builder.base.quantity import Quantity
from builder.heat.figures import Figure, FiringHeat, ProbeHeat
from builder.kept.store import Store, kept
from builder.own_pages import findings_of
from builder.ware.outcome import judge
from builder.whole import Whole
from tests.simulation.archive_maker import SETTINGS, Truth, make_records

RECORDS = [
    replace(record, firing=replace(record.firing, ware=("jar", "cup")[record.number % 2]))
    for record in make_records(Truth(), 40, 7)
]

SOUND = replace(
    SETTINGS, methods={key: replace(one, success={"survival": ("sound",)}) for key, one in SETTINGS.methods.items()}
)


def _whole(archive: Archive) -> Whole:
    # Without outlines nothing is kept but what has a question of its own.
    return Whole(archive, None, SETTINGS, {}, (), {}, False)


def _hotter(number: int) -> Archive:
    """The archive with another peak of one firing."""
    peak = FiringHeat((ProbeHeat("wall", {"peak_c": Figure(777.0, 767.0, 787.0)}),), 0)
    return gather([replace(one, heat=peak) if one.number == number else one for one in RECORDS], SETTINGS)


def _same_windows(first: Findings, second: Findings) -> bool:
    def told(found: Findings) -> list[tuple[object, ...]]:
        windows = [*found.windows.items(), *found.ware_windows.items()]
        return [(name, one.finding, one.low, one.high, one.tried_c, one.works.tobytes()) for name, one in windows]

    return told(first) == told(second) and first.soakings == second.soakings


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The questions that were answered anew, by kind."""
    found: list[str] = []
    for kind in (WindowQuestion, SoakingQuestion, ChanceQuestion, CountQuestion):
        real = kind.answer

        def answer(self: object, real: object = real, name: str = kind.__name__) -> object:
            found.append(name)
            return real(self)  # type: ignore[operator]

        monkeypatch.setattr(kind, "answer", answer)
    return found


def _found(folder: Path, archive: Archive) -> Findings:
    with kept(folder, "1") as store:
        return findings_of(_whole(archive), store)


def test_only_the_windows_that_a_changed_firing_belongs_to_are_found_anew(tmp_path: Path, asked: list[str]) -> None:
    """Of two methods and two wares the changed firing has one of each; its method's minutes are compared anew too."""
    before, after = gather(RECORDS, SETTINGS), _hotter(3)
    _found(tmp_path, before)
    assert asked.count("WindowQuestion") == 4
    asked.clear()
    found = _found(tmp_path, after)
    assert asked.count("WindowQuestion") == 2
    assert _same_windows(found, find_out(after, SETTINGS))
    assert not _same_windows(found, find_out(before, SETTINGS))


def _sound_only(*changed: Record) -> Archive:
    """The archive, some of its records changed, judged by what has no window, which takes long to find."""
    by_number = {record.number: record for record in (*RECORDS, *changed)}
    records = []
    for record in by_number.values():
        pieces = tuple(judge(judged.piece, SOUND.methods["first"], record.firing.painted) for judged in record.pieces)
        records.append(replace(record, pieces=pieces))
    return gather(records, SOUND)


def _tried(folder: Path, archive: Archive) -> tuple[Tried, ...]:
    with kept(folder, "1") as store:
        return findings_of(replace(_whole(archive), settings=SOUND), store).tried


def _burnt(record: Record) -> Record:
    return replace(
        record, pieces=tuple(replace(one, piece=replace(one.piece, survival="broken")) for one in record.pieces)
    )


def _thinner(record: Record) -> Record:
    assert "clay.wall" in record.firing.conditions
    thin = Quantity("1 mm", "length", 1.0, "mm", 1.0, 1.0, 1.0)
    return replace(record, firing=replace(record.firing, conditions={**record.firing.conditions, "clay.wall": thin}))


def test_of_the_conditions_only_those_are_tried_anew_that_are_others(tmp_path: Path, asked: list[str]) -> None:
    """A wall is tried together with what the same firings recorded; losses change all."""
    _tried(tmp_path, _sound_only())
    together, counted = asked.count("ChanceQuestion"), asked.count("CountQuestion")
    for change, chances, counts in ((_thinner, 1, 1), (_burnt, together, counted)):
        _tried(tmp_path, _sound_only())
        asked.clear()
        after = _sound_only(change(RECORDS[2]))
        found = _tried(tmp_path, after)
        assert (asked.count("ChanceQuestion"), asked.count("CountQuestion")) == (chances, counts)
        assert found == find_out(after, SOUND).tried != find_out(_sound_only(), SOUND).tried
    assert together > 1


def test_an_effect_at_another_correlation_is_another(tmp_path: Path, asked: list[str]) -> None:
    before = _sound_only()
    after = replace(before, correlation=before.correlation / 2)
    found = _tried(tmp_path, before)
    asked.clear()
    renewed = _tried(tmp_path, after)
    assert (asked.count("ChanceQuestion"), asked.count("CountQuestion")) == (0, len(found))
    assert renewed == find_out(after, SOUND).tried != found


def test_another_level_is_another_question(tmp_path: Path, asked: list[str]) -> None:
    archive = gather(RECORDS, SETTINGS)
    _found(tmp_path, archive)
    asked.clear()
    stricter = replace(SETTINGS, window_level=0.8)
    with kept(tmp_path, "1") as store:
        found = findings_of(replace(_whole(archive), settings=stricter), store)
    assert asked.count("WindowQuestion") == 4
    assert _same_windows(found, find_out(archive, stricter))


def test_what_an_answer_is_kept_as_is_the_answer(tmp_path: Path, asked: list[str]) -> None:
    archive = gather(RECORDS, SETTINGS)
    first = _found(tmp_path, archive)
    asked.clear()
    second = _found(tmp_path, archive)
    assert "WindowQuestion" not in asked
    assert _same_windows(first, second)
    assert np.array_equal(first.windows["first"].grid_c, second.windows["first"].grid_c)


def test_a_window_that_no_firing_tells_of_any_more_is_no_longer_kept(tmp_path: Path) -> None:
    archive = gather(RECORDS, SETTINGS)
    _found(tmp_path, archive)
    cups = gather([one for one in RECORDS if one.firing.ware == "cup"], SETTINGS)
    _found(tmp_path, cups)
    with kept(tmp_path, "1") as store:
        assert _names(store) == {"cup"}


def _names(store: Store) -> set[str]:
    return set(store.shelf("ware windows"))
