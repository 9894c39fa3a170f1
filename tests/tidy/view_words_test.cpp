// Words that people read stand in the tables of ui/text, so that they can be said in each language.
#include <catch2/catch.hpp>
#include <set>

#include "tidy/source_tree.hpp"

using namespace podrate::test;

namespace {

// Text on the terminal and in files, which is English for all: the command line, and what settings.toml
// holds.
const std::set<std::string> kSpeakElsewhere = {"ui/app/main.cpp",          "ui/app/frame_book.cpp",
                                               "ui/settings/settings.cpp", "ui/settings/settings_file.cpp",
                                               "ui/day/save_table.cpp",    "ui/typed/typed_rows.cpp",
                                               "ui/bench/bench_csv.cpp",   "ui/typed/typed_episodes.cpp"};

// What nobody reads in the view: names of its parts and palettes, the program's own, and what only the
// terminal shows.
const std::set<std::string> kNames = {"scene",
                                      "go on",
                                      "back",
                                      "play",
                                      "note",
                                      "put off",
                                      "bring back",
                                      "slower",
                                      "faster",
                                      "help",
                                      "machine",
                                      "map",
                                      "palette",
                                      "track",
                                      "due lane",
                                      "alarm lanes",
                                      "driver",
                                      "together",
                                      "page",
                                      "picture",
                                      "table",
                                      "kind",
                                      "bench",
                                      "edit",
                                      "undo",
                                      "redo",
                                      "reset",
                                      "reset all",
                                      "filter",
                                      "changed",
                                      "charts",
                                      "tables",
                                      "open",
                                      "save",
                                      "key",
                                      "tray",
                                      "reading",
                                      "row",
                                      "day.toml",
                                      ".png",
                                      ".csv",
                                      ".toml",
                                      "day",
                                      "night",
                                      "#version 150",
                                      "Podrate",
                                      "Podrate: ",
                                      " (GLFW ",
                                      "no window system",
                                      "holds no log that can be used: ",
                                      "lies more than 24 days after the day's first row",
                                      "mend the logs named in day.toml",
                                      "stdin"};

const std::regex kNoWords(R"(^\s*#\s*include.*$|//.*$|static_assert\s*\([^"]*"[^"]*"\s*\))");
const std::regex kLiteral(R"re("((?:[^"\\]|\\.)*)")re");
const std::regex kWord(R"([A-Za-z]{2,}|[a-z]/[a-z])");
const std::regex kEscape(R"(\\x[0-9A-Fa-f]{1,2}|\\.)");

std::vector<std::string> words_in(const std::string& path, const std::string& text) {
    std::vector<std::string> found;
    std::size_t from = 0;
    for (std::size_t number = 1; from < text.size(); ++number) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        const std::string line = std::regex_replace(text.substr(from, end - from), kNoWords, "");
        for (std::sregex_iterator it(line.begin(), line.end(), kLiteral), none; it != none; ++it) {
            const std::string words = (*it)[1];
            if (kNames.count(words) != 0 || words.find("/usr/share/fonts/") == 0) continue;
            if (std::regex_search(std::regex_replace(words, kEscape, ""), kWord))
                found.push_back(path + ':' + std::to_string(number) + ": " + words);
        }
        from = end + 1;
    }
    return found;
}

}  // namespace

TEST_CASE("The view's code holds no words: they stand in its table") {
    std::vector<std::string> found;
    std::size_t looked_at = 0;
    for (const SourceFile& file : files_below("ui")) {
        if (file.path.ends_with(".def") || kSpeakElsewhere.count(file.path) != 0) continue;
        ++looked_at;
        const std::vector<std::string> here = words_in(file.path, file.text);
        found.insert(found.end(), here.begin(), here.end());
    }
    CHECK(looked_at > 40);
    CHECK(joined(found) == "");
}

TEST_CASE("The check of words sees words and passes over what is none") {
    for (const char* code : {R"(canvas.text(box, font, colour, "Load rate");)", R"(f(x, "t/ha, ");  // why)",
                             R"(return "km/h";)", R"(x = "\xC2\xB1 kg";)", R"(y = "a \"word\"";)"}) {
        INFO(code);
        CHECK(words_in("x.cpp", code).size() == 1);
    }
    for (const char* code :
         {R"(#include "model/words.hpp")", R"(// says "Load rate")", R"(x = "\xE2\x80\x93";)", R"(y = " %";)",
          R"(button(canvas, box, "play", words);)", R"(static_assert(n, "a text");)",
          R"(z = "%2d:%2d:%2d%n";)", R"(c = 'x';)"}) {
        INFO(code);
        CHECK(words_in("x.cpp", code).empty());
    }
}
