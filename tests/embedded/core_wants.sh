#!/bin/sh
# core_wants.sh WORK "CXX;FLAGS" "OBJECTS;..." IMAGE
# Looks at what the core's objects for a Cortex-M7 want from outside, and at what the linked image holds.
set -eu

work_dir=$1
cxx=$(echo "$2" | tr ';' ' ')
objects=$(echo "$3" | tr ';' ' ')
image=$4

# Arithmetic on 64-bit integers, block moves and the square root: all that the core may leave to others.
allowed='^(sqrt|sqrtf|memcpy|memmove|memset|memcmp|__aeabi_(u?ldivmod|u?idivmod|u?idiv|[fd]2u?lz|u?l2[fd]|mem(cpy|move|set|clr)[48]?))$'

# Names that the objects want and none of them has.
wanted_by() {
    arm-none-eabi-nm --defined-only "$@" | awk 'NF == 3 { print $3 }' | sort -u >"$work_dir/defined"
    arm-none-eabi-nm --undefined-only "$@" | awk 'NF == 2 { print $2 }' | sort -u >"$work_dir/undefined"
    comm -23 "$work_dir/undefined" "$work_dir/defined"
}

forbidden_of() {
    wanted_by "$@" | grep -Ev "$allowed" || true
}

heap_of() {
    arm-none-eabi-nm "$1" | grep -E ' _?(malloc|free|calloc|realloc|sbrk)(_r)?$' || true
}

rm -rf "$work_dir"
mkdir -p "$work_dir"

# Negative control: each of these must be noticed.
cat >"$work_dir/control.cpp" <<'CONTROL'
#include <cmath>
#include <cstdlib>
float outside(float x);
float* on_the_heap() { return new float[3]; }
void* by_hand(unsigned size) { return std::malloc(size); }
float from_libm(float x) { return std::exp(x) + std::sqrt(x); }
void thrower(int x) { if (x > 3) throw x; }
int main() { return by_hand(8) != nullptr; }
CONTROL
# shellcheck disable=SC2086
$cxx -O2 -fexceptions -fno-math-errno -c "$work_dir/control.cpp" -o "$work_dir/control.o"
noticed=$(forbidden_of "$work_dir/control.o")
for name in _Znaj malloc expf __cxa_throw __cxa_allocate_exception; do
    if ! echo "$noticed" | grep -qx "$name"; then
        echo "the check is blind: it did not notice $name"
        exit 1
    fi
done
if echo "$noticed" | grep -q sqrt; then
    echo "the check takes the square root for forbidden"
    exit 1
fi
# shellcheck disable=SC2086
$cxx --specs=nano.specs --specs=nosys.specs "$work_dir/control.o" -o "$work_dir/control" 2>/dev/null
if [ -z "$(heap_of "$work_dir/control")" ]; then
    echo "the check is blind: it did not notice the heap in an image"
    exit 1
fi

# shellcheck disable=SC2086
set -- $objects
for there in _ZN7podrate9Estimator4feedERKNS_6SampleE _ZN7podrate3bus10BusDecoder4takeERKNS0_8CanFrameE podrate_feed; do
    if ! arm-none-eabi-nm --defined-only "$@" | grep -q " T $there\$"; then
        echo "the objects lack $there"
        exit 1
    fi
done
forbidden=$(forbidden_of "$@")
if [ -n "$forbidden" ]; then
    echo "the core wants from outside:"
    echo "$forbidden"
    exit 1
fi
globals=$(arm-none-eabi-size -t "$@" | awk 'END { print $2 + $3 }')
if [ "$globals" -ne 0 ]; then
    echo "the core keeps $globals bytes of globals"
    exit 1
fi
if [ -n "$(heap_of "$image")" ]; then
    echo "the image holds a heap: $(heap_of "$image")"
    exit 1
fi
echo "$# objects; wanted from outside: $(wanted_by "$@" | tr '\n' ' ')"
