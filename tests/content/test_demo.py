"""The demo archive keeps its promises: potters, methods, losses, shapes of readings, and nothing for `check` to find.

The numbers are what the project asks of its demo, not counts of what happens to lie there.
"""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from builder.checks.check import check_entry
from builder.checks.firing import Firing, Piece
from builder.entries.find import find_entries
from builder.settings import Settings
from builder.settings_file import load_settings
from builder.ware.outcome import Verdict, judge

PROJECT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def settings() -> Settings:
    found, problems = load_settings(PROJECT)
    assert problems == ()
    assert found is not None
    return found


@pytest.fixture(scope="module")
def firings(settings: Settings) -> tuple[Firing, ...]:
    entries, _ = find_entries(PROJECT)
    checked = [check_entry(entry, settings).firing for entry in entries]
    return tuple(firing for firing in checked if firing is not None)


def pieces(firings: tuple[Firing, ...]) -> list[Piece]:
    return [piece for firing in firings for piece in firing.pieces for _ in range(piece.count)]


def heat_bound(firing: Firing) -> list[Piece]:
    """The painted pieces of one firing whose carbon and paint were both written down."""
    return [piece for piece in firing.pieces if firing.painted and piece.carbon and piece.paint not in {None, "none"}]


def test_check_finds_nothing_at_all_in_the_demo(settings: Settings) -> None:
    entries, problems = find_entries(PROJECT)
    told = [*problems, *(problem for entry in entries for problem in check_entry(entry, settings).problems)]
    assert told == []


def test_every_entry_becomes_a_firing(firings: tuple[Firing, ...]) -> None:
    assert len(firings) == len(list((PROJECT / "content" / "firings").iterdir()))


def test_the_archive_is_large_enough_to_browse_and_to_count(firings: tuple[Firing, ...], settings: Settings) -> None:
    assert len(firings) >= 36
    assert len({firing.potter for firing in firings}) >= 6
    assert {firing.potter for firing in firings} == set(settings.potters)
    assert len({firing.method for firing in firings}) >= 4
    assert {method.kind for method in settings.methods.values()} == {"ground", "pit", "trench", "kiln"}


def test_the_firings_span_two_years_and_more_and_end_before_the_writing(firings: tuple[Firing, ...]) -> None:
    days = sorted(firing.date for firing in firings)
    assert (days[-1] - days[0]).days > 2 * 365
    assert {day.year for day in days} == {2024, 2025, 2026}
    assert days[-1] < date(2026, 11, 20)


def test_every_folder_is_named_for_its_day(firings: tuple[Firing, ...]) -> None:
    assert [firing.slug for firing in firings if not firing.slug.startswith(f"{firing.date:%Y-%m-%d}-")] == []


def test_about_a_quarter_of_the_pieces_are_lost(firings: tuple[Firing, ...]) -> None:
    survival = Counter(piece.survival for piece in pieces(firings))
    assert 0.18 < 1 - survival["sound"] / survival.total() < 0.32
    assert set(survival) == {"sound", "cracked", "spalled", "broken"}


def test_painted_pale_ware_fails_both_by_too_little_and_by_too_much_heat(firings: tuple[Firing, ...]) -> None:
    painted = [piece for firing in firings for piece in heat_bound(firing)]
    too_cool = [piece for piece in painted if piece.carbon != "cleared" and piece.paint == "held"]
    too_hot = [piece for piece in painted if piece.carbon == "cleared" and piece.paint in {"faded", "burnt off"}]
    both_right = [piece for piece in painted if piece.carbon == "cleared" and piece.paint == "held"]
    assert len(too_cool) >= 8
    assert len(too_hot) >= 8
    assert len(both_right) > len(too_cool)


def test_one_person_tries_one_jar_at_least_eight_times_and_mostly_fails(
    firings: tuple[Firing, ...], settings: Settings
) -> None:
    attempts = [firing for firing in firings if firing.ware == "pale jar" and firing.potter == "wren"]
    jars = [(firing, piece) for firing in attempts for piece in firing.pieces if piece.name == "jar"]
    verdicts = [judge(piece, settings.methods[firing.method], firing.painted).success for firing, piece in jars]
    faults = {(piece.survival, piece.carbon, piece.paint, piece.remark) for _, piece in jars}
    assert len(attempts) >= 8
    assert verdicts.count(Verdict.NO) >= 6
    assert Verdict.YES in verdicts
    assert len(faults) >= len(jars) - 1, "each attempt has another fault; only the successes are alike"


