"""Stop watch, memory of a child and the speed of memory."""

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence

import numpy as np

COPIED = 8_000_000
"""Doubles copied to measure the speed of memory: 64 MB, far beyond every cache."""


def times_s(call: Callable[[], object], count: int) -> list[float]:
    """Wall time of each of ``count`` calls."""
    found = []
    for _ in range(count):
        begin = time.perf_counter()
        call()
        found.append(time.perf_counter() - begin)
    return found


def best_s(call: Callable[[], object], count: int) -> float:
    """Least wall time of ``count`` calls."""
    return min(times_s(call, count))


def median_s(calls: Sequence[Callable[[], object]]) -> float:
    """Median wall time of different calls, each made once."""
    return statistics.median(times_s(call, 1)[0] for call in calls)


def child(arguments: Sequence[str]) -> tuple[float, float]:
    """Wall time [s] and peak memory [MB] of a Python started afresh."""
    begin = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    _, status, usage = os.wait4(process.pid, 0)
    passed = time.perf_counter() - begin
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in {0, 4, 5}:  # 4 and 5: a plan was made, outside a sheet or not a good one
        raise RuntimeError(f"{' '.join(arguments)} ended with code {process.returncode}")
    kilobytes = usage.ru_maxrss / 1024.0 if sys.platform == "darwin" else usage.ru_maxrss
    return passed, kilobytes / 1024.0


def copy_bytes_per_s() -> float:
    """Bytes read and written per second by copying a large array."""
    source, target = np.ones(COPIED), np.zeros(COPIED)
    return 2.0 * source.nbytes / best_s(lambda: np.copyto(target, source), 5)
