"""Measures `podrate season` over 5 and over 100 days: memory must not grow with their number.
usage: season.py PODRATE SCENARIO FOLDER"""
import datetime
import os
import sys

import measured

podrate, scenario, folder = sys.argv[1:]
DAYS = 100
os.makedirs(folder, exist_ok=True)
text = open(scenario, encoding='utf-8').read()
days = [f'{folder}/day_{i:03}' for i in range(DAYS)]
for i, day in enumerate(days):
    if os.path.exists(f'{day}/day.toml'):
        continue
    made = f'{folder}/scenario.toml'
    begins_s = 1751428800 + 86400 * i
    date = datetime.datetime.fromtimestamp(begins_s, datetime.timezone.utc).date()
    with open(made, 'w', encoding='utf-8') as file:
        file.write(text.replace('start_unix_s = 1751428800', f'start_unix_s = {begins_s}')
                   .replace('date = 2025-07-02', f'date = {date}'))
    measured.run([podrate, 'synth', made, '--out', day, '--seed', str(i + 1), '--quiet'])
for count in 5, DAYS:
    out = f'{folder}/out_{count}'
    for name, more in (f'season of {count} days', ['--anew']), ('the same, all days taken over', []):
        measured.tell(name, measured.run([podrate, 'season', *days[:count], '--out', out, '--quiet', *more], (0, 1)))
