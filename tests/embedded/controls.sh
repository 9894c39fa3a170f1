#!/bin/sh
# controls.sh "RUN" BOARD_OBJECT SOURCE_DIR: negative controls of start-up, traps and linker script.
set -u

run=$1
board=$2
source_dir=$3
if ! command -v qemu-system-arm >/dev/null; then
    echo "skipped: qemu-system-arm is not installed"
    exit 77
fi

expect() {  # way, text, exit code
    text=$($run "$1")
    code=$?
    if [ "$code" -ne "$3" ] || ! echo "$text" | grep -q "$2"; then
        echo "$1: code $code, said: $text"
        exit 1
    fi
}
expect nothing "nobody noticed" 0
expect heap "heap used: malloc" 3
expect fault "fault at 0000" 2
expect stack "fault at" 2

# A stack below the least must not link.
if said=$(arm-none-eabi-g++ -mcpu=cortex-m4 -mfpu=fpv4-sp-d16 -mthumb -mfloat-abi=hard -nostartfiles \
    --specs=nano.specs --specs=nosys.specs -Wl,--defsym=stack_bytes=1024 -Wl,--unresolved-symbols=ignore-all \
    -T "$source_dir/cortex_m.ld" "$board" -o /dev/null 2>&1); then
    echo "a stack of 1 KB was linked"
    exit 1
fi
echo "$said" | grep -q "the stack is below the least" || { echo "$said"; exit 1; }

# A call graph that runs in a circle has no depth, and one that does not has.
graph() {
    printf 'node: { title: "a" label: "a\\n8 bytes (static)" }\nnode: { title: "b" label: "b\\n16 bytes (static)" }\n'
    printf 'edge: { sourcename: "a" targetname: "b" }\n'
    if [ "$1" = round ]; then printf 'edge: { sourcename: "b" targetname: "a" }\n'; fi
}
graph straight | awk -f "$source_dir/stack_depth.awk" -v roots=a | grep -qx "most 24" || exit 1
if graph round | awk -f "$source_dir/stack_depth.awk" -v roots=a; then
    echo "recursion passed for a depth"
    exit 1
fi
