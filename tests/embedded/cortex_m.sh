#!/bin/sh
# cortex_m.sh [--count] BOARD IMAGE [WORD...]
# Runs an image in QEMU; words are handed to it, files are opened on the host. --count: one instruction is 64 ns, so
# that a 25 MHz timer counts 1.6 ticks an instruction; the same run then gives the same counts.
set -eu

count=
if [ "$1" = --count ]; then
    count="-icount shift=6,sleep=off"
    shift
fi
board=$1
image=$2
shift 2
words="arg=image"
for word; do words="$words,arg=$word"; done
# shellcheck disable=SC2086
exec timeout 280 qemu-system-arm -M "$board" $count -nographic -monitor none -serial none -chardev stdio,id=sh \
    -semihosting-config "enable=on,target=native,chardev=sh,$words" -kernel "$image" </dev/null
