"""Ashbook: a study group's archive of wood firings, from entries to a published site."""

import os

for _threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "VECLIB_MAXIMUM_THREADS"):
    # Set before numpy is loaded. Work is spread over processes, an entry each: threads inside one sum would only wait
    # for one another, which doubles the time, and could add up in another order on another machine.
    os.environ.setdefault(_threads, "1")
