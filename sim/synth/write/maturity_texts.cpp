#include "synth/write/maturity_texts.hpp"

#include <cmath>

#include "day/calendar.hpp"
#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "synth/random.hpp"

namespace podrate::sim {
namespace {

constexpr double kReadingSd = 1.5;  // of one tenderometer reading; common practice, no source

}  // namespace

// Readings that the scenario does not give are taken from the truth, with a reading's error.
std::string maturity_text(const Scenario& s, const std::vector<CropField>& crops) {
    Random random(s.seed, "maturity");
    std::string text = "unix_s,field,tenderometer\n";
    for (const ScenarioMaturity& m : s.maturity) {
        double reading = m.tenderometer;
        for (std::size_t i = 0; reading <= 0.0 && i < s.fields.size(); ++i) {
            if (s.fields[i].name == m.field)
                reading = crops[i].tenderometer(m.at_s) + kReadingSd * random.normal();
        }
        text += fixed(static_cast<double>(s.start_unix_s) + m.at_s, 0) + ',' + csv_cell(m.field) + ',' +
                fixed(reading, 0) + '\n';
    }
    return text;
}

std::string weather_text(const std::vector<WeatherDay>& days) {
    std::string text = "date,min_c,max_c\n";
    for (const WeatherDay& d : days)
        text += date_of_day(d.day) + ',' + fixed(d.min_c, 1) + ',' + fixed(d.max_c, 1) + '\n';
    return text;
}

std::string true_maturity_text(const Scenario& s, const std::vector<CropField>& crops) {
    std::string text = "field,unix_s,tenderometer\n";
    const double hours = s.weather ? 24.0 * std::round(s.weather->days_after) : 0.0;
    for (std::size_t i = 0; i < crops.size(); ++i) {
        if (s.fields[i].tenderometer <= 0.0 || s.fields[i].ripening_pct_per_heat_unit <= 0.0) continue;
        for (double hour = 0.0; hour <= hours; ++hour) {
            text += csv_cell(s.fields[i].name) + ',' +
                    fixed(static_cast<double>(s.start_unix_s) + 3600.0 * hour, 0) + ',' +
                    fixed(crops[i].tenderometer(3600.0 * hour), 2) + '\n';
        }
    }
    return text;
}

}  // namespace podrate::sim
