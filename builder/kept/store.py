"""The one file in which things are kept: shelves of named things, each beside its key.

It is a SQLite database: a build that is killed leaves what was kept before. Each thing carries a sum of itself, so that
a damaged one is not there; a file that SQLite finds damaged is thrown away: everything is then made anew.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from zlib import crc32

FILE = "kept.db"
_TABLE = (
    "CREATE TABLE kept (shelf TEXT, name TEXT, key TEXT, check_sum INTEGER, content BLOB, PRIMARY KEY (shelf, name))"
)
_SHELF = "SELECT name, key, check_sum, content FROM kept WHERE shelf = ?"
_VERSION = "version"
_BEGUN = "begun"


@dataclass(frozen=True, slots=True)
class Thing:
    """One kept thing."""

    key: str
    """Digest of everything that it was made from."""
    content: bytes


class Store:
    """What is kept for one program version; what another version kept is gone."""

    def __init__(self, base: sqlite3.Connection) -> None:
        self._base = base
        self.failed = False
        """Something could not be kept, as on a full disk: then nothing of this build is."""
        self.damaged = False
        """SQLite came upon a part of the file that it did not write."""
        self.fresh = self.thing(_BEGUN) is None
        """Nothing was kept by an earlier build."""
        self.keep(_BEGUN, [("", Thing("", b""))])

    def shelf(self, shelf: str) -> Mapping[str, Thing]:
        """Return everything on a shelf by name; what is damaged is not there."""
        return dict(self.things(shelf))

    def things(self, shelf: str) -> Iterator[tuple[str, Thing]]:
        """Yield what is on a shelf, name and thing, one after another: a large shelf need not be held at once."""
        try:
            yield from _things(self._base, shelf)
        except sqlite3.Error as error:
            self._note(error)

    def thing(self, shelf: str, name: str = "") -> Thing | None:
        """Return one thing of a shelf, if it is there."""
        try:
            return next((thing for _, thing in _things(self._base, shelf, name)), None)
        except sqlite3.Error as error:
            self._note(error)
            return None

    def keep(self, shelf: str, things: Iterable[tuple[str, Thing]]) -> None:
        """Put things on a shelf, each in the place of what stood there under its name."""
        rows = (
            (shelf, name, thing.key, _check_sum(shelf, name, thing.key, thing.content), thing.content)
            for name, thing in things
        )
        self._try("INSERT OR REPLACE INTO kept VALUES (?, ?, ?, ?, ?)", rows)

    def clear(self, shelf: str, wanted: Collection[str]) -> None:
        """Take everything from a shelf but the wanted names."""
        gone = [(shelf, name) for name in self._names(shelf) if name not in wanted]
        self._try("DELETE FROM kept WHERE shelf = ? AND name = ?", gone)

    def _names(self, shelf: str) -> list[str]:
        try:
            return [name for (name,) in self._base.execute("SELECT name FROM kept WHERE shelf = ?", (shelf,))]
        except sqlite3.Error as error:
            self._note(error)
            return []

    def _try(self, words: str, rows: Iterable[tuple[object, ...]]) -> None:
        try:
            self._base.executemany(words, rows)
        except sqlite3.Error as error:
            self._note(error)

    def _note(self, error: sqlite3.Error) -> None:
        self.failed = True
        self.damaged |= _tells_of_damage(error)


@contextlib.contextmanager
def kept(folder: Path, version: str) -> Iterator[Store]:
    """Open what is kept in a folder for this version of the program (none: nothing is); what is put there stays if all
    goes well.

    An archive is built all the same where nothing can be kept: on a full disk, in a folder for reading only.
    """
    base = _opened(folder / FILE, version)
    try:
        store = Store(base)
        yield store
        with contextlib.suppress(sqlite3.Error):
            (base.rollback if store.failed else base.commit)()
        if store.damaged:
            base.close()
            _throw_away(folder / FILE)
    finally:
        base.close()


def looked_up(folder: Path, version: str, shelf: str, name: str = "") -> Thing | None:
    """Return one thing that this version of the program kept in a folder, without looking through all the others."""
    try:
        with contextlib.closing(sqlite3.connect(f"{(folder / FILE).resolve().as_uri()}?mode=ro", uri=True)) as base:
            if version and base.execute("SELECT key FROM kept WHERE shelf = ?", (_VERSION,)).fetchone() == (version,):
                return next((thing for _, thing in _things(base, shelf, name)), None)
    except sqlite3.Error:
        pass
    return None


def _things(base: sqlite3.Connection, shelf: str, name: str | None = None) -> Iterator[tuple[str, Thing]]:
    """Yield the sound things of a shelf, or that of one name; raises sqlite3.Error where the file cannot be read on."""
    rows = base.execute(_SHELF, (shelf,)) if name is None else base.execute(f"{_SHELF} AND name = ?", (shelf, name))
    for name, key, check_sum, content in rows:
        if isinstance(content, bytes) and check_sum == _check_sum(shelf, name, key, content):
            yield name, Thing(key, content)


def _tells_of_damage(error: sqlite3.Error) -> bool:
    code: int = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_CORRUPT)  # words that are no words have no code
    return code & 0xFF in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)


def _opened(file: Path, version: str) -> sqlite3.Connection:
    """Open the file; throw it away where it is damaged or another version's."""
    for _ in range(2 if version else 0):
        base = None
        try:
            base = sqlite3.connect(file, isolation_level="DEFERRED")
            base.execute("PRAGMA synchronous = OFF")
            base.execute("PRAGMA secure_delete = ON")  # what was withdrawn leaves no trace
            if _holds(base, version):
                return base
            base.close()
            _throw_away(file)
            _made(file, version)
        except (sqlite3.Error, OSError):
            if base is not None:
                base.close()
            _throw_away(file)
    base = sqlite3.connect(":memory:")
    base.execute(_TABLE)
    return base


def _holds(base: sqlite3.Connection, version: str) -> bool:
    """Whether the file is this version's, as far as is told without reading all of it."""
    tables = {name for (name,) in base.execute("SELECT name FROM sqlite_master")}
    if "kept" not in tables:
        return False
    found = base.execute("SELECT key FROM kept WHERE shelf = ?", (_VERSION,)).fetchone()
    return bool(found == (version,))


def _made(file: Path, version: str) -> None:
    base = sqlite3.connect(file)
    try:
        base.execute(_TABLE)
        base.execute("INSERT INTO kept VALUES (?, '', ?, 0, x'')", (_VERSION, version))
        base.commit()
    finally:
        base.close()


def _throw_away(file: Path) -> None:
    for name in (file.name, f"{file.name}-journal"):
        with contextlib.suppress(OSError):
            (file.parent / name).unlink()


def _check_sum(shelf: str, name: str, key: str, content: bytes) -> int:
    return crc32(content, crc32(f"{shelf}\n{name}\n{key}".encode("utf-8", "surrogatepass")))
