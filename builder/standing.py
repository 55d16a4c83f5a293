"""The site that stands, and whether a build would make another: told by how the system describes each file.

Whatever differs in what a build reads or in what the last one left behind, or cannot be told, leads to a build, which
looks at contents.
"""

from __future__ import annotations

import os
import time

from builder.asked import READ, SETTINGS_FILE, WORK, Built, Options
from builder.kept.digest import plain_digest
from builder.kept.fingerprints import RESTED_NS
from builder.kept.folder import Folder, Look, last_change_ns, look_at
from builder.kept.packed import packed, unpacked
from builder.kept.store import Store, Thing, looked_up
from builder.publish import publish

_SHELF = "stands"


def seen_of(options: Options) -> str | None:
    """Return what stands for all that a build reads of a project; None where that cannot be told, or is quite new."""
    now = time.time_ns()
    looks: list[tuple[str, Look | None]] = [(SETTINGS_FILE, look_at(options.project / SETTINGS_FILE))]
    for name in READ:
        below = Folder(options.project / name, name)
        if below.has_links:
            return None
        looks += sorted(below.looks.items())
    if any(look is None or now - last_change_ns(look) <= RESTED_NS for _, look in looks):
        return None
    asked = (str(options.out.resolve()), options.offline, options.strict, os.environ.get("SOURCE_DATE_EPOCH"))
    return plain_digest((asked, tuple(looks)))


def keep_standing(seen: str | None, built: Built, site: str, store: Store) -> None:
    """Keep what was built of what was seen, beside how the site looks; nothing where that is not all that was read."""
    store.clear(_SHELF, ())
    if seen is not None and built.published is not None:
        store.keep(_SHELF, [("", Thing(f"{seen} {site}", packed(built)))])


def standing(options: Options, seen: str | None) -> Built | None:
    """Return what came of the last build, where it read the same and all that it made stands as it left it."""
    work = options.project / WORK
    if seen is None or not work.is_dir() or not options.out.is_dir():
        return None
    with publish.held(options.out, work, options.project):
        thing = looked_up(work, publish.version_at_work(), _SHELF)
        if thing is None or not thing.key.startswith(seen):
            return None
        if thing.key != f"{seen} {publish.site_look(options.out, work)}":
            return None
    try:
        found = unpacked(thing.content)
    except ValueError:
        return None
    return found if isinstance(found, Built) else None
