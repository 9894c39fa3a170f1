#include "day/toml_access.hpp"

#include <cmath>
#include <fstream>
#include <sstream>

#include "log/number.hpp"

namespace podrate::sim {

toml::table parse_toml(const std::filesystem::path& path) {
    std::ifstream stream(path, std::ios::binary);
    std::error_code unseen;
    if (!stream || std::filesystem::is_directory(path, unseen)) {
        throw RefusedInput({path.string(), 0, "can't be opened", "check the name and the permissions"});
    }
    std::ostringstream text;
    text << stream.rdbuf();
    return parse_toml(text.str(), path.string());
}

toml::table parse_toml(const std::string& text, const std::string& file) {
    try {
        return toml::parse(text, file);
    } catch (const toml::parse_error& error) {
        throw RefusedInput({file, error.source().begin.line, std::string(error.description()),
                            "mend that line (TOML 1.0)"});
    }
}

void TomlView::refuse(const toml::node& at, const std::string& reason, const std::string& mend) const {
    throw RefusedInput(
        {file_, at.source().begin.line, place_.empty() ? reason : place_ + ": " + reason, mend});
}

const toml::node& TomlView::need(const std::string& key, const std::string& example) const {
    const toml::node* node = table_.get(key);
    if (node == nullptr) refuse(table_, "has no '" + key + "'", "add a line like " + key + " = " + example);
    return *node;
}

std::string TomlView::text(const std::string& key, const std::string& example) const {
    const toml::node& node = need(key, example);
    if (!node.is_string()) refuse(node, "'" + key + "' is not text", "write it in quotes, like " + example);
    return node.as_string()->get();
}

std::string TomlView::text_or(const std::string& key, const std::string& otherwise) const {
    return has(key) ? text(key, '"' + otherwise + '"') : otherwise;
}

std::string TomlView::date(const std::string& key) const {
    const toml::node& node = need(key, "2025-06-27");
    std::ostringstream text;
    if (const auto* day = node.as_date()) {
        text << day->get();
    } else if (const auto* quoted = node.as_string()) {
        text << quoted->get();
    }
    const std::string found = text.str();
    const bool shaped = found.size() == 10 && found[4] == '-' && found[7] == '-' &&
                        found.find_first_not_of("0123456789-") == std::string::npos;
    const bool real = shaped && found.substr(5, 2) >= "01" && found.substr(5, 2) <= "12" &&
                      found.substr(8) >= "01" && found.substr(8) <= "31";
    if (!real) refuse(node, "'" + key + "' is no date", "write it like " + key + " = 2025-06-27");
    return found;
}

double TomlView::number(const std::string& key, double low, double high) const {
    const toml::node& node = need(key, shown((low + high) / 2));
    const auto value = node.value<double>();
    const std::string range = "give a number from " + shown(low) + " to " + shown(high);
    if (!node.is_number() || !value) refuse(node, "'" + key + "' is not a number", range);
    if (!(*value >= low && *value <= high)) {
        refuse(node, "'" + key + "' = " + shown(*value) + " is out of range", range);
    }
    return *value;
}

void TomlView::refuse_unknown_keys(const std::set<std::string>& known) const {
    for (const auto& [key, node] : table_) {
        if (known.count(std::string(key.str())) != 0) continue;
        refuse(node, "unknown key '" + std::string(key.str()) + "'", "check its spelling or take it out");
    }
}

double TomlView::number_or(const std::string& key, double low, double high, double otherwise) const {
    return has(key) ? number(key, low, high) : otherwise;
}

}  // namespace podrate::sim
