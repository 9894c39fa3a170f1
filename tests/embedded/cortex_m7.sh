#!/bin/sh
# cortex_m7.sh SOURCE_DIR WORK_DIR EIGEN_DIR
# Compiles firmware_core for Cortex-M7 and looks at what the objects want from outside.
set -eu

source_dir=$1
work_dir=$2
eigen_dir=$3
cxx=arm-none-eabi-g++

if ! command -v "$cxx" >/dev/null; then
    echo "skipped: $cxx is not installed"
    exit 77
fi

flags="-std=c++17 -O2 -mcpu=cortex-m7 -mfpu=fpv5-d16 -mfloat-abi=hard -mthumb
    -fno-exceptions -fno-rtti -fno-threadsafe-statics -ffunction-sections -fdata-sections
    -ffp-contract=off -fno-math-errno -Wall -Wextra -Wconversion -Wshadow -Wdouble-promotion -Werror
    -DEIGEN_DONT_VECTORIZE -DEIGEN_NO_DEBUG -DEIGEN_NO_MALLOC -DEIGEN_NO_IO -DEIGEN_MPL2_ONLY
    -I$source_dir/firmware_core -isystem $eigen_dir"

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

rm -rf "$work_dir"
mkdir -p "$work_dir/core" "$work_dir/control"

# Negative control: each of these must be noticed.
cat >"$work_dir/control/control.cpp" <<'END'
#include <cmath>
#include <cstdlib>
float outside(float x);
float* on_the_heap() { return new float[3]; }
void* by_hand(unsigned size) { return std::malloc(size); }
float from_libm(float x) { return std::exp(x) + std::sqrt(x); }
void thrower(int x) { if (x > 3) throw x; }
END
# shellcheck disable=SC2086
"$cxx" $flags -fexceptions -c "$work_dir/control/control.cpp" -o "$work_dir/control/control.o"
noticed=$(forbidden_of "$work_dir/control/control.o")
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

count=0
for file in $(find "$source_dir/firmware_core" -name '*.cpp' | sort); do
    object="$work_dir/core/$(echo "${file#"$source_dir"/firmware_core/}" | tr / _).o"
    # shellcheck disable=SC2086
    "$cxx" $flags -c "$file" -o "$object"
    count=$((count + 1))
done
if [ "$count" -lt 10 ]; then
    echo "only $count sources found"
    exit 1
fi

forbidden=$(forbidden_of "$work_dir"/core/*.o)
if [ -n "$forbidden" ]; then
    echo "the core wants from outside:"
    echo "$forbidden"
    exit 1
fi

arm-none-eabi-size -t "$work_dir"/core/*.o
totals=$(arm-none-eabi-size -t "$work_dir"/core/*.o | awk 'END { print $2 + $3 }')
if [ "$totals" -ne 0 ]; then
    echo "the core keeps $totals bytes of globals"
    exit 1
fi
echo "$count sources; wanted from outside: $(wanted_by "$work_dir"/core/*.o | tr '\n' ' ')"
