// The board where a C library and files are at hand.
#include "embedded/board.hpp"

#include <cstdio>

namespace podrate::test::board {
namespace {

std::FILE* input = nullptr;

}  // namespace

bool open(const char* path) {
    input = std::fopen(path, "rb");
    return input != nullptr;
}

int read(void* to, int bytes) {
    return static_cast<int>(std::fread(to, 1, static_cast<std::size_t>(bytes), input));
}

void print(const char* text) {
    std::fputs(text, stdout);
}

std::uint32_t ticks() {
    return 0;
}
std::uint32_t stack_used() {
    return 0;
}
std::uint32_t stack_size() {
    return 0;
}

}  // namespace podrate::test::board

int main(int argc, char** argv) {
    return podrate::test::work(argc, argv);
}
