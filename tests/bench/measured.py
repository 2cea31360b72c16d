"""One run of a program: how long, how much of the processor, how much memory."""
import os
import subprocess
import sys
import time
from dataclasses import dataclass


@dataclass
class Run:
    wall: float  # s
    cpu: float  # s, of all its threads
    peak: float  # MiB


def measured(command, good=(0,), given=None):
    """`given` is a file for its standard input. Ends the benchmark when the status is none of `good`."""
    with open(given or os.devnull, "rb") as stdin:
        start = time.perf_counter()
        process = subprocess.Popen([str(word) for word in command], stdin=stdin, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in good:
        sys.exit(f"{command[0]} ended with status {process.returncode}")
    return Run(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)
