"""One firing to its page and the files beside it, over the machine's cores, straight into the docs folder."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from builder.archive.archive import Archive, Record
from builder.archive.likeness import Best
from builder.charts.keeping import have_frames
from builder.examine import Examined
from builder.exports.published_entry import DATA, ENTRIES, published_entry
from builder.kept.digest import digest, plain_digest
from builder.kept.entries import renewed
from builder.kept.fingerprints import file_content
from builder.kept.folder import Folder
from builder.kept.store import Store
from builder.pages.compare_data import firing_data, firing_data_file
from builder.pages.entry_page import entry_page, readings_csv
from builder.publish.mkdocs_site import write_file, write_page
from builder.publish.site import Picture, Written
from builder.settings import Group, Settings, Source
from builder.workers import shared, spread


@dataclass(frozen=True, slots=True)
class Rendered:
    """One firing's page and the files beside it, all of which stand in the docs folder."""

    slug: str
    photos: str | None
    """Digest of the photos as they came; None where it could not be told."""
    pictures: tuple[tuple[Picture, Written], ...]
    """What was made of them; of a picture that stands written, no data."""
    others: tuple[Written, ...]

    @property
    def written(self) -> tuple[Written, ...]:
        """All of it."""
        return (*(file for _, file in self.pictures), *self.others)


@dataclass(frozen=True, slots=True)
class Rendering:
    """What every firing's page needs beside the firing."""

    examined: Mapping[str, Examined]
    """By slug."""
    archive: Archive
    alike: Best
    """For each firing those most like it, in the archive's order."""
    settings: Settings
    project: Path
    docs: Folder
    with_previews: bool
    """Paint a picture for each, which only a site with an address of its own can refer to."""
    before: Mapping[str, Rendered] = field(default_factory=dict)
    """What was rendered of a firing under another key, by slug: its pictures may still hold."""


def render_all(rendering: Rendering, store: Store, jobs: int | None = None) -> Iterator[Rendered]:
    """Render each firing, in the archive's order; only those of which the docs folder does not hold all already."""
    archive, docs = rendering.archive, rendering.docs
    places = {record.slug: place for place, record in enumerate(archive.records)}
    rendering = replace(rendering, settings=_for_firings(rendering.settings))
    facts = digest(rendering.settings, rendering.with_previews)
    seen = {slug: _seen(place, rendering) for slug, place in places.items()}
    pages = {slug: plain_digest((facts, *found)) for slug, found in seen.items() if None not in found}

    before: dict[str, Rendered] = {}

    def good(slug: str, one: Rendered) -> bool:
        return all(docs.digest(file.address) == file.digest for file in one.written)

    def make(slugs: list[str]) -> Iterator[Rendered]:
        if slugs:
            have_frames(store)
        return spread(_render, [places[slug] for slug in slugs], jobs, replace(rendering, before=before))

    for one in renewed(
        list(places), pages, "rendered", store, make, good, lambda slug: rendering.examined[slug].still_so, before
    ):
        for file in one.written:
            docs.note(file.address, file.digest)
        yield one


def _for_firings(settings: Settings) -> Settings:
    """Leave only those settings that a firing's own page may depend on: not what a group says of itself elsewhere."""
    sources = {
        key: Source(key, Settings(_named(source.rules.group), {}, {}), {}) for key, source in settings.sources.items()
    }
    return replace(settings, group=_named(settings.group), sources=sources, asked=(), own=None)


def _named(group: Group) -> Group:
    return replace(group, about="", notice="", contact="")


def _seen(place: int, rendering: Rendering) -> tuple[object, ...]:
    """Return all that a firing's page shows of the archive: itself, its neighbours by date, and those most like it.

    Holds None where one of them has no key.
    """
    records, alike, examined = rendering.archive.records, rendering.alike, rendering.examined
    own = records[place]
    beside = [records[at] for at in (place - 1, place + 1) if 0 <= at < len(records)]
    like = [(one, records[one.place]) for one in (alike[place] if place < len(alike) else ())]
    return (
        examined[own.slug].key,
        own.number,
        tuple((other.number, other.slug, other.title) for other in beside),
        *(examined[other.slug].outline for _, other in like),
        tuple((one.likeness, one.shared, one.compared, other.number) for one, other in like),
    )


def _render(place: int) -> Rendered:
    job: Rendering = shared()
    record = job.archive.records[place].opened()
    slug, docs = record.slug, job.docs
    photos, pictures = _pictures(record, job)
    written = [write_file(firing_data_file(slug), firing_data(record, job.settings), docs)]
    if record.curves.curves:
        written.append(write_file(f"firings/{slug}/readings.csv", readings_csv(record), docs))
    written += _published_entry(record, job)
    page = entry_page(record, job.archive, job.settings, [picture for picture, _ in pictures], job.alike)
    if job.with_previews:
        address = f"firings/{slug}/preview.png"
        written.append(write_file(address, _preview(record, job.settings), docs))
        page = replace(page, image=address)
    return Rendered(slug, photos, pictures, (*written, write_page(page, docs)))


def _published_entry(record: Record, job: Rendering) -> Iterator[Written]:
    """Write the entry as other archives may read it; those that came from another are published there."""
    firing = record.firing
    if not firing.source:
        for name, content in published_entry(firing, (job.project / firing.file).parent).items():
            yield write_file(f"{DATA}/{ENTRIES}/{firing.slug}/{name}", content, job.docs)


def _pictures(record: Record, job: Rendering) -> tuple[str | None, tuple[tuple[Picture, Written], ...]]:
    """Make the pictures of a firing's photos, where those that were made before do not hold any more."""
    slug, docs = record.firing.slug, job.docs
    files = [(job.project / record.firing.file).parent / photo.file for photo in record.firing.photos]
    photos = _photos_digest(files)
    before = job.before.get(slug)
    kept = before.pictures if before is not None and photos is not None and before.photos == photos else ()
    if kept and all(docs.digest(file.address) == file.digest for _, file in kept):
        return photos, kept
    if not files:
        return photos, ()
    from builder.publish.pictures import remake  # only now: most firings have no photo that is new

    made = []
    for number, file in enumerate(files, 1):
        for picture in remake(file, f"photo-{number}"):
            written = write_file(f"firings/{slug}/{picture.address_name}", picture.data, docs)
            made.append((replace(picture, data=b""), written))
    return photos, tuple(made)


def _photos_digest(files: Sequence[Path]) -> str | None:
    """Return the digest of photos; None where one cannot be read, which `remake` says in words."""
    try:
        return plain_digest(tuple(file_content(file) for file in files))
    except OSError:
        return None


def _preview(record: Record, settings: Settings) -> bytes:
    from builder.charts.preview import preview_picture  # only now: it loads a library that draws

    method = settings.methods[record.firing.method]
    window = (method.window_low_c, method.window_high_c)
    return preview_picture(record.firing.title, record.number, record.curves.ware_curve, window)
