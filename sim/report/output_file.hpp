// A file that appears whole or not at all.
#pragma once

#include <cstdio>
#include <filesystem>
#include <string>
#include <string_view>

namespace podrate::sim {

// Writes beside the target under another name and renames in commit(). Throws RefusedInput where that can't
// be done.
class OutputFile {
  public:
    explicit OutputFile(const std::filesystem::path& path);
    ~OutputFile();
    OutputFile(const OutputFile&) = delete;
    OutputFile& operator=(const OutputFile&) = delete;

    void write(std::string_view text);
    void commit();

  private:
    [[noreturn]] void fail(const std::string& what) const;
    std::filesystem::path path_;
    std::filesystem::path draft_;
    std::FILE* file_ = nullptr;
};

void write_file(const std::filesystem::path& path, std::string_view text);

// Makes the folder where it is missing.
void make_folder(const std::filesystem::path& path);

}  // namespace podrate::sim
