"""Measures `podrate replay` on a day of three machines, and DuckDB's means by the minute of the same logs.
usage: gang.py PODRATE SCENARIO FOLDER"""
import glob
import os
import subprocess
import sys

import measured

podrate, scenario, folder = sys.argv[1:]
day = f'{folder}/day'
if not os.path.exists(f'{day}/day.toml'):
    measured.run([podrate, 'synth', scenario, '--out', day, '--quiet'])
logs = sorted(glob.glob(f'{day}/viner_*.csv'))
size_mb = sum(os.path.getsize(log) for log in logs) / 1e6
rows = 0
for log in logs:
    with open(log, 'rb') as file:
        rows += sum(1 for _ in file) - 1
print(f'{len(logs)} logs, {rows} rows, {size_mb:.0f} MB')


def best(words):
    """Of three runs, the quickest: other work on the machine only adds."""
    return min(measured.run(words) for _ in range(3))


out = f'{folder}/out'
for name, more in ('replay', []), ('replay --taskdata', ['--taskdata']), ('replay --estimates', ['--estimates']):
    measured.tell(name, best([podrate, 'replay', day, '--out', out, '--quiet', *more]))
here = os.path.dirname(os.path.abspath(__file__))
library = f'{folder}/duckdb'
if subprocess.run(['node', f'{here}/../npm/fetch.mjs', f'{here}/../npm/duckdb.json', library]).returncode == 0:
    os.environ['NODE_PATH'] = f'{library}/node_modules'
    measured.tell('DuckDB, means by the minute, two threads', best(['node', f'{here}/by_minute.cjs', *logs]))
