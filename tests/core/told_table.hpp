// Lines of a table made with another program: what is given, a colon, then name=value for each value read.
#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace podrate::test {

struct ToldLine {
    std::vector<std::string> given;
    std::map<std::string, double> values;
    [[nodiscard]] bool has(const std::string& name) const { return values.count(name) == 1; }
};

// Lines that begin with # are left out.
inline std::vector<ToldLine> told_table(const std::string& name) {
    std::ifstream file(std::string(PODRATE_TABLES) + "/" + name);
    std::vector<ToldLine> table;
    std::string line;
    while (std::getline(file, line)) {
        if (line.empty() || line.front() == '#') continue;
        ToldLine told;
        std::istringstream words(line);
        std::string word;
        while (words >> word) {
            const std::size_t sign = word.find('=');
            if (sign != std::string::npos && sign > 0) {
                told.values[word.substr(0, sign)] = std::stod(word.substr(sign + 1));
            } else if (word != ":") {
                told.given.push_back(word);
            }
        }
        table.push_back(told);
    }
    return table;
}

}  // namespace podrate::test
