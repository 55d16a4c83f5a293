"""Sentences about a firing: the one that says it all at the head of its page, and how its pots came out, in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from markupsafe import Markup, escape

from builder.archive.archive import Record
from builder.entries.fields import SURVIVAL
from builder.pages.addresses import method_page, place_page, potter_page, year_page
from builder.pages.numbers import NBSP, day_and_month, in_words, listed
from builder.settings import NOBODY, Potter, Settings
from builder.ware.outcome import JudgedPiece, Verdict

Naming = Callable[[str, str], Markup]
"""From a page and the words for it to HTML: a link on a page, the bare words elsewhere."""


def piece_count(pieces: Sequence[JudgedPiece], verdict: Verdict | None = None) -> int:
    """Count pieces, alike ones each for itself; with a verdict, only those that carry it."""
    return sum(judged.piece.count for judged in pieces if verdict is None or judged.success is verdict)


def potters_counted(records: Sequence[Record]) -> str:
    """Count who lit the fires; how many they are who are not named, nobody is told."""
    named = {record.firing.potter for record in records} - {NOBODY}
    if len(named) == len({record.firing.potter for record in records}):
        return _potters(len(named))
    return f"{_potters(len(named))} and others not named" if named else "potters who are not named"


def _potters(number: int) -> str:
    return f"{in_words(number)}{NBSP}potter{'' if number == 1 else 's'}"


def survival_counts(pieces: Sequence[JudgedPiece]) -> dict[str, int]:
    """Count pieces by how they came through, the list's own words first and in its order."""
    counts = dict.fromkeys(SURVIVAL, 0)
    for judged in pieces:
        counts[judged.piece.survival] = counts.get(judged.piece.survival, 0) + judged.piece.count
    return {word: count for word, count in counts.items() if count}


def outcome_words(pieces: Sequence[JudgedPiece]) -> str:
    """Say how the pieces came through, short: `8 sound, 2 cracked, 1 spalled`."""
    return ", ".join(f"{count} {word}" for word, count in survival_counts(pieces).items())


def lead_sentence(record: Record, settings: Settings, naming: Naming) -> Markup:
    """Say the whole firing in two or three sentences: when, who, how, what went in, what came out."""
    lit = _lit(record, settings, naming)
    return lit + Markup(" ") + _came_out(record.pieces) + Markup(" ") + _succeeded(record.pieces)


def description(record: Record, settings: Settings) -> str:
    """Say the same in plain text, for previews and search engines."""
    return str(lead_sentence(record, settings, lambda page, words: escape(words)).unescape())


def verdict_words(judged: JudgedPiece) -> str:
    """Say what the method's rule makes of one piece, and which outcome decided."""
    if judged.success is Verdict.YES:
        return "succeeded"
    wanted = Verdict.NO if judged.success is Verdict.NO else Verdict.UNJUDGED
    named = listed([outcome for outcome, verdict in judged.by_outcome.items() if verdict is wanted])
    if judged.success is Verdict.NO:
        return f"did not succeed: {named}" if named else "did not succeed"
    return f"not judged: {named} not recorded" if named else "not judged"


def _lit(record: Record, settings: Settings, naming: Naming) -> Markup:
    firing, method = record.firing, settings.methods[record.firing.method]
    people = tuple(_person(settings.potters[key], naming) for key in (firing.potter, *firing.helpers))
    helpers = f", with {listed(people[1:])}" if people[1:] else ""
    at = f" at {escape(firing.lit)}" if firing.lit else ""
    place = f", at {naming(place_page(firing.place), firing.place)}" if firing.place else ""
    year = naming(year_page(firing.date.year), str(firing.date.year))
    lit = f"{day_and_month(firing.date)} {year}{at} by {people[0]}"
    named = naming(method_page(firing.method), method.name)
    return Markup(f"{named}, lit on {lit}{helpers}{place}.")  # noqa: S704 - what `naming` gives is HTML already


def _person(potter: Potter, naming: Naming) -> Markup:
    """Name somebody, with a way to their page where they have one."""
    return escape(potter.name) if potter.key == NOBODY else naming(potter_page(potter.key), potter.name)


def _came_out(pieces: Sequence[JudgedPiece]) -> str:
    total = piece_count(pieces)
    went = f"{in_words(total).capitalize()} {'piece' if total == 1 else 'pieces'} went in"
    counts = survival_counts(pieces)
    if total == 1:
        return f"{went} and came out {next(iter(counts), 'unrecorded')}."
    if len(counts) == 1:
        word = next(iter(counts))
        return f"{went}; {'both' if total == 2 else 'all'} came out {word}."
    told = [f"{in_words(count)} {word}" for word, count in counts.items()]
    return f"{went}; {told[0].replace(' ', ' came out ', 1)}, {listed(told[1:])}."


def _succeeded(pieces: Sequence[JudgedPiece]) -> str:
    yes, unjudged = piece_count(pieces, Verdict.YES), piece_count(pieces, Verdict.UNJUDGED)
    judged = piece_count(pieces) - unjudged
    if not judged:
        return "None can be judged by the method’s rule: an outcome that it counts was not recorded."
    told = f"By the method’s rule {in_words(yes) if yes else 'none'} of {in_words(judged)} succeeded"
    if judged == 1:
        told = f"By the method’s rule {'it succeeded' if yes else 'it did not succeed'}"
        told = told if not unjudged else told.replace(" it ", " one ")
    left = f"; {in_words(unjudged)} could not be judged" if unjudged else ""
    return f"{told}{left}."
