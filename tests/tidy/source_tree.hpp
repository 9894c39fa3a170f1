// The source tree, for tests that read it.
#pragma once

#include <filesystem>
#include <regex>
#include <string>
#include <vector>

namespace podrate::test {

struct SourceFile {
    std::string path;  // from the top of the tree, with /
    std::string text;
    [[nodiscard]] bool is_header() const { return path.ends_with(".hpp"); }
};

// All .cpp, .hpp and .def files below a folder of the tree, sorted; none where the folder is missing.
std::vector<SourceFile> files_below(const std::string& folder);

// The text with comments and the insides of string and character literals blanked, line ends kept.
std::string code_of(const std::string& text);

// "path:line: text" for each line of `text` that the pattern is found in.
std::vector<std::string> lines_with(const std::string& path, const std::string& text,
                                    const std::regex& pattern);

// One message of all, for a test to show.
std::string joined(const std::vector<std::string>& lines);

std::filesystem::path top_of_tree();

}  // namespace podrate::test
