"""Runs a program and tells its seconds and its peak memory."""
import os
import time


def run(words, codes=(0,)):
    """Seconds by the clock, seconds of the processor, peak memory in MB."""
    begun = time.monotonic()
    child = os.posix_spawnp(words[0], words, os.environ)
    _, status, usage = os.wait4(child, 0)
    if os.waitstatus_to_exitcode(status) not in codes:
        raise SystemExit(f'{words[0]} failed')
    return time.monotonic() - begun, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def tell(name, measured):
    wall_s, cpu_s, peak_mb = measured
    print(f'{name:<44} {wall_s:7.2f} s wall, {cpu_s:7.2f} s processor, peak {peak_mb:4.0f} MB', flush=True)
