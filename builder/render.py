"""One firing to its page and the files beside it, over the machine's cores."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from builder.archive.archive import Archive, Record
from builder.archive.findings import Findings
from builder.charts.frame import DURATIONS_MIN, draw_standard_frames, kept_frames, use_kept_frames
from builder.charts.preview import preview_picture
from builder.pages.entry_page import entry_page, readings_csv
from builder.publish.pictures import Picture, remake
from builder.publish.site import Page
from builder.settings import Settings
from builder.workers import shared, spread


@dataclass(frozen=True, slots=True)
class Rendered:
    """One firing's page and the files beside it."""

    slug: str
    page: Page
    pictures: tuple[Picture, ...]
    files: Mapping[str, bytes]
    """By address from the site's root."""


@dataclass(frozen=True, slots=True)
class _Job:
    """What every firing's page needs beside the firing."""

    archive: Archive
    findings: Findings
    settings: Settings
    project: Path
    with_previews: bool


def render_all(
    archive: Archive,
    findings: Findings,
    settings: Settings,
    project: Path,
    work: Path,
    jobs: int | None,
    with_previews: bool,
) -> Iterator[Rendered]:
    """Yield each firing's page and files, in the archive's order.

    `with_previews` paints a picture for each, which only a site with an address of its own can refer to.
    """
    have_frames(work / "frames.json")
    job = _Job(archive, findings, settings, project, with_previews)
    yield from spread(_render, range(len(archive.records)), jobs, job)


def have_frames(kept: Path) -> None:
    """Take up the charts' frames kept by an earlier build, or draw and keep them, before processes part."""
    if kept.is_file() and use_kept_frames(kept.read_bytes()):
        return
    draw_standard_frames(DURATIONS_MIN)
    kept.parent.mkdir(parents=True, exist_ok=True)
    fresh = kept.with_suffix(".new")
    fresh.write_bytes(kept_frames())
    fresh.replace(kept)


def _render(place: int) -> Rendered:
    job: _Job = shared()
    record = job.archive.records[place]
    slug = record.firing.slug
    pictures = _pictures(record, job.project)
    files = {f"firings/{slug}/{picture.address_name}": picture.data for picture in pictures}
    if record.curves.curves:
        files[f"firings/{slug}/readings.csv"] = readings_csv(record)
    page = entry_page(record, job.archive, job.settings, pictures, job.findings)
    if job.with_previews:
        address = f"firings/{slug}/preview.png"
        files[address] = _preview(record, job.settings)
        page = replace(page, image=address)
    return Rendered(slug, page, pictures, files)


def _pictures(record: Record, project: Path) -> tuple[Picture, ...]:
    folder = (project / record.firing.file).parent
    photos = enumerate(record.firing.photos, 1)
    return tuple(picture for number, photo in photos for picture in remake(folder / photo.file, f"photo-{number}"))


def _preview(record: Record, settings: Settings) -> bytes:
    method = settings.methods[record.firing.method]
    window = (method.window_low_c, method.window_high_c)
    return preview_picture(record.firing.title, record.number, record.curves.ware_curve, window)
