// The board of a bare Cortex-M: start-up, faults, stack painting, and files through semihosting (Arm IHI
// 0029, "Semihosting for AArch32 and AArch64"; registers by the ARMv7-M Architecture Reference Manual).
#include "embedded/board.hpp"

#include <cstring>

extern "C" {
extern std::uint32_t stack_end, stack_top, data_begin, data_end, data_in_flash, bss_begin, bss_end;
[[noreturn]] void reset();
[[noreturn]] void fault_with(const std::uint32_t* frame);
void fault();
}

namespace podrate::test {
namespace {

volatile std::uint32_t& reg(std::uint32_t address) {
    return *reinterpret_cast<volatile std::uint32_t*>(address);
}

constexpr std::uint32_t kPaint = 0xA5A5A5A5;
constexpr int kOpen = 0x01;
constexpr int kWrite0 = 0x04;
constexpr int kRead = 0x06;
constexpr int kCommandLine = 0x15;
constexpr int kExitExtended = 0x20;
constexpr std::uint32_t kApplicationExit = 0x20026;

std::uint32_t ask_host(int what, const void* about) {
    register std::uint32_t r0 asm("r0") = static_cast<std::uint32_t>(what);
    register const void* r1 asm("r1") = about;
    asm volatile("bkpt 0xAB" : "+r"(r0) : "r"(r1) : "memory");
    return r0;
}

std::uint32_t address_of(const void* p) {
    return reinterpret_cast<std::uint32_t>(p);
}

[[noreturn]] void finish(int code) {
    const std::uint32_t block[2] = {kApplicationExit, static_cast<std::uint32_t>(code)};
    ask_host(kExitExtended, block);
    for (;;) {
    }
}

std::uint32_t handle = 0;
char line[256];
constexpr int kMostWords = 6;

int split(const char** words) {
    int count = 0;
    for (char* at = line; *at != '\0' && count < kMostWords;) {
        words[count++] = at;
        while (*at != '\0' && *at != ' ') ++at;
        if (*at == ' ') *at++ = '\0';
    }
    return count;
}

// Kept out of reset(), so that nothing touches the floating-point unit before it is on.
[[noreturn, gnu::noinline]] void start() {
    for (std::uint32_t *to = &data_begin, *from = &data_in_flash; to < &data_end;) *to++ = *from++;
    for (std::uint32_t* to = &bss_begin; to < &bss_end;) *to++ = 0;
    volatile std::uint32_t* here = nullptr;
    asm volatile("mov %0, sp" : "=r"(here));
    for (volatile std::uint32_t* p = &stack_end; p < here; ++p) *p = kPaint;
    reg(0xE000E014) = board::kTickMask;  // SysTick: reload, value, on with the processor's clock
    reg(0xE000E018) = 0;
    reg(0xE000E010) = 5;
    const std::uint32_t block[2] = {address_of(line), sizeof line};
    const char* words[kMostWords] = {};
    int count = 0;
    if (ask_host(kCommandLine, block) == 0) count = split(words);
    finish(work(count, words));
}

}  // namespace

namespace board {

bool open(const char* path) {
    const std::uint32_t block[3] = {address_of(path), 1 /* "rb" */, std::strlen(path)};
    handle = ask_host(kOpen, block);
    return handle != 0xFFFFFFFF;
}

int read(void* to, int bytes) {
    const std::uint32_t block[3] = {handle, address_of(to), static_cast<std::uint32_t>(bytes)};
    return bytes - static_cast<int>(ask_host(kRead, block));  // it tells what was not read
}

void print(const char* text) {
    ask_host(kWrite0, text);
}

std::uint32_t ticks() {
    return kTickMask - reg(0xE000E018);  // SysTick counts down
}

std::uint32_t stack_used() {
    const std::uint32_t* p = &stack_end;
    while (p < &stack_top && *p == kPaint) ++p;
    return address_of(&stack_top) - address_of(p);
}

std::uint32_t stack_size() {
    return address_of(&stack_top) - address_of(&stack_end);
}

}  // namespace board
}  // namespace podrate::test

extern "C" {

void reset() {
    podrate::test::reg(0xE000ED88) = 0xFU << 20;  // CPACR: full access to the floating-point unit
    asm volatile("dsb\n isb" ::: "memory");
    podrate::test::start();
}

void fault_with(const std::uint32_t* frame) {
    using namespace podrate::test;
    char text[] = "fault at 00000000\n";
    const std::uint32_t* stack_begin = &stack_end;
    // A stack that ran over has no frame to look at.
    std::uint32_t pc = frame >= stack_begin ? frame[6] : 0;
    for (int i = 16; i > 8; --i, pc >>= 4) text[i] = "0123456789abcdef"[pc & 15];
    board::print(text);
    finish(2);
}

// The stack may be what has failed: the handler goes on at its top, on what was there before.
[[gnu::naked]] void fault() {
    asm volatile(
        "mov r0, sp\n"
        "ldr r1, =stack_top\n"
        "mov sp, r1\n"
        "b fault_with\n");
}

#define PODRATE_TRAP(result, name, ...)                        \
    result __wrap_##name(__VA_ARGS__) {                        \
        podrate::test::board::print("heap used: " #name "\n"); \
        podrate::test::finish(3);                              \
    }
PODRATE_TRAP(void*, malloc, std::size_t)
PODRATE_TRAP(void*, calloc, std::size_t, std::size_t)
PODRATE_TRAP(void*, realloc, void*, std::size_t)
PODRATE_TRAP(void, free, void*)
PODRATE_TRAP(void*, _malloc_r, void*, std::size_t)
PODRATE_TRAP(void, _free_r, void*, void*)

using Handler = void (*)();
extern const Handler vectors[16];
[[gnu::section(".vectors"), gnu::used]] const Handler vectors[16] = {reinterpret_cast<Handler>(&stack_top),
                                                                     reset,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault,
                                                                     fault};
}
