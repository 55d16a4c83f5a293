"""The potters: an index, and a page each with their firings in order and their attempts at a ware."""

from __future__ import annotations

from functools import partial

from builder.archive.archive import Archive, Record
from builder.archive.findings import NO_FINDINGS, Findings
from builder.archive.progress import Progress
from builder.pages.addresses import potter_page
from builder.pages.drafts import Draft, lines_of, rates_of
from builder.pages.firing_lines import line_list
from builder.pages.fragments import fill
from builder.pages.numbers import counted, day, in_words
from builder.pages.progress_part import progress_parts
from builder.pages.sentences import piece_count
from builder.publish.site import Page
from builder.settings import NOBODY, Potter, Settings


def potters_index(archive: Archive, settings: Settings) -> Page:
    """Make the index of potters, in the order of the settings."""
    page = "potters/index"
    fired_by = _fired_by(archive)
    rows = [(potter, fired_by.get(potter.key, [])) for potter in _named(settings)]
    unnamed = [record for record in archive.records if record.firing.potter == NOBODY]
    group = counted(len(settings.sources), "other group") if settings.sources else ""
    whose = f"{settings.group.name} and {group}" if group else settings.group.name
    sentence = f"{counted(len(rows), 'potter')} of {whose}, and what each has fired."
    return Page(
        path=page,
        title="Potters",
        description=sentence,
        lead=fill(
            "potters.html",
            page,
            sentence=sentence,
            rows=[(potter, potter_page(potter.key), _fired(fired, potter)) for potter, fired in rows],
            unnamed=_fired(unnamed, settings.potters[NOBODY]) if unnamed else "",
        ),
        section="potters",
        kind="potters",
    )


def potter_pages(archive: Archive, settings: Settings, findings: Findings = NO_FINDINGS) -> tuple[Draft, ...]:
    """Draft a page for each potter who is named; how they got on is told by their own firings."""
    drafts, rates, fired_by = [], rates_of(archive), _fired_by(archive)
    for potter in _named(settings):
        fired = fired_by.get(potter.key, [])
        make = partial(_potter_page, potter, fired, settings, findings.progress.get(potter.key, ()))
        drafts.append(Draft(potter_page(potter.key), (rates, lines_of(fired)), make))
    return tuple(drafts)


def _named(settings: Settings) -> list[Potter]:
    return [potter for potter in settings.potters.values() if potter.key != NOBODY]


def _potter_page(potter: Potter, fired: list[Record], settings: Settings, wares: tuple[Progress, ...]) -> Page:
    sentence = _fired(fired, potter)
    page = potter_page(potter.key)
    return Page(
        path=page,
        title=potter.named,
        description=f"{potter.named}. {sentence}",
        lead=fill("potter_lead.html", page, potter=potter, sentence=sentence),
        prose=fill("paragraph.html", page, words=potter.about) if potter.about else "",
        rest=fill(
            "potter.html",
            page,
            list=line_list(fired, settings, newest_first=False),
            potter=potter,
            wares=progress_parts(wares, settings),
        ),
        section="potters",
        kind="potter",
    )


def _fired_by(archive: Archive) -> dict[str, list[Record]]:
    """Return the firings that each potter lit or helped at, by key."""
    found: dict[str, list[Record]] = {}
    for record in archive.records:
        for key in {record.firing.potter, *record.firing.helpers}:
            found.setdefault(key, []).append(record)
    return found


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
