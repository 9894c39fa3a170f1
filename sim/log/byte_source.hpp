// Bytes of a file, decompressed on the way where its name ends in .zst.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

namespace podrate::sim {

class ByteSource {
  public:
    virtual ~ByteSource() = default;
    // Fills up to `size` bytes; 0 at the end.
    virtual std::size_t read(char* to, std::size_t size) = 0;
    // Why the end came early, or empty where the file ended properly. Asked after read() gave 0.
    [[nodiscard]] virtual std::string trouble() const = 0;
    // Bytes of the file on disk read so far, for progress.
    [[nodiscard]] virtual std::uint64_t position() const = 0;
};

// Throws RefusedInput where the file can't be opened.
std::unique_ptr<ByteSource> open_bytes(const std::filesystem::path& path);

}  // namespace podrate::sim
