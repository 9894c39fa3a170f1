#include <array>
#include <cstdio>
#include <memory>
#include <string>
#include <vector>

#include "cli/commands.hpp"
#include "log/number.hpp"
#include "log/problem.hpp"
#include "parameters/lasting_file.hpp"
#include "parameters/parameter_file.hpp"
#include "parameters/parameter_text.hpp"
#include "podrate/parameter_bytes.hpp"
#include "podrate/parameters.hpp"

namespace podrate::sim {
namespace {

void print_text() {
    std::printf("%-24s %-14s %10s %10s %10s   %s\n", "key", "unit", "least", "most", "default", "source");
    for (const ParameterInfo& p : kParameterTable) {
        std::printf("%-24s %-14s %10s %10s %10s   %s\n", p.name, p.unit, fixed(p.low, p.decimals).c_str(),
                    fixed(p.high, p.decimals).c_str(), fixed(p.value, p.decimals).c_str(),
                    kParameterSources[&p - kParameterTable]);
    }
}

void print_markdown() {
    std::printf("| key | unit | least | most | default | source |\n|---|---|---|---|---|---|\n");
    for (const ParameterInfo& p : kParameterTable) {
        std::printf("| `%s` | %s | %s | %s | %s | %s |\n", p.name, p.unit, fixed(p.low, p.decimals).c_str(),
                    fixed(p.high, p.decimals).c_str(), fixed(p.value, p.decimals).c_str(),
                    kParameterSources[&p - kParameterTable]);
    }
}

struct ParameterOptions {
    bool markdown = false;
    std::string check;
    std::string seal;
    std::vector<std::string> pack;  // the set's file, and the block's
};

void print_entry(const SetEntry& entry) {
    std::printf("%s  %s: %s (from %s%s%s)\n", utc_text(entry.unix_s).c_str(), entry.who.c_str(),
                entry.note.c_str(), entry.made_from.c_str(), entry.made_from_mark.empty() ? "" : ", ",
                entry.made_from_mark.c_str());
}

void print_set(const std::string& file) {
    const KeptSet kept = read_parameter_set(file);
    std::printf("%s: good, %s, %zu of %zu keys\n", file.c_str(), kept.mark.c_str(), kept.set.named(),
                kParameterCount);
    for (const SetEntry& entry : kept.set.history) print_entry(entry);
    print_entry(kept.set.made);
}

// A controller has no day.toml to take the machine's own values from.
void pack(const std::string& file, const std::string& to) {
    const ParameterSet set = read_parameter_set(file).set;
    Parameters parameters;
    set.lay_over(parameters);
    if (!set.values[0]) {
        throw RefusedInput({file, 0, std::string("names no ") + kParameterTable[0].name,
                            "a block without the machine's width would take the default: add it and seal"});
    }
    std::array<std::uint8_t, kParameterBytes> bytes;
    pack_parameters(parameters, bytes.data());
    write_lasting(to, {reinterpret_cast<const char*>(bytes.data()), bytes.size()});
}

}  // namespace

Run add_parameters(CLI::App& app) {
    auto options = std::make_shared<ParameterOptions>();
    CLI::App* command = app.add_subcommand(
        "parameters", "List the keys that a [[machine]] of day.toml and a parameter set may name");
    command->add_flag("--markdown", options->markdown, "As a Markdown table");
    CLI::Option* check = command->add_option("--check", options->check,
                                             "Say whether a parameter set is good, and its history");
    CLI::Option* seal =
        command->add_option("--seal", options->seal,
                            "Check a parameter set that was changed by hand, and write its checksum anew");
    command
        ->add_option("--pack", options->pack,
                     "SET BLOCK: write a parameter set as the block of bytes that a controller takes")
        ->expected(2)
        ->excludes(check, seal);
    check->excludes(seal);
    return [options] {
        if (!options->seal.empty()) seal_parameter_file(options->seal);
        const std::string& shown = options->seal.empty() ? options->check : options->seal;
        if (!shown.empty()) {
            print_set(shown);
        } else if (!options->pack.empty()) {
            pack(options->pack[0], options->pack[1]);
        } else if (options->markdown) {
            print_markdown();
        } else {
            print_text();
        }
        return static_cast<int>(kDone);
    };
}

}  // namespace podrate::sim
