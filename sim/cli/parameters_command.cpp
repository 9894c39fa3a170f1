#include <cstdio>
#include <memory>

#include "cli/commands.hpp"
#include "log/number.hpp"
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

}  // namespace

Run add_parameters(CLI::App& app) {
    auto markdown = std::make_shared<bool>(false);
    CLI::App* command =
        app.add_subcommand("parameters", "List the keys that a [[machine]] of day.toml may set");
    command->add_flag("--markdown", *markdown, "As a Markdown table");
    return [markdown] {
        if (*markdown) {
            print_markdown();
        } else {
            print_text();
        }
        return static_cast<int>(kDone);
    };
}

}  // namespace podrate::sim
