"""Superheat and subcooling of a fleet's logs, by vehicle, inside DataFusion.

Usage: python one_machine.py DIRECTORY [--threads 2] [--memory-mb MB] [--repeats 1]

With `--memory-mb` the operating system gives the process no more than that for its data (RLIMIT_DATA, Linux), threads included.
"""

from __future__ import annotations

import argparse
import math
import os
import re
import resource
import time
from pathlib import Path
from typing import Any

# read when the allocator of DataFusion is loaded: it takes memory as it needs it, where it would reserve 2 GB, and returns it at once
os.environ |= {"MIMALLOC_ARENA_EAGER_COMMIT": "0", "MIMALLOC_PURGE_DELAY": "0"}

import pyarrow as pa
from datafusion import SessionConfig, SessionContext, udf

import fleet

MB = 1_000_000
SUPERHEAT_ALONE = "SELECT count(superheat_k(refrigerant, low_side_kpa, suction_line_c, air_kpa)) FROM logs"
ARGUMENTS = [pa.dictionary(pa.int32(), pa.string()), pa.float64(), pa.float64(), pa.float64()]


def session(directory: Path, threads: int = 2) -> SessionContext:
    """A session with the logs as a table and the two functions."""
    context = SessionContext(SessionConfig().with_target_partitions(threads))
    for function in (fleet.superheat_k, fleet.subcooling_k):
        context.register_udf(udf(function, ARGUMENTS, pa.float64(), "immutable", function.__name__))
    context.sql("SET datafusion.runtime.metadata_cache_limit = '0'").collect()  # kept, it would grow with the data set
    context.register_parquet("logs", directory, table_partition_cols=[("day", pa.string())])
    return context


def answers(context: SessionContext) -> list[dict[str, Any]]:
    """One row for each vehicle and verdict."""
    return fleet.in_order(context.sql(fleet.QUERY).to_arrow_table())


def peak_mb() -> float:
    """Most memory the process has had, as Linux says it; NaN elsewhere. (What `getrusage` says may be that of the parent.)"""
    status = Path("/proc/self/status")
    peak = re.search(r"VmHWM:\s+(\d+) kB", status.read_text()) if status.exists() else None
    return int(peak[1]) * 1024 / MB if peak else math.nan


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("directory", type=Path)
    options.add_argument("--threads", type=int, default=2)
    options.add_argument("--memory-mb", type=int)
    options.add_argument("--repeats", type=int, default=1, help="the least time of so many runs is printed")
    given = options.parse_args()
    if given.memory_mb:
        resource.setrlimit(resource.RLIMIT_DATA, (given.memory_mb * MB, given.memory_mb * MB))
    context = session(given.directory, given.threads)
    before = peak_mb()
    best = dict.fromkeys(("superheat alone", "the whole query"), (math.inf, math.inf))
    for _ in range(given.repeats):
        for name in best:
            wall, core = time.perf_counter(), time.process_time()
            if name == "superheat alone":
                context.sql(SUPERHEAT_ALONE).collect()
            else:
                result = answers(context)
            best[name] = min(best[name][0], time.perf_counter() - wall), min(best[name][1], time.process_time() - core)
    print(fleet.page(result) + "\n")
    rows = sum(row["readings"] for row in result)
    for name, (wall, core) in best.items():
        print(f"{name}: {rows / wall / 1e6:.1f} million rows/s on {given.threads} threads, {rows / core / 1e6:.1f} in a second of one core")
    print(f"peak memory {peak_mb():.0f} MB, {before:.0f} MB of it before the first row")


if __name__ == "__main__":
    main()
