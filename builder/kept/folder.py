"""A folder of files that is renewed in place: what stands in it with the right content already is left alone.

No file is ever written twice: another content is another file under the same name. So one file may stand in several
such folders, which costs a fraction of a copy where the system makes new files slowly.
"""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import stat
from collections.abc import Callable, Collection
from pathlib import Path

from builder.base.own_file import open_own
from builder.kept.digest import bytes_digest
from builder.kept.store import Store, Thing

Look = str
"""How the system describes a file: size, time written, time changed, place on the disk, kind. Whoever writes to a file
changes it."""
Looked = tuple[dict[str, Look], list[str], list[str]]
"""What stands below a folder: plain files with their looks, by address; folders, each after the one it lies in; links
and the like, by path, which are never read and never written through."""
_BETWEEN = "\0"
"""What no name of a file holds."""


class Folder:
    """The files below a folder by their addresses, with the digests of their contents where those are known."""

    def __init__(
        self,
        root: Path,
        name: str,
        store: Store | None = None,
        beside: Folder | None = None,
        *,
        through: bool = True,
        looked: Looked | None = None,
    ) -> None:
        """Look through a folder, where nobody has just `looked`; or not `through`: look at a file when it is asked for.

        `name` stands for the folder in the store, `beside` is another that may hold the same files.
        """
        self.moved_to(root)
        self._name = name
        self._beside = beside
        self._through = through
        if looked is None:
            looked = look_through(root) if through else ({}, [], [])
        self._found, self._folders, self._strange = looked
        self._digests: dict[str, str] = {}
        self._kept = {} if store is None else _kept(store, name)

    def moved_to(self, root: Path) -> None:
        """Take notice that the folder, with all that is in it, lies elsewhere now."""
        self.root = root
        self._at = f"{root}{os.sep}"

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
        known = self._digests.get(address)
        if known is not None:
            return known
        look = self._found.get(address) if self._through else self._look_again(address)
        if look is None:
            return None
        known = self._kept_digest(address, look)
        if known is None and self._beside is not None and self._beside.looks.get(address) == look:
            known = self._beside.digest(address)
        if known is None:
            known = bytes_digest(Path(self._at + address).read_bytes())
        self._digests[address] = known
        return known

    def put(self, address: str, content: bytes) -> str:
        """Let a file hold this content, and return the content's digest."""
        digest = bytes_digest(content)
        if self.digest(address) != digest:
            self._make(address, lambda path: _write(path, content))
            self.note(address, digest)
        return digest

    def take(self, address: str, digest: str, source: Folder) -> None:
        """Let a file hold what the file at the same address of another folder holds, whose digest this is."""
        if self.digest(address) == digest:
            return
        as_known = source._is_as_known(address, digest)
        self._make(address, lambda path: _share(source._at + address, path))
        look = self._look_again(address)
        if look is None:
            self.remove(address)
            raise OSError(errno.ELOOP, "it is a link to somewhere else", source._at + address)
        if as_known:
            self._digests[address] = digest
            source._has_shared(address, look)

    def note(self, address: str, digest: str) -> None:
        """Take notice of a file that may just have been written, perhaps by another process."""
        if self._digests.get(address) != digest and self._look_again(address) is not None:
            self._digests[address] = digest

    def remove(self, address: str) -> None:
        """Remove a file, if it is there."""
        self._forget(address)
        with contextlib.suppress(FileNotFoundError):
            os.unlink(self._at + address)  # noqa: PTH108 - a Path costs more than the call

    def look_again(self) -> None:
        """Look again at every file: those that stood in a folder which is gone look otherwise now."""
        for address, look in list(self._found.items()):
            now = self._look_again(address)
            if now is None or not _same_but_for_its_change(look, now):
                self._digests.pop(address, None)

    def clear_links(self) -> None:
        """Remove every link, so that nothing that is written below this folder lands elsewhere."""
        for path in self._strange:
            Path(path).unlink(missing_ok=True)
        self._strange.clear()

    def sweep(self, wanted: Collection[str]) -> None:
        """Remove every file but the wanted, every link, and the folders that are empty then."""
        self.clear_links()
        for address in self._found.keys() - set(wanted):
            self.remove(address)
        filled = {address.rpartition("/")[0] for address in self._found}
        for folder in reversed(self._folders):  # a folder comes after the one it lies in
            if folder not in filled:
                with contextlib.suppress(OSError):  # it is gone, or holds folders
                    Path(self._at + folder).rmdir()

    def keep(self, store: Store, name: str | None = None) -> None:
        """Keep what is known of the files for the next build, as the looks of the folder of this name."""
        known = {} if self._through else dict(self._kept)
        known |= {address: (self._found[address], digest) for address, digest in self._digests.items()}
        if self._through:
            known |= {
                address: (look, digest)
                for address, (look, digest) in self._kept.items()
                if address not in known and self._found.get(address) == look
            }
        columns = (*known, *(look for look, _ in known.values()), *(digest for _, digest in known.values()))
        content = _BETWEEN.join(columns).encode("utf-8", "surrogatepass")
        store.keep(_shelf(name or self._name), [("", Thing("", content))])

    def _kept_digest(self, address: str, look: Look) -> str | None:
        kept_look, digest = self._kept.get(address, ("", ""))
        return digest if kept_look == look else None

    def _look_again(self, address: str) -> Look | None:
        look = look_at(self._at + address)
        if look is None:
            self._forget(address)
        else:
            self._found[address] = look
        return look

    def _forget(self, address: str) -> None:
        self._found.pop(address, None)
        self._digests.pop(address, None)

    def _is_as_known(self, address: str, digest: str) -> bool:
        """Whether nobody wrote to a file since it was last looked at, when it held this content."""
        return self.digest(address) == digest and look_at(self._at + address) == self._found[address]

    def _has_shared(self, address: str, look: Look) -> None:
        """Take notice that a file stands elsewhere too, which the system counts as a change of it."""
        if _same_but_for_its_change(self._found[address], look):
            self._found[address] = look

    def _make(self, address: str, make: Callable[[str], None]) -> None:
        """Have a new file made: never through a link, never into what another folder shares."""
        path = self._at + address
        self.remove(address)
        try:
            make(path)
        except FileNotFoundError:
            Path(path).parent.mkdir(parents=True, exist_ok=True)
            make(path)


