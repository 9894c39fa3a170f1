#include "parameters/parameter_text.hpp"

#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <set>

#include "day/toml_access.hpp"
#include "log/csv_record.hpp"
#include "log/number.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kSealBegins = "checksum = \"";
constexpr const char* kSealByHand = "podrate parameters --seal ";
constexpr const char* kExampleTime = "2026-06-27T05:40:00Z";

std::string quoted(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            (out += '\\') += c;
        } else if (byte < 0x20U || byte == 0x7FU) {
            constexpr const char* kDigits = "0123456789ABCDEF";
            ((out += "\\u00") += kDigits[byte >> 4U]) += kDigits[byte & 15U];
        } else {
            out += c;
        }
    }
    return out + '"';
}

// The shortest text that reads back as the same number.
std::string exact(Real value) {
    char digits[40];
    return {digits, std::to_chars(digits, digits + sizeof digits, value).ptr};
}

std::int64_t read_time(const TomlView& view) {
    const toml::node& node = view.need("when", kExampleTime);
    const auto* told = node.as_date_time();
    if (told == nullptr || !told->get().offset)
        view.refuse(node, "'when' is no moment", std::string("write it like when = ") + kExampleTime);
    const toml::date_time& t = told->get();
    const std::chrono::sys_days day{std::chrono::year(t.date.year) / t.date.month / t.date.day};
    const std::chrono::sys_seconds moment = day + std::chrono::hours(t.time.hour) +
                                            std::chrono::minutes(t.time.minute - t.offset->minutes) +
                                            std::chrono::seconds(t.time.second);
    return moment.time_since_epoch().count();
}

const std::set<std::string> kEntryKeys = {"note", "who", "when", "made_from", "made_from_mark"};

SetEntry read_entry(const TomlView& view) {
    SetEntry entry;
    entry.note = view.text("note", "\"why\"");
    entry.who = view.text("who", "\"who made it\"");
    entry.unix_s = read_time(view);
    entry.made_from = view.text("made_from", "\"viner_1\"");
    entry.made_from_mark = view.text("made_from_mark", "\"\"");
    return entry;
}

std::string entry_text(const SetEntry& entry) {
    return "note = " + quoted(entry.note) + "\nwho = " + quoted(entry.who) +
           "\nwhen = " + utc_text(entry.unix_s) + "\nmade_from = " + quoted(entry.made_from) +
           "\nmade_from_mark = " + quoted(entry.made_from_mark) + '\n';
}

std::uint32_t read_version(const TomlView& top) {
    constexpr double kMostVersion = 1e6;
    const std::string key = "parameter_version";
    const double version = top.number(key, 1, kMostVersion);
    if (version != std::floor(version))
        top.refuse(top.need(key, "4"), "'" + key + "' is no whole number", "give the one it was written for");
    if (version > kParameterVersion) {
        top.refuse(top.need(key, "4"),
                   "is of parameter version " + fixed(version, 0) + ", and this program knows them up to " +
                       std::to_string(kParameterVersion),
                   "use a newer podrate");
    }
    return static_cast<std::uint32_t>(version);
}

void read_values(const TomlView& view, std::uint32_t version, ParameterSet& set) {
    std::set<std::string> known;
    for (const ParameterInfo& info : kParameterTable) known.insert(info.name);
    for (const auto& [key, node] : view.table()) {
        const std::string name(key.str());
        if (const ChangedKey* changed = changed_since(name, version)) {
            view.refuse(node,
                        "'" + name + "' " + changed->reason + " (the file is of parameter version " +
                            std::to_string(version) + ")",
                        std::string(changed->mend) +
                            ", and parameter_version = " + std::to_string(kParameterVersion));
        }
        if (known.count(name) == 0)
            view.refuse(node, "unknown key '" + shortened(name) + "'", "`podrate parameters` lists the keys");
    }
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        const ParameterInfo& info = kParameterTable[i];
        if (view.has(info.name))
            set.values[i] = static_cast<Real>(view.number(info.name, info.low, info.high));
    }
}

