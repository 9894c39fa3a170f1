#!/bin/sh
# write_samples.sh WRITER BITS DAY OUT: a stream for each of the day's machines; run through the estimator here, each
# must end with the totals of the replay that it was taken from.
set -eu

mkdir -p "$4"
for machine in viner_1 viner_2 viner_3; do
    "$1" "$3" "$machine" "$4/$machine" >"$4/$machine.replay"
    "$2" "$4/$machine" >"$4/$machine.run"
    grep -E '^(harvested_kg|area_m2|lost_kg|loss_share) ' "$4/$machine.run" | cmp - "$4/$machine.replay"
done
# The first hour and a half, for what need not run for long.
"$1" "$3" viner_2 "$4/short" 150000 >/dev/null
# A stream that is cut must not pass for a whole one.
head -c 1000000 "$4/viner_1" >"$4/cut"
if "$2" "$4/cut" >/dev/null; then
    echo "a stream that is cut passed for a whole one"
    exit 1
fi
