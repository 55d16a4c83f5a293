"""Work is spread, or done aside, and comes to the same."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from builder.workers import WORTH_A_POOL, aside, shared, spread

forks = pytest.mark.skipif(not hasattr(os, "fork") or os.cpu_count() == 1, reason="processes are parted by fork here")


def _times(number: int) -> int:
    factor: int = shared()
    return number * factor


@pytest.mark.parametrize("jobs", [1, 2, 5])
def test_results_come_in_the_order_of_the_items_however_many_processes(jobs: int) -> None:
    items = range(WORTH_A_POOL + 3)
    assert list(spread(_times, items, jobs, 7)) == [7 * number for number in items]


@forks
def test_a_job_is_done_aside_in_another_process() -> None:
    with aside(os.getpid) as result:
        assert result() != os.getpid()


@forks
def test_what_another_process_did_not_finish_is_done_here() -> None:
    here = os.getpid()

    def dies() -> int:
        if os.getpid() != here:
            os._exit(1)
        return here

    def fails() -> int:
        if os.getpid() != here:
            raise MemoryError
        return here

    for job in (dies, fails):
        with aside(job) as result:
            assert result() == here


def test_beside_other_threads_a_job_is_done_here() -> None:
    """A process that is parted while another thread holds a lock may wait for it for ever."""
    over = threading.Event()
    other = threading.Thread(target=over.wait)
    other.start()
    with aside(os.getpid) as result:
        assert result() == os.getpid()
    over.set()
    other.join()


@forks
def test_a_lock_is_not_held_by_the_process_aside(tmp_path: Path) -> None:
    """A build that is killed leaves no lock behind, not even for a moment."""
    with (tmp_path / "lock").open("w") as held, aside(partial(_is_open, held.fileno())) as result:
        assert not result()


def _is_open(handle: int) -> bool:
    try:
        os.fstat(handle)
    except OSError:
        return False
    return True


@forks
@pytest.mark.parametrize("job", [lambda: "x" * 1_000_000, threading.Event().wait])
def test_a_job_whose_result_nobody_waits_for_is_ended(job: Callable[[], object]) -> None:
    before = len(os.listdir("/proc/self/fd")) if os.path.isdir("/proc/self/fd") else None  # noqa: PTH112, PTH208
    with pytest.raises(RuntimeError, match="stop"), aside(job):
        raise RuntimeError("stop")
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)
    if before is not None:
        assert len(os.listdir("/proc/self/fd")) == before  # noqa: PTH208
