// A text file that is written as it grows, compressed where its name ends in .zst.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "report/output_file.hpp"

namespace podrate::sim {

// Stands there once commit() was called. Throws RefusedInput where it can't be written.
class TextOutput {
  public:
    explicit TextOutput(const std::filesystem::path& path);
    ~TextOutput();
    void write(std::string_view text);
    void commit();

  private:
    struct Packer;
    void pack(bool last);
    OutputFile file_;
    std::unique_ptr<Packer> packer_;  // none where the file is plain
    std::string pending_;
};

}  // namespace podrate::sim
