#!/usr/bin/env python3
"""Times whole processes against one another.

Usage: timings.py RUNS NAME=COMMAND...

The commands run in turn, RUNS times each, after one that is not counted where there are several, so that
a machine whose speed drifts treats them alike. Prints for each the median of its processor time and of its wall time as a
multiple of the first command's, taken run by run, and the most memory in MiB.
"""
import os
import shlex
import statistics
import subprocess
import sys
import time


def run(command):
    start = time.monotonic()
    child = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                             stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    wall = time.monotonic() - start
    if child.returncode != 0:
        sys.exit(f"it failed with {child.returncode}: {command}")
    return used.ru_utime + used.ru_stime, wall, used.ru_maxrss / 1024


def main(arguments):
    if len(arguments) < 2:
        print(__doc__, file=sys.stderr)
        return 2
    runs = int(arguments[0])
    commands = [argument.split("=", 1) for argument in arguments[1:]]
    measured = {name: [] for name, _ in commands}
    to_warm_up = 1 if runs > 1 else 0
    for number in range(to_warm_up + runs):
        for name, command in commands:
            figures = run(shlex.split(command))
            if number >= to_warm_up:
                measured[name].append(figures)
    first = measured[commands[0][0]]
    width = max(len(name) for name, _ in commands)
    print(f"{'':{width}}  processor  wall  MiB   ({runs} runs each, in turn)")
    for name, _ in commands:
        ratios = [statistics.median(one[i] / base[i] for one, base in zip(measured[name], first))
                  for i in (0, 1)]
        memory = statistics.median(one[2] for one in measured[name])
        print(f"{name:{width}}  {ratios[0]:9.2f}  {ratios[1]:4.2f}  {memory:3.0f}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
