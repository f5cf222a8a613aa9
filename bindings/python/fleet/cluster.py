"""Superheat and subcooling of a fleet's logs, by vehicle, in worker processes of Spark.

Usage: python cluster.py DIRECTORY [--workers 2] [--kill worker|python]

With `--kill` the query runs twice. While it runs the second time, a worker process is ended from outside (SIGKILL): a whole worker, or
the Python process of a worker, in which satline computes. Both answers must be equal, digit for digit.
"""

from __future__ import annotations

import argparse
import os
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from pyspark.sql import SparkSession
from pyspark.sql.functions import arrow_udf  # type: ignore[attr-defined]  # not in its stubs

import fleet


@contextmanager
def cluster(directory: Path, workers: int = 2) -> Iterator[SparkSession]:
    """Workers as processes of their own on this machine, with one core each, the logs and the two functions."""
    with tempfile.TemporaryDirectory() as scratch:
        os.environ |= {"PYSPARK_PYTHON": sys.executable, "SPARK_WORKER_DIR": scratch, "SPARK_LOCAL_IP": "127.0.0.1"}
        spark = (
            SparkSession.builder.master(f"local-cluster[{workers},1,1024]")
            .config("spark.executor.memory", "1g")
            .config("spark.ui.enabled", "false")
            .config("spark.ui.showConsoleProgress", "false")
            .config("spark.log.level", "OFF")  # a killed worker is meant
            .config("spark.local.dir", scratch)
            .config("spark.sql.warehouse.dir", scratch)
            .config("spark.sql.shuffle.partitions", str(workers))
            .config("spark.sql.files.openCostInBytes", "128m")  # a task for each file, however small
            .getOrCreate()
        )
        try:
            spark.sparkContext.addPyFile(fleet.__file__)
            for function in (fleet.superheat_k, fleet.subcooling_k):
                spark.udf.register(function.__name__, arrow_udf(function, "double"))
            spark.read.parquet(str(directory)).createOrReplaceTempView("logs")
            yield spark
        finally:
            spark.stop()


def answers(spark: SparkSession) -> list[dict[str, Any]]:
    """One row for each vehicle and verdict."""
    return fleet.in_order(spark.sql(fleet.QUERY).toArrow())


class Killer(threading.Thread):
    """Ends a worker process as soon as some tasks are done and others are running; counts what had to be run again."""

    def __init__(self, spark: SparkSession, whole_worker: bool) -> None:
        super().__init__(daemon=True)
        self.context, self.whole_worker = spark.sparkContext, whole_worker
        self.killed: int | None = None
        self.failed_tasks = 0
        self.over = threading.Event()

    def run(self) -> None:
        tracker = self.context.statusTracker()
        while not self.over.wait(0.005):
            for stage in tracker.getActiveStageIds():
                info = tracker.getStageInfo(stage)
                if info is None:
                    continue
                self.failed_tasks = max(self.failed_tasks, info.numFailedTasks)
                if self.killed is None and info.numCompletedTasks >= 2 and info.numActiveTasks >= 2:
                    victim = self._victim()
                    if victim is not None:
                        os.kill(victim, signal.SIGKILL)
                        self.killed = victim

    def _victim(self) -> int | None:
        listed = subprocess.run(["ps", "-A", "-o", "pid=,ppid=,args="], capture_output=True, text=True, check=True).stdout
        processes = [(int(pid), int(parent), line) for pid, parent, line in (row.split(None, 2) for row in listed.splitlines())]
        # only those of this application
        workers = [pid for pid, _, line in processes if f"--app-id {self.context.applicationId}" in line and "Backend" in line]
        if self.whole_worker:
            return workers[0] if workers else None
        daemons = [pid for pid, parent, _ in processes if parent in workers]
        pythons = [pid for pid, parent, _ in processes if parent in daemons]
        return pythons[0] if pythons else None


def disturbed(spark: SparkSession, whole_worker: bool) -> tuple[list[dict[str, Any]], Killer]:
    """The answers of a run during which a worker process is ended."""
    killer = Killer(spark, whole_worker)
    killer.start()
    try:
        return answers(spark), killer
    finally:
        killer.over.set()
        killer.join()


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("directory", type=Path)
    options.add_argument("--workers", type=int, default=2)
    options.add_argument("--kill", choices=["worker", "python"])
    given = options.parse_args()
    with cluster(given.directory, given.workers) as spark:
        begin = time.perf_counter()
        result = answers(spark)
        seconds = time.perf_counter() - begin
        print(fleet.page(result))
        rows = sum(row["readings"] for row in result)
        print(f"\n{rows / seconds / 1e6:.2f} million rows/s in {given.workers} workers, their start included")
        if given.kill:
            again, killer = disturbed(spark, given.kill == "worker")
            if killer.killed is None or not killer.failed_tasks:
                sys.exit("no worker was killed while it had work: give more rows")
            print(f"a {given.kill} process killed, {killer.failed_tasks} task(s) run again, {sum(row['readings'] for row in again):,} rows")
            if again != result:
                sys.exit("the answers differ")
            print("the answers are those of the undisturbed run, digit for digit")


if __name__ == "__main__":
    main()
