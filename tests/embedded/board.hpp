// What a program under test needs of the thing it runs on: a desktop, or a controller in an emulator.
#pragma once

#include <cstdint>

namespace podrate::test {

// The program. `words`: what it was started with, its own name first.
int work(int count, const char* const* words);

namespace board {

// Opens the input; false where there is none.
bool open(const char* path);
// Reads up to `bytes`; 0 at the end.
int read(void* to, int bytes);
void print(const char* text);

// Counter that goes up with the instructions done, modulo 2^24; kTicksPer100 of them for 100 instructions.
// Stands still on a desktop.
std::uint32_t ticks();
inline constexpr std::uint32_t kTickMask = 0xFFFFFF;
inline constexpr std::uint32_t kTicksPer100 = 160;

// Bytes of the stack that were ever used, and that there are; 0 on a desktop.
std::uint32_t stack_used();
std::uint32_t stack_size();

}  // namespace board
}  // namespace podrate::test
