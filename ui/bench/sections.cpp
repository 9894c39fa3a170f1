#include "bench/sections.hpp"

#include "podrate/parameters.hpp"

namespace podrate::ui {
namespace {

struct Beginning {
    Text name;
    Real Parameters::*first;
};

constexpr Beginning kBeginnings[] = {{Text::section_machine, &Parameters::width_m},
                                     {Text::section_loss_curve, &Parameters::feed_steepness_kgps},
                                     {Text::section_driver, &Parameters::driver_reaction},
                                     {Text::section_crop, &Parameters::crop_kgpm2},
                                     {Text::section_noise, &Parameters::weight_noise_moving_kg},
                                     {Text::section_tips, &Parameters::tip_least_kg},
                                     {Text::section_states, &Parameters::standing_speed_mps},
                                     {Text::section_speed, &Parameters::loss_limit_share},
                                     {Text::section_alarms, &Parameters::loss_high_share}};

std::size_t place_of(Real Parameters::*member) {
    std::size_t place = 0;
    for (const ParameterInfo& info : kParameterTable) {
        if (info.member == member) break;
        ++place;
    }
    return place;
}

}  // namespace

const std::vector<ParameterSection>& parameter_sections() {
    static const std::vector<ParameterSection> kSections = [] {
        std::vector<ParameterSection> sections;
        for (const Beginning& beginning : kBeginnings) {
            const std::size_t from = place_of(beginning.first);
            if (!sections.empty()) sections.back().to = from;
            sections.push_back({beginning.name, from, kParameterCount});
        }
        return sections;
    }();
    return kSections;
}

}  // namespace podrate::ui
