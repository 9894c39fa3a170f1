"""Measures `podrate tune` over a day of 24 h: 1,000 settings of alarms, and 20 that need a replay each.
usage: tune.py PODRATE SCENARIO FOLDER"""
import os
import sys

import measured

podrate, scenario, folder = sys.argv[1:]
os.makedirs(folder, exist_ok=True)
day = f'{folder}/day'
if not os.path.exists(f'{day}/day.toml'):
    measured.run([podrate, 'synth', scenario, '--out', day, '--quiet'])


def sweep(name, settings, *sweeps):
    call = [podrate, 'tune', day, '--out', f'{folder}/out', '--anew', '--quiet', '--jobs', '2']
    for one in sweeps:
        call += ['--sweep', one]
    wall_s, cpu_s, peak_mb = measured.run(call)
    measured.tell(name, (wall_s, cpu_s, peak_mb))
    print(f'{"":<44} {1e3 * cpu_s / settings:7.1f} ms of processor time a setting', flush=True)


sweep('1 setting of alarms', 1, 'loss_high_share=0.15')
sweep('1,000 settings of alarms', 1000, 'loss_high_share=0.05:0.25:20', 'loss_high_on_s=0:40:10',
      'hopper_full_share=0.9,0.92,0.94,0.96,0.98')
sweep('20 settings that need a replay each', 20, 'drum_loss_share=0.02:0.06:20')
