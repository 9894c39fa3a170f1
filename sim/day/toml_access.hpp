// Reading TOML with errors that name file, line, key and the mend.
#pragma once

#include <toml++/toml.h>
#include <filesystem>
#include <set>
#include <string>

#include "log/problem.hpp"

namespace podrate::sim {

// Parses a file. Throws RefusedInput where it can't be opened or is no TOML.
toml::table parse_toml(const std::filesystem::path& path);
// The same of text that was read from `file`.
toml::table parse_toml(const std::string& text, const std::string& file);

// One table of a file, with the checks that every reader of it needs. All calls throw RefusedInput.
class TomlView {
  public:
    TomlView(const toml::table& table, std::string file, std::string place)
        : table_(table), file_(std::move(file)), place_(std::move(place)) {}

    [[nodiscard]] bool has(const std::string& key) const { return table_.contains(key); }
    [[nodiscard]] const toml::node& need(const std::string& key, const std::string& example) const;
    [[nodiscard]] std::string text(const std::string& key, const std::string& example) const;
    [[nodiscard]] std::string text_or(const std::string& key, const std::string& otherwise) const;
    // A TOML date, or a date in quotes: "YYYY-MM-DD".
    [[nodiscard]] std::string date(const std::string& key) const;
    [[nodiscard]] double number(const std::string& key, double low, double high) const;
    [[nodiscard]] double number_or(const std::string& key, double low, double high, double otherwise) const;

    void refuse_unknown_keys(const std::set<std::string>& known) const;
    [[noreturn]] void refuse(const toml::node& at, const std::string& reason, const std::string& mend) const;
    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] const toml::table& table() const { return table_; }

  private:
    const toml::table& table_;
    std::string file_;
    std::string place_;  // e.g. "[[machine]] 2", for the reader of an error
};

}  // namespace podrate::sim
