#!/bin/sh
# same_bits.sh same|differ SAMPLES WORK REFERENCE PROGRAM [WORD...]
# Runs a sample stream on the reference and on another target, and compares what both print. `differ`: a negative
# control, which passes only where the two part. Says at which step they first do.
set -eu

expected=$1
samples=$2
work=$3
reference=$4
shift 4

for tool in "$reference" "$1"; do
    if ! command -v "$tool" >/dev/null; then
        echo "skipped: $tool is missing"
        exit 77
    fi
done
mkdir -p "$work"

first_difference() {
    diff "$work/reference" "$work/target" | grep -m 1 '^[<>] step' | cut -d ' ' -f 3 || true
}

"$reference" "$samples" >"$work/reference"
"$@" "$samples" >"$work/target"
steps=$(awk '$1 == "step" { last = $2 } END { print last + 0 }' "$work/reference")
if [ "$steps" -lt 10000 ] || ! grep -q '^harvested_kg' "$work/reference"; then
    echo "the reference ran for $steps steps only"
    exit 1
fi

if cmp -s "$work/reference" "$work/target"; then
    echo "the same bits over $steps steps"
    [ "$expected" = same ]
    exit
fi
if [ "$expected" = same ]; then  # look closer
    "$reference" "$samples" 1 >"$work/reference"
    "$@" "$samples" 1 >"$work/target"
fi
echo "they part at step $(first_difference)"
diff "$work/reference" "$work/target" | head -4
[ "$expected" = differ ]