void read_history(const TomlView& top, ParameterSet& set) {
    if (!top.has("history")) return;
    const toml::node& node = top.need("history", "");
    const toml::array* list = node.as_array();
    if (list == nullptr)
        top.refuse(node, "'history' is no list", "begin each change with a line [[history]]");
    for (const toml::node& entry : *list) {
        const toml::table* table = entry.as_table();
        if (table == nullptr)
            top.refuse(entry, "'history' holds no change", "begin each change with a line [[history]]");
        const TomlView view(*table, top.file(), "[[history]] " + std::to_string(set.history.size() + 1));
        view.refuse_unknown_keys(kEntryKeys);
        set.history.push_back(read_entry(view));
    }
}

ParameterSet read_content(const std::string& text, const std::string& file) {
    const toml::table table = parse_toml(text, file);
    const TomlView top(table, file, "");
    std::set<std::string> known = kEntryKeys;
    known.insert({"checksum", "parameter_version", "parameters", "history"});
    top.refuse_unknown_keys(known);
    const std::uint32_t version = read_version(top);
    ParameterSet set;
    set.made = read_entry(top);
    const toml::node& values =
        top.need("parameters", "…, as a line [parameters] with a key on each line below");
    if (!values.is_table())
        top.refuse(values, "'parameters' is no table", "begin it with a line [parameters]");
    read_values(TomlView(*values.as_table(), file, "[parameters]"), version, set);
    read_history(top, set);
    return set;
}

bool begins_with_seal(const std::string& text) {
    return text.rfind("checksum", 0) == 0;
}

// All behind the first line.
std::string content_of(const std::string& text) {
    const std::size_t end = text.find('\n');
    return end == std::string::npos ? std::string() : text.substr(end + 1);
}

std::string sealed(const std::string& content) {
    return kSealBegins + mark_of(content) + "\"\n" + content;
}

}  // namespace

std::string utc_text(std::int64_t unix_s) {
    const std::chrono::sys_seconds moment{std::chrono::seconds(unix_s)};
    const auto day = std::chrono::floor<std::chrono::days>(moment);
    const std::chrono::year_month_day date(day);
    const std::chrono::hh_mm_ss clock(moment - day);
    char text[40];
    std::snprintf(text, sizeof text, "%04d-%02u-%02uT%02d:%02d:%02dZ", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                  static_cast<int>(clock.hours().count()), static_cast<int>(clock.minutes().count()),
                  static_cast<int>(clock.seconds().count()));
    return text;
}

std::string mark_of_text(const std::string& text) {
    return mark_of(content_of(text));
}

ParameterSet parse_parameter_set(const std::string& text, const std::string& file) {
    const std::string seal_it = kSealByHand + file;
    if (!begins_with_seal(text)) {
        throw RefusedInput({file, 1, "does not begin with its checksum",
                            "if it was written by hand, " + seal_it + " checks it and writes one"});
    }
    if (text != sealed(content_of(text))) {
        throw RefusedInput(
            {file, 0, "is damaged, or was changed without being sealed again",
             "take back " + std::filesystem::path(file).filename().string() +
                 ".bak, the last good one, if it is there; what was changed by hand, seal with " + seal_it});
    }
    return read_content(text, file);
}

std::string parameter_set_text(const ParameterSet& set) {
    std::string text =
        "# Parameters of Podrate. What is not named here stays as the machine has it; `podrate parameters` "
        "lists all keys.\n# Changed by hand, it is sealed again with `podrate parameters --seal FILE`.\n"
        "parameter_version = " +
        std::to_string(kParameterVersion) + '\n' + entry_text(set.made) + "\n[parameters]\n";
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        if (!set.values[i]) continue;
        const ParameterInfo& info = kParameterTable[i];
        text += info.name + (" = " + exact(*set.values[i])) + "  # " + info.unit + ", default " +
                fixed(info.value, info.decimals) + '\n';
    }
    for (const SetEntry& entry : set.history) text += "\n[[history]]\n" + entry_text(entry);
    return sealed(text);
}

std::string sealed_again(const std::string& text, const std::string& file) {
    (void)read_content(text, file);
    return sealed(begins_with_seal(text) ? content_of(text) : text);
}

}  // namespace podrate::sim
