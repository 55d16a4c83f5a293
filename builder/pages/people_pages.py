"""The potters: an index, and a page each with their firings in order and their attempts at a ware."""

from __future__ import annotations

from dataclasses import dataclass

from builder.archive.archive import Archive, Record
from builder.pages.addresses import potter_page
from builder.pages.firing_lines import FiringLine, firing_line
from builder.pages.fragments import fill
from builder.pages.numbers import counted, day, in_words
from builder.pages.sentences import outcome_words, piece_count
from builder.publish.site import Page
from builder.settings import Potter, Settings
from builder.ware.outcome import Verdict


@dataclass(frozen=True, slots=True)
class Attempt:
    """One attempt at a ware."""

    line: FiringLine
    succeeded: str
    """`2 of 3 judged pieces succeeded`."""


def potters_index(archive: Archive, settings: Settings) -> Page:
    """Make the index of potters, in the order of the settings."""
    page = "potters/index"
    rows = [(potter, _firings_of(archive, potter.key)) for potter in settings.potters.values()]
    sentence = f"{counted(len(rows), 'potter')} of {settings.group.name}, and what each has fired."
    return Page(
        path=page,
        title="Potters",
        description=sentence,
        lead=fill(
            "potters.html",
            page,
            sentence=sentence,
            rows=[(potter, potter_page(potter.key), _fired(fired, potter)) for potter, fired in rows],
        ),
        section="potters",
        kind="potters",
    )


def potter_pages(archive: Archive, settings: Settings) -> tuple[Page, ...]:
    """Make a page for each potter."""
    return tuple(_potter_page(potter, archive, settings) for potter in settings.potters.values())


def _potter_page(potter: Potter, archive: Archive, settings: Settings) -> Page:
    fired = _firings_of(archive, potter.key)
    sentence = _fired(fired, potter)
    page = potter_page(potter.key)
    return Page(
        path=page,
        title=potter.name,
        description=f"{potter.name}. {sentence}",
        lead=fill("potter_lead.html", page, potter=potter, sentence=sentence),
        prose=fill("paragraph.html", page, words=potter.about) if potter.about else "",
        rest=fill(
            "potter.html",
            page,
            lines=[firing_line(record, settings) for record in fired],
            wares=_wares(fired, settings),
        ),
        section="potters",
        kind="potter",
    )


def _firings_of(archive: Archive, key: str) -> list[Record]:
    return [record for record in archive.records if key in (record.firing.potter, *record.firing.helpers)]


def _fired(fired: list[Record], potter: Potter) -> str:
    """Say how many fires somebody lit and helped at, and between when."""
    lit = sum(record.firing.potter == potter.key for record in fired)
    if not fired:
        return "No firing of theirs has been written up yet."
    helped = f", helped at {in_words(len(fired) - lit)}" if len(fired) > lit else ""
    pieces = piece_count([judged for record in fired if record.firing.potter == potter.key for judged in record.pieces])
    first, last = day(fired[0].firing.date), day(fired[-1].firing.date)
    span = f"on {first}" if len(fired) == 1 else f"between {first} and {last}"
    words = f"lit {in_words(lit)} {'fire' if lit == 1 else 'fires'} with {counted(pieces, 'piece')}{helped}, {span}."
    return words[0].upper() + words[1:]


def _wares(fired: list[Record], settings: Settings) -> list[tuple[str, list[Attempt]]]:
    """Put the attempts at each ware together, in order; a ware fired once only is no series."""
    found: dict[str, tuple[str, list[Record]]] = {}
    for record in fired:
        if record.firing.ware:
            found.setdefault(record.firing.ware.casefold(), (record.firing.ware, []))[1].append(record)
    return [
        (ware, [_attempt(record, settings) for record in records]) for ware, records in found.values() if records[1:]
    ]


def _attempt(record: Record, settings: Settings) -> Attempt:
    yes = piece_count(record.pieces, Verdict.YES)
    judged = piece_count(record.pieces) - piece_count(record.pieces, Verdict.UNJUDGED)
    told = f"{yes} of {counted(judged, 'judged piece')} succeeded" if judged else "no piece could be judged"
    return Attempt(firing_line(record, settings), f"{told}; {outcome_words(record.pieces)}")
