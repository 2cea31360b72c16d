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


def resident(pid):
    """The most memory so far, MiB. What wait4 tells would count this script, from which it was started."""
    try:
        with open(f"/proc/{pid}/status") as text:
            return max((int(line.split()[1]) / 1024 for line in text if line.startswith("VmHWM")), default=0)
    except FileNotFoundError:
        return 0


def measured(command, good=(0,), given=None):
    """`given` is a file for its standard input. Ends the benchmark when the status is none of `good`."""
    with open(given or os.devnull, "rb") as stdin:
        start = time.perf_counter()
        process = subprocess.Popen([str(word) for word in command], stdin=stdin, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL)
        peak, ended = 0, 0
        while not ended:
            peak = max(peak, resident(process.pid))
            time.sleep(0.002)
            ended, status, used = os.wait4(process.pid, os.WNOHANG)
        wall = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in good:
        sys.exit(f"{command[0]} ended with status {process.returncode}")
    return Run(wall, used.ru_utime + used.ru_stime, peak)
