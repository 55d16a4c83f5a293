"""A folder of files that is renewed in place: what stands in it with the right content already is left alone."""

from __future__ import annotations

import os
import shutil
import stat
from collections.abc import Collection
from pathlib import Path

from builder.kept.digest import bytes_digest
from builder.kept.packed import packed, unpacked
from builder.kept.store import Store, Thing

Look = tuple[int, ...]
"""How the system describes a file: size, time written, time changed, place on the disk, kind. Whoever writes to a file
changes it."""
_SHELF = "looks"


class Folder:
    """The files below a folder by their addresses, with the digests of their contents where those are known."""

    def __init__(self, root: Path, name: str, store: Store | None = None) -> None:
        self.root = root
        self._name = name
        self._found: dict[str, Look] = {}
        self._folders: set[str] = set()
        self._strange: list[Path] = []
        """Links and the like: never read, never written through."""
        self._look_through(str(root), "")
        kept = {} if store is None else _kept(store, name)
        self._digests = {
            address: digest for address, (look, digest) in kept.items() if self._found.get(address) == look
        }

    @property
    def looks(self) -> dict[str, Look]:
        """How the system describes each file, by address."""
        return self._found

    @property
    def has_links(self) -> bool:
        """Whether anything stands there that is neither a file nor a folder."""
        return bool(self._strange)

    def digest(self, address: str) -> str | None:
        """Return the digest of a file's content; None where there is no such file."""
        if address not in self._found:
            return None
        known = self._digests.get(address)
        if known is None:
            known = self._digests[address] = bytes_digest((self.root / address).read_bytes())
        return known

    def below(self, folder: str) -> set[str]:
        """Return the addresses of the files below one of its own folders."""
        return {address for address in self._found if address.startswith(f"{folder}/")}

    def put(self, address: str, content: bytes) -> str:
        """Let a file hold this content, and return the content's digest."""
        digest = bytes_digest(content)
        if self.digest(address) != digest:
            self._make_room(address).write_bytes(content)
            self.note(address, digest)
        return digest

    def take(self, address: str, digest: str, source: Path) -> None:
        """Let a file hold what another file holds, whose digest this is."""
        if self.digest(address) != digest:
            shutil.copyfile(source, self._make_room(address))
            self.note(address, digest)

    def note(self, address: str, digest: str) -> None:
        """Take notice of a file that has just been written, perhaps by another process."""
        look = look_at(self.root / address)
        if look is not None:
            self._found[address], self._digests[address] = look, digest

    def clear_links(self) -> None:
        """Remove every link, so that nothing that is written below this folder lands elsewhere."""
        for path in self._strange:
            path.unlink(missing_ok=True)
        self._strange.clear()

    def sweep(self, wanted: Collection[str]) -> None:
        """Remove every file but the wanted, every link, and the folders that are empty then."""
        self.clear_links()
        for address in self._found.keys() - set(wanted):
            (self.root / address).unlink(missing_ok=True)
            del self._found[address]
            self._digests.pop(address, None)
        for folder in sorted(self._folders, reverse=True):  # a folder comes after the one it lies in
            path = self.root / folder
            if path.is_dir() and not any(path.iterdir()):
                path.rmdir()

    def keep(self, store: Store, name: str | None = None) -> None:
        """Keep what is known of the files for the next build, as the looks of the folder of this name."""
        known = {address: (self._found[address], digest) for address, digest in self._digests.items()}
        store.keep(_SHELF, [(name or self._name, Thing("", packed(known)))])

    def _look_through(self, folder: str, below: str) -> None:
        """Take down every plain file below a folder with how the system describes it."""
        try:
            items = list(os.scandir(folder))
        except OSError:
            return
        for item in items:
            if item.is_dir(follow_symlinks=False):
                self._folders.add(f"{below}{item.name}")
                self._look_through(item.path, f"{below}{item.name}/")
            elif item.is_file(follow_symlinks=False):
                self._found[f"{below}{item.name}"] = _described(item.stat(follow_symlinks=False))
            else:
                self._strange.append(Path(item.path))

    def _make_room(self, address: str) -> Path:
        """Make way for a file to be written: never through a link, never into what another folder shares."""
        path = self.root / address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.unlink(missing_ok=True)
        self._found.pop(address, None)
        self._digests.pop(address, None)
        return path


def _kept(store: Store, name: str) -> dict[str, tuple[Look, str]]:
    thing = store.shelf(_SHELF).get(name)
    try:
        return dict(unpacked(thing.content)) if thing else {}
    except (ValueError, TypeError):
        return {}


def look_at(path: Path) -> Look | None:
    """Return how the system describes a file; None where there is no plain file."""
    try:
        status = path.stat(follow_symlinks=False)
    except OSError:
        return None
    return _described(status) if stat.S_ISREG(status.st_mode) else None


def _described(status: os.stat_result) -> Look:
    return status.st_size, status.st_mtime_ns, status.st_ctime_ns, status.st_ino, status.st_mode
