// A folder of this test's own, gone when the test ends: tests run side by side.
#pragma once

#include <filesystem>
#include <string>

namespace podrate::test {

class TempFolder {
  public:
    TempFolder();
    ~TempFolder();
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

    // Writes a file and gives its path.
    [[nodiscard]] std::filesystem::path file(const std::string& name, const std::string& text) const;

  private:
    std::filesystem::path path_;
};

void write_text(const std::filesystem::path& path, const std::string& text);
std::string text_of(const std::filesystem::path& path);

}  // namespace podrate::test
