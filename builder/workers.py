"""Spread independent work over the machine's cores, in order, with a fallback to one process."""

from __future__ import annotations

import gc
import os
import pickle
import signal
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from typing import Any, TypeVar

_Item = TypeVar("_Item")
_Result = TypeVar("_Result")

WORTH_A_POOL = 24
"""Fewer items than this cost less in one process than the start of others."""

_WASTE = 50_000
"""So many new things are made before it is looked which of them nobody needs any more."""

_LARGE = 16 * 1024 * 1024
"""Bytes of one large piece of memory: above 32 MiB glibc learns nothing (mallopt(3), M_MMAP_THRESHOLD)."""

_shared: Any = None
"""What every item of a job needs beside itself; set once in each process."""


def shared() -> Any:
    """Return what `spread` was given to share, from inside a job."""
    return _shared


def _share(value: Any) -> None:
    global _shared
    _shared = value


@contextmanager
def seldom_collected() -> Iterator[None]:
    """Look for waste seldom: an archive that is read stays, and looking through it takes longer than reading it."""
    before = gc.get_threshold()
    gc.set_threshold(_WASTE)
    _keep_freed_memory()
    try:
        yield
    finally:
        gc.set_threshold(*before)


def _keep_freed_memory() -> None:
    """Have glibc keep what is freed, up to twice so much: it learns from the largest piece that it saw freed.

    Until then it hands the memory of every large array back to the system and asks for it again, page by page, which
    takes a third of the time in which a firing is measured. Elsewhere this does nothing.
    """
    bytes(_LARGE)


def _begin(value: Any) -> None:
    """Begin a process of the pool: what it was born with is not looked through for waste, and so stays shared."""
    gc.freeze()
    gc.set_threshold(_WASTE)
    _keep_freed_memory()
    _share(value)


@contextmanager
def aside(job: Callable[[], _Result]) -> Iterator[Callable[[], _Result]]:
    """Do a job in another process, where one can be had at once, and give what waits for its result.

    The result must be plain, and the job nothing that this process could not do again: where the other fails, it does.
    """
    if not hasattr(os, "fork") or os.cpu_count() == 1 or threading.active_count() > 1:
        yield job
        return
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        # A lock that this process holds ends with it, were it killed, and not with the other.
        os.closerange(3, writing)
        os.closerange(writing + 1, 1024)
        with suppress(BaseException), os.fdopen(writing, "wb") as answer:
            pickle.dump(job(), answer, pickle.HIGHEST_PROTOCOL)
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading, "rb") as told:

        def result() -> _Result:
            try:
                found: _Result = pickle.load(told)  # noqa: S301 - this process's own child wrote it
            except (EOFError, pickle.UnpicklingError):
                return job()
            return found

        try:
            yield result
        finally:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)


def spread(
    job: Callable[[_Item], _Result], items: Iterable[_Item], jobs: int | None = None, share: Any = None
) -> Iterator[_Result]:
    """Yield `job(item)` for each item, in the items' order, over `jobs` processes (all cores by default).

    `job` must be a module's function; what all items need goes once to each process by `share`.
    """
    todo = list(items)
    processes = min(jobs or os.cpu_count() or 1, len(todo))
    if processes <= 1 or len(todo) < WORTH_A_POOL:
        _share(share)
        yield from map(job, todo)
        return
    import multiprocessing  # only where there is work for several processes
    from concurrent.futures import ProcessPoolExecutor

    context = multiprocessing.get_context("fork" if "fork" in multiprocessing.get_all_start_methods() else None)
    chunk = max(1, min(32, len(todo) // (processes * 4)))
    with ProcessPoolExecutor(processes, context, initializer=_begin, initargs=(share,)) as pool:
        yield from pool.map(job, todo, chunksize=chunk)
