#include "report/tuning/write_tuning_report.hpp"

#include <algorithm>
#include <map>
#include <string_view>

#include "parameters/parameter_file.hpp"
#include "podrate/parameter_bytes.hpp"
#include "report/output_file.hpp"
#include "report/tuning/tuning_html.hpp"
#include "report/tuning/tuning_words.hpp"
#include "tune/tuned_set.hpp"

namespace podrate::sim {

namespace {

void write_block(Parameters whole, const ParameterSet& set, const std::filesystem::path& file) {
    set.lay_over(whole);
    std::array<std::uint8_t, kParameterBytes> bytes{};
    pack_parameters(whole, bytes.data());
    write_file(file, std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

// A block holds all parameters: one for all machines where they have the same, else one for each, as it was
// on its last day. Blocks of an earlier run into the folder are taken away.
void write_blocks(const TuneTable& table, const TuningChoice& choice, const ParameterSet& set,
                  const std::filesystem::path& folder) {
    std::map<std::string, Parameters> own;
    for (std::size_t i = 0; i < choice.own_of.size(); ++i) own[table.on[i].machine] = choice.own_of[i];
    const bool alike = std::all_of(own.begin(), own.end(), [&](const auto& one) {
        return mark_of(one.second) == mark_of(own.begin()->second);
    });
    const auto file_of = [&](const std::string& machine) {
        return folder / ("recommended_" + machine + ".bin");
    };
    std::error_code unseen;
    if (!alike) std::filesystem::remove(folder / "recommended.bin", unseen);
    for (const auto& [machine, parameters] : own) {
        if (alike) {
            std::filesystem::remove(file_of(machine), unseen);
        } else {
            write_block(parameters, set, file_of(machine));
        }
    }
    if (alike) write_block(choice.present, set, folder / "recommended.bin");
}

}  // namespace

ParameterSet recommended_set(const TuneTable& table, const TuningChoice& choice) {
    SetEntry made = choice.made;
    made.note = recommendation_note(table, choice);
    if (made.made_from_mark.empty()) made.made_from_mark = mark_of(choice.present);
    return tuned_set(table, choice.chosen.setting, choice.base, made);
}

void write_tuning_report(const TuneTable& table, const TuningChoice& choice,
                         const std::filesystem::path& folder) {
    make_folder(folder);
    write_file(folder / "tuning.html", tuning_html(table, choice));
    const ParameterSet set = recommended_set(table, choice);
    keep_parameter_set(folder / "recommended.toml", set);
    write_blocks(table, choice, set, folder);
}

}  // namespace podrate::sim
