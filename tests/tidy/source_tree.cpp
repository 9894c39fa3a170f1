#include "tidy/source_tree.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>

namespace podrate::test {

namespace fs = std::filesystem;

fs::path top_of_tree() {
    return PODRATE_SOURCE_DIR;
}

std::vector<SourceFile> files_below(const std::string& folder) {
    std::vector<SourceFile> files;
    const fs::path root = top_of_tree() / folder;
    if (!fs::is_directory(root)) return files;
    for (const auto& entry : fs::recursive_directory_iterator(root)) {
        const std::string kind = entry.path().extension().string();
        if (!entry.is_regular_file() || (kind != ".cpp" && kind != ".hpp" && kind != ".def")) continue;
        std::ifstream stream(entry.path(), std::ios::binary);
        files.push_back({fs::relative(entry.path(), top_of_tree()).generic_string(),
                         {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()}});
    }
    std::sort(files.begin(), files.end(),
              [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
    return files;
}

std::string code_of(const std::string& text) {
    std::string code = text;
    enum class In { plain, line_comment, block_comment, string, character };
    In in = In::plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const char next = i + 1 < text.size() ? text[i + 1] : '\0';
        const bool digit_before = i > 0 && std::isalnum(static_cast<unsigned char>(text[i - 1])) != 0;
        switch (in) {
            case In::plain:
                if (c == '/' && next == '/') in = In::line_comment;
                if (c == '/' && next == '*') in = In::block_comment;
                if (c == '"') in = In::string;
                if (c == '\'' && !digit_before) in = In::character;
                if (in == In::line_comment || in == In::block_comment) code[i] = ' ';
                break;
            case In::line_comment:
                if (c == '\n') {
                    in = In::plain;
                } else {
                    code[i] = ' ';
                }
                break;
            case In::block_comment:
                if (c != '\n') code[i] = ' ';
                if (c == '*' && next == '/') {
                    code[++i] = ' ';
                    in = In::plain;
                }
                break;
            case In::string:
            case In::character: {
                const char end = in == In::string ? '"' : '\'';
                if (c == end || c == '\n') {
                    in = In::plain;
                    break;
                }
                code[i] = ' ';
                if (c == '\\' && i + 1 < text.size() && next != '\n') code[++i] = ' ';
            }
        }
    }
    return code;
}

std::vector<std::string> lines_with(const std::string& path, const std::string& text,
                                    const std::regex& pattern) {
    std::vector<std::string> found;
    std::istringstream lines(text);
    std::string line;
    for (int number = 1; std::getline(lines, line); ++number) {
        if (std::regex_search(line, pattern)) {
            found.push_back(path + ":" + std::to_string(number) + ": " + line);
        }
    }
    return found;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) text += line + "\n";
    return text;
}

}  // namespace podrate::test