def look_through(root: Path) -> Looked:
    """Take down what stands below a folder; nothing where there is none."""
    found: dict[str, Look] = {}
    folders: list[str] = []
    strange: list[str] = []
    todo = [""]
    while todo:
        below = todo.pop()
        try:
            items = list(os.scandir(f"{root}{os.sep}{below}"))
        except OSError:
            continue
        for item in items:
            address = below + item.name
            if item.is_dir(follow_symlinks=False):
                folders.append(address)
                todo.append(f"{address}/")
            elif item.is_file(follow_symlinks=False):
                found[address] = _described(item.stat(follow_symlinks=False))
            else:
                strange.append(item.path)
    return found, folders, strange


def _write(path: str, content: bytes) -> None:
    with open(path, "xb") as file:  # noqa: PTH123 - a Path costs more than the call
        file.write(content)


def _share(source: str, path: str) -> None:
    """Let a file stand in a second place; as a copy where the system does not let it."""
    try:
        os.link(source, path)
    except FileNotFoundError:
        raise
    except OSError:
        with open_own(Path(source)) as old, open(path, "xb") as new:  # noqa: PTH123
            shutil.copyfileobj(old, new)


def _shelf(name: str) -> str:
    return f"looks of {name}"


def _kept(store: Store, name: str) -> dict[str, tuple[Look, str]]:
    thing = store.thing(_shelf(name))
    if thing is None:
        return {}
    try:
        columns = thing.content.decode("utf-8", "surrogatepass").split(_BETWEEN)
    except ValueError:
        return {}
    height = len(columns) // 3
    return dict(zip(columns, zip(columns[height:], columns[2 * height :], strict=False), strict=False))


def look_at(path: str | Path) -> Look | None:
    """Return how the system describes a file; None where there is no plain file."""
    try:
        status = os.lstat(path)
    except OSError:
        return None
    return _described(status) if stat.S_ISREG(status.st_mode) else None


def last_change_ns(look: Look) -> int:
    """Return when a file was last written, or changed in any other way."""
    _, written, changed, *_ = look.split(" ")
    return max(int(written), int(changed))


def _described(status: os.stat_result) -> Look:
    return f"{status.st_size} {status.st_mtime_ns} {status.st_ctime_ns} {status.st_ino} {status.st_mode}"


def _same_but_for_its_change(one: Look, other: Look) -> bool:
    """Whether two looks differ in nothing, or in the time of the file's last change alone."""
    size, written, _, *place = one.split(" ")
    return [size, written, *place] == [part for at, part in enumerate(other.split(" ")) if at != 2]
