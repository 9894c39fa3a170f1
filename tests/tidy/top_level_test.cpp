#include <catch2/catch.hpp>
#include <cstdio>
#include <memory>
#include <set>

#include "tidy/source_tree.hpp"

using namespace podrate::test;

namespace fs = std::filesystem;

namespace {

using Names = std::set<std::string>;

const Names kTopLevel = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "firmware_core", "sim", "ui",
                         "tests",          "demo_logs"};

// Top-level names that git keeps; empty where there is no git or no repository.
Names kept_by_git() {
    Names names;
    const std::string command = "git -C '" + top_of_tree().string() + "' ls-files 2>/dev/null";
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    char line[4096];
    while (pipe && std::fgets(line, sizeof line, pipe.get()) != nullptr) {
        const std::string path(line);
        names.insert(path.substr(0, path.find_first_of("/\n")));
    }
    return names;
}

// The same from the folder itself, builds and results left out.
Names on_disk() {
    Names names;
    for (const auto& entry : fs::directory_iterator(top_of_tree())) {
        const std::string name = entry.path().filename().string();
        if (entry.is_directory() && (name.rfind("build", 0) == 0 || name == "out")) continue;
        names.insert(name);
    }
    return names;
}

Names without_dotfiles(Names names) {
    for (auto it = names.begin(); it != names.end();)
        it = it->front() == '.' ? names.erase(it) : std::next(it);
    return names;
}

}  // namespace

TEST_CASE("The top level holds what it should and nothing else") {
    const Names kept = kept_by_git();
    for (const std::string& name : without_dotfiles(kept.empty() ? on_disk() : kept)) {
        INFO(name);
        CHECK(kTopLevel.count(name) == 1);
    }
    const Names present = on_disk();
    for (const std::string& name : kTopLevel) {
        INFO(name << " should be there");
        CHECK(present.count(name) == 1);
    }
}
