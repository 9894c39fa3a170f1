// control WAY: what must not pass unseen. Each way ends with a message and an exit code of its own.
#include <cstdlib>
#include <cstring>

#include "embedded/board.hpp"

namespace podrate::test {
namespace {

// volatile: so that the compiler leaves none of it out.
void* volatile kept = nullptr;
volatile std::uint32_t* volatile nowhere = reinterpret_cast<volatile std::uint32_t*>(0x90000000);

// Deeper than the stack goes, on purpose.
[[gnu::noinline]] int deep(int depth) {
    volatile char frame[256];
    frame[0] = static_cast<char>(depth);
    if (depth == 0) return 0;
    return deep(depth - 1) + frame[0];
}

}  // namespace

int work(int count, const char* const* words) {
    const char* way = count > 1 ? words[1] : "";
    if (std::strcmp(way, "heap") == 0) kept = std::malloc(8);
    if (std::strcmp(way, "fault") == 0) *nowhere = 1;
    if (std::strcmp(way, "stack") == 0) kept = reinterpret_cast<void*>(deep(1000));
    board::print("nobody noticed\n");
    return 0;
}

}  // namespace podrate::test
