// Feeds each file of a folder to the entry point, without libFuzzer: what was once found stays mended.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "fuzz/entry.hpp"

int main(int argc, char** argv) {
    if (argc != 2) return 2;
    int files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(argv[1])) {
        std::ifstream stream(entry.path(), std::ios::binary);
        const std::vector<char> bytes{std::istreambuf_iterator<char>(stream),
                                      std::istreambuf_iterator<char>()};
        const std::vector<std::uint8_t> input(bytes.begin(), bytes.end());
        LLVMFuzzerTestOneInput(input.data(), input.size());
        ++files;
    }
    std::printf("%d inputs\n", files);
    return files >= 5 ? 0 : 1;
}
