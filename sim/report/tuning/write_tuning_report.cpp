#include "report/tuning/write_tuning_report.hpp"

#include <string_view>

#include "parameters/parameter_file.hpp"
#include "podrate/parameter_bytes.hpp"
#include "report/output_file.hpp"
#include "report/tuning/tuning_html.hpp"
#include "report/tuning/tuning_words.hpp"

namespace podrate::sim {

ParameterSet recommended_set(const TuneTable& table, const TuningChoice& choice) {
    ParameterSet set;
    if (choice.base) {
        set = *choice.base;
        set.history.push_back(choice.base->made);
    }
    const std::vector<double>& now = table.settings[0].values;
    const std::vector<double>& then = table.settings[choice.chosen.setting].values;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        if (same_value(now[i], then[i])) continue;
        for (std::size_t p = 0; p < kParameterCount; ++p) {
            if (table.parameters[i] == kParameterTable[p].name) set.values[p] = static_cast<Real>(then[i]);
        }
    }
    set.made = choice.made;
    set.made.note = recommendation_note(table, choice);
    if (set.made.made_from_mark.empty()) set.made.made_from_mark = mark_of(choice.present);
    return set;
}

void write_tuning_report(const TuneTable& table, const TuningChoice& choice,
                         const std::filesystem::path& folder) {
    make_folder(folder);
    write_file(folder / "tuning.html", tuning_html(table, choice));
    const ParameterSet set = recommended_set(table, choice);
    keep_parameter_set(folder / "recommended.toml", set);
    Parameters whole = choice.present;
    set.lay_over(whole);
    std::array<std::uint8_t, kParameterBytes> bytes{};
    pack_parameters(whole, bytes.data());
    write_file(folder / "recommended.bin",
               std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

}  // namespace podrate::sim
