"""Times that can be compared though the machine is shared: taken in turn, of one thread alone."""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Callable

Call = Callable[[], object]


def seconds(call: Call) -> float:
    """Processor time of this thread for one call."""
    began = time.thread_time()
    call()
    return time.thread_time() - began


def in_turn(*calls: Call, rounds: int) -> list[float]:
    """Median time of each call over some rounds of all of them, after one round to warm up.

    No garbage is collected meanwhile, for none of them.
    """
    for call in calls:
        call()
    gc.collect()
    gc.disable()
    try:
        found = [[seconds(call) for call in calls] for _ in range(rounds)]
    finally:
        gc.enable()
    return [statistics.median(times) for times in zip(*found, strict=True)]
