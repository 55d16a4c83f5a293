"""What stands in the entries' folders, and what was made of it: renewed where its key is another."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, TypeVar

from builder.kept.fingerprints import Fingerprint, folder_fingerprint, folder_look
from builder.kept.packed import packed, unpacked
from builder.kept.store import Store, Thing

_LOOKS = "entries"
AT_ONCE = 100
"""New things are put on their shelf so many at a time: a large archive's are never held together."""
_Result = TypeVar("_Result")


def fingerprints(folders: Mapping[str, Path], store: Store) -> dict[str, Fingerprint]:
    """Return what stands in each folder by its name; without those of which it cannot be told."""
    known = {name: _fingerprint(thing) for name, thing in store.shelf(_LOOKS).items()}
    found = {name: folder_fingerprint(folder, known.get(name)) for name, folder in folders.items()}
    told = {name: one for name, one in found.items() if one is not None}
    store.keep(_LOOKS, [(name, _thing(one)) for name, one in told.items() if one != known.get(name)])
    store.clear(_LOOKS, told)
    return told


def unchanged(folder: Path, fingerprint: Fingerprint) -> bool:
    """Whether nothing was written into a folder since its fingerprint was taken."""
    found = folder_look(folder)
    return found is not None and found[0] == fingerprint.look


def renewed(
    names: Sequence[str],
    keys: Mapping[str, str],
    shelf: str,
    store: Store,
    make: Callable[[list[str]], Iterable[_Result]],
    good: Callable[[str, Any], bool] = lambda name, kept: True,
    still: Callable[[str], bool] = lambda name: True,
    before: dict[str, Any] | None = None,
) -> Iterator[_Result]:
    """Yield one result a name, in order: the kept one where its key is the same and it is still good, else a new one.

    `make` makes those of the names it is given, in that order; a name without a key is made each time and never kept.
    `good` says whether a kept thing can be taken up, `still` whether what a new one was made from is still as it was.
    What stood there under another key comes into `before`, ere anything is made: parts of it may hold.
    """
    kept = {}
    for name, thing in store.things(shelf):
        same = thing.key == keys.get(name)
        value = _value(thing) if same or before is not None else None
        if value is not None and same and good(name, value):
            kept[name] = value
        elif value is not None and before is not None:
            before[name] = value
    made = iter(make([name for name in names if name not in kept]))
    new = []
    for name in names:
        if name in kept:
            yield kept.pop(name)
            continue
        value = next(made)
        if name in keys and still(name):
            new.append((name, Thing(keys[name], packed(value))))
            if len(new) >= AT_ONCE:
                store.keep(shelf, new)
                new.clear()
        yield value
    store.keep(shelf, new)
    store.clear(shelf, keys)


def one_renewed(
    shelf: str,
    key: str | None,
    store: Store,
    make: Callable[[], _Result],
    good: Callable[[Any], bool] = lambda kept: True,
) -> _Result:
    """Return the one thing of a shelf, the kept one where its key is the same and it is still good, else a new one."""
    keys = {} if key is None else {"": key}
    (found,) = renewed(
        [""], keys, shelf, store, lambda names: (make() for _ in names), lambda _, kept: good(kept), lambda _: True
    )
    return found


def _value(thing: Thing) -> Any:
    try:
        return unpacked(thing.content)
    except ValueError:
        return None


def _fingerprint(thing: Thing) -> Fingerprint:
    content, _, rested = thing.content.decode().partition(" ")
    return Fingerprint(thing.key, content, rested == "rested")


def _thing(one: Fingerprint) -> Thing:
    return Thing(one.look, f"{one.content} {'rested' if one.rested else 'young'}".encode())
