#include "report/tuning/write_tuning_report.hpp"

#include <string_view>

#include "parameters/parameter_file.hpp"
#include "podrate/parameter_bytes.hpp"
#include "report/output_file.hpp"
#include "report/tuning/tuning_html.hpp"
#include "report/tuning/tuning_words.hpp"
#include "tune/tuned_set.hpp"

namespace podrate::sim {

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
    Parameters whole = choice.present;
    set.lay_over(whole);
    std::array<std::uint8_t, kParameterBytes> bytes{};
    pack_parameters(whole, bytes.data());
    write_file(folder / "recommended.bin",
               std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

}  // namespace podrate::sim
