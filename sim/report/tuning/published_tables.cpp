#include "report/tuning/published_tables.hpp"

#include <cmath>
#include <string_view>

#include "log/number.hpp"
#include "report/alarm_summary.hpp"
#include "report/html/markup.hpp"
#include "report/tuning/published_figures.hpp"
#include "report/tuning/tuning_words.hpp"

namespace podrate::sim {
namespace {

// A parameter of an alarm by the end or the middle of its name: "loss_high" and "_on_s".
const ParameterInfo* parameter_of(AlarmId alarm, std::string_view part) {
    const std::string begin = name_of(alarm) + std::string(part);
    for (const ParameterInfo& info : kParameterTable) {
        if (std::string_view(info.name).starts_with(begin)) return &info;
    }
    return nullptr;
}

}  // namespace

std::string burden_table_html(const TuningChoice& choice) {
    const PanelConclusion& now = choice.panel[0];
    const PanelConclusion& then = choice.panel[choice.chosen.setting];
    std::vector<std::vector<std::string>> rows;
    const auto text = [](const PanelConclusion& panel, PanelFigure f) {
        const Range& range = panel.ranges[static_cast<std::size_t>(f)];
        return f == PanelFigure::alarms_per_ten_min ? rate_text(of(panel.figures, f), range)
                                                    : share_text(of(panel.figures, f), range);
    };
    const double per_ten = of(then.figures, PanelFigure::alarms_per_ten_min);
    const double flood = of(then.figures, PanelFigure::flood_share);
    rows.push_back({"alarms in 10 minutes of work, mean",
                    "about 1: very likely acceptable; 2: at most manageable",
                    text(now, PanelFigure::alarms_per_ten_min), text(then, PanelFigure::alarms_per_ten_min),
                    std::isnan(per_ten)            ? "not known"
                    : per_ten <= kAcceptablePerTen ? "acceptable"
                    : per_ten <= kManageablePerTen ? "manageable"
                                                   : "too many"});
    rows.push_back({"stretches of 10 minutes with more than 1", "no published figure",
                    text(now, PanelFigure::over_one_share), text(then, PanelFigure::over_one_share), ""});
    rows.push_back({"... with more than 2", "no published figure", text(now, PanelFigure::over_two_share),
                    text(then, PanelFigure::over_two_share), ""});
    rows.push_back({"... in flood: more than 10", "less than 1 %", text(now, PanelFigure::flood_share),
                    text(then, PanelFigure::flood_share),
                    std::isnan(flood) ? "not known" : (flood < kMostFloodShare ? "met" : "not met")});
    rows.push_back({"most in 10 minutes", "no more than 10", std::to_string(now.most_in_ten),
                    std::to_string(then.most_in_ten), then.most_in_ten <= kFloodInTen ? "met" : "not met"});
    static constexpr PanelFigure kByPriority[] = {PanelFigure::low_share, PanelFigure::medium_share,
                                                  PanelFigure::high_share};
    static constexpr const char* kNames[] = {"of low priority", "of medium priority", "of high priority"};
    for (std::size_t p = 0; p < 3; ++p) {
        rows.push_back({kNames[p], "about " + fixed(100.0 * kPriorityShares[p], 0) + " %",
                        text(now, kByPriority[p]), text(then, kByPriority[p]), ""});
    }
    return table_html({"all alarms of a driver", "published", "as it was", "recommended", "verdict"}, rows,
                      {0, 1, 4});
}

std::string starting_points_html(const TuneTable& table, const TuningChoice& choice) {
    const Parameters then = with_setting(table, choice.chosen.setting, choice.present);
    std::vector<std::vector<std::string>> rows;
    for (int i = 0; i < kAlarms; ++i) {
        const auto alarm = static_cast<AlarmId>(i);
        const SignalKind* kind = nearest_kind(alarm);
        if (kind == nullptr) continue;
        const double range =
            alarm == AlarmId::hopper_leak ? static_cast<double>(then.hopper_capacity_kg) : 1.0;
        const auto add = [&](const char* what, const char* part, double published) {
            const ParameterInfo* info = parameter_of(alarm, part);
            if (info == nullptr) return;
            const auto value = [&](const Parameters& from) {
                return swept_value_text(info->name, static_cast<double>(from.*info->member));
            };
            rows.push_back({words_for(alarm), kind->name, what, swept_value_text(info->name, published),
                            value(choice.present), value(then)});
        };
        add("deadband", "_deadband", kind->deadband_share * range);
        add("on-delay", "_on_s", kind->delay_s);
        add("off-delay", "_off_s", kind->delay_s);
    }
    return table_html({"alarm", "nearest kind", "", "published to start from", "as it was", "recommended"},
                      rows, {0, 1, 2});
}

}  // namespace podrate::sim
