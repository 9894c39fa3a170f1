#include "report/forecast_csv.hpp"

#include "log/number.hpp"

namespace podrate::sim {

std::string case_name(const PlanCase& c) {
    switch (c.kind) {
        case PlanCase::Kind::all: return "all";
        case PlanCase::Kind::without: return "without " + c.machine;
        case PlanCase::Kind::repair: break;
    }
    return "repair " + c.machine;
}

std::string forecast_csv(const DayResult& result) {
    static constexpr struct {
        const char* name;
        double Quantiles::*member;
    } kQuantiles[] = {{"0.05", &Quantiles::low90},
                      {"0.25", &Quantiles::low50},
                      {"0.50", &Quantiles::median},
                      {"0.75", &Quantiles::high50},
                      {"0.95", &Quantiles::high90}};
    std::string text = "unix_s,case,quantile,delivered_t\n";
    if (!result.forecast) return text;
    const Forecast& f = *result.forecast;
    for (const PlanCase& c : f.cases) {
        for (std::size_t k = 0; k < f.grid.points(); ++k) {
            for (const auto& quantile : kQuantiles) {
                append_fixed(text, static_cast<double>(f.point_us(k)) / 1e6, 0);
                text += ',' + case_name(c) + ',' + quantile.name + ',';
                append_fixed(text, c.delivered_t[k].*quantile.member, 3);
                text += '\n';
            }
        }
    }
    return text;
}

}  // namespace podrate::sim