def test_some_pieces_cannot_be_judged_because_nobody_wrote_down_how_they_came_out(
    firings: tuple[Firing, ...], settings: Settings
) -> None:
    verdicts = Counter(
        judge(piece, settings.methods[firing.method], firing.painted).success
        for firing in firings
        for piece in firing.pieces
    )
    assert verdicts[Verdict.UNJUDGED] >= 2
    assert verdicts[Verdict.YES] > 10
    assert verdicts[Verdict.NO] > 10


def test_readings_come_by_hand_from_files_and_not_at_all(firings: tuple[Firing, ...]) -> None:
    by_hand = [firing for firing in firings if firing.readings and firing.readings.rows]
    logged = [firing for firing in firings if firing.readings and firing.readings.file]
    none = [firing for firing in firings if firing.readings is None]
    assert min(len(by_hand), len(logged), len(none)) >= 6


def test_logs_come_in_every_shape_that_a_logger_writes() -> None:
    logs = [
        path.read_text(encoding="utf-8")
        for path in sorted((PROJECT / "content" / "firings").glob("*/*"))
        if path.suffix in {".csv", ".txt"}
    ]
    assert any(log.startswith("\ufeff") for log in logs), "a byte-order mark"
    assert any("\t" in log for log in logs), "tabs"
    assert any(";" in log and "," in log for log in logs), "semicolons with decimal commas"
    assert any(log[:4].isdigit() for log in logs), "no header row"
    assert any("Temp F" in log for log in logs), "degrees Fahrenheit"
    assert any("mV" in log for log in logs), "millivolts"
    assert any("nan" in log for log in logs), "not a number"
    assert any(",\n" in log for log in logs), "blank cells"
    assert any("1371.75" in log for log in logs), "one impossible spike"
    assert any(log.count("\t800.0\t") >= 5 for log in logs), "a probe that topped out"


def test_probes_are_single_and_several_thermocouples_and_spot_thermometers(firings: tuple[Firing, ...]) -> None:
    probes = [firing.readings.probes for firing in firings if firing.readings]
    assert {len(some) for some in probes} >= {1, 2, 3}
    instruments = {probe.instrument for some in probes for probe in some}
    assert instruments >= {"thermocouple", "spot thermometer", None}
    assert any(probe.unit == "mV" and probe.cold_junction for some in probes for probe in some)
    assert any(probe.emissivity and probe.emissivity_set for some in probes for probe in some)


def test_entries_are_of_every_length(firings: tuple[Firing, ...]) -> None:
    words = sorted(len(firing.story.split()) for firing in firings)
    assert words[0] <= 15
    assert words[-1] >= 200
    conditions = sorted(len(firing.conditions) for firing in firings)
    assert conditions[0] <= 2
    assert conditions[-1] >= 20


def test_no_two_entries_tell_the_same_story_or_carry_the_same_title(firings: tuple[Firing, ...]) -> None:
    assert len({firing.title for firing in firings}) == len(firings)
    paragraphs = [line for firing in firings for line in firing.story.split("\n\n") if len(line) > 60]
    assert len(paragraphs) == len(set(paragraphs))


def test_about_a_third_of_the_entries_have_a_picture_with_words_for_those_who_cannot_see_it(
    firings: tuple[Firing, ...],
) -> None:
    pictured = [firing for firing in firings if firing.photos]
    assert 0.25 < len(pictured) / len(firings) < 0.45
    assert all(len(photo.alt) > 30 for firing in pictured for photo in firing.photos)


def test_the_site_says_that_the_archive_is_invented(settings: Settings) -> None:
    assert "invented" in settings.group.notice
    about = (PROJECT / "content" / "pages" / "about.md").read_text(encoding="utf-8")
    assert "Everything in this archive is invented" in about
