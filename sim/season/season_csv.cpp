#include <cmath>

#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "season/season_tables.hpp"

namespace podrate::sim {
namespace {

// Cells of one row.
class SeasonRow {
  public:
    explicit SeasonRow(std::string& text) : text_(text) {}
    void words(const std::string& cell) {
        begin();
        text_ += csv_cell(cell);
    }
    void number(double value, int decimals, bool known = true) {
        begin();
        if (known) append_fixed(text_, value, decimals);
    }
    void count(std::uint64_t value) {
        begin();
        text_ += std::to_string(value);
    }
    // Three cells, in per cent.
    void loss(const std::optional<Share>& loss) {
        const Share share = loss.value_or(Share{});
        for (const Real part : {share.share, share.low, share.high})
            number(100.0 * static_cast<double>(part), 2, loss.has_value());
    }
    void end() { text_ += '\n'; }

  private:
    void begin() {
        if (begun_) text_ += ',';
        begun_ = true;
    }
    std::string& text_;
    bool begun_ = false;
};

// Nothing of it would show in a row.
bool shows_nothing(const SeasonShare& share) {
    constexpr double kLeastKg = 0.05;
    constexpr double kLeastM2 = 0.5;
    constexpr double kLeastS = 1.8;
    return std::abs(share.harvested_kg) < kLeastKg && share.swept_m2 < kLeastM2 && share.in_field_s < kLeastS;
}

}  // namespace

std::string season_csv(const Season& season) {
    std::string text =
        "day,date,folder,machine,field,harvested_t,swept_ha,yield_tpha,loss_pct,loss_pct_low,loss_pct_high,"
        "lost_t,harvesting_h,in_field_h\n";
    for (const DayFigures& day : season.days) {
        if (!day.counts()) continue;
        for (const SeasonShare& share : day.shares) {
            if (shows_nothing(share)) continue;
            SeasonRow row(text);
            row.words(day.label);
            row.words(day.date);
            row.words(day.folder);
            row.words(day.machines[share.machine].id);
            row.words(day.fields[share.field].name);
            row.number(share.harvested_kg / 1e3, 4);
            row.number(share.swept_m2 / 1e4, 4);
            row.number(tonnes_per_hectare(share.harvested_kg, share.swept_m2), 3, share.swept_m2 > 0.0);
            row.loss(loss_of(share));
            row.number(share.lost_kg / 1e3, 4, loss_of(share).has_value());
            row.number(share.harvesting_s / 3600.0, 3);
            row.number(share.in_field_s / 3600.0, 3);
            row.end();
        }
    }
    return text;
}

std::string season_days_csv(const Season& season, const SeasonSums& sums) {
    std::string text =
        "day,date,folder,use,reason,machines,loads,harvested_t,harvested_sd_t,swept_ha,covered_ha,yield_tpha,"
        "loss_pct,loss_pct_low,loss_pct_high,lost_t,harvesting_h,planned_t\n";
    for (std::size_t i = 0; i < season.days.size(); ++i) {
        const DayFigures& day = season.days[i];
        const SeasonSum& sum = sums.days[i];
        const bool counts = day.counts();
        SeasonRow row(text);
        row.words(day.label);
        row.words(day.date);
        row.words(day.folder);
        row.words(name_of(day.use));
        row.words(day.reason);
        row.count(static_cast<std::uint64_t>(sum.machines));
        row.count(sum.loads);
        row.number(sum.harvested_kg / 1e3, 4, counts);
        row.number(sum.harvested_sd_kg / 1e3, 4, counts);
        row.number(sum.swept_m2 / 1e4, 4, counts);
        row.number(sum.covered_m2 / 1e4, 4, sum.covered_m2 > 0.0);
        row.number(tonnes_per_hectare(sum.harvested_kg, sum.swept_m2), 3, sum.swept_m2 > 0.0);
        row.loss(sum.loss());
        row.number(sum.lost_kg / 1e3, 4, sum.loss().has_value());
        row.number(sum.harvesting_s / 3600.0, 3, counts);
        row.number(sum.planned_t.value_or(0.0), 4, sum.planned_t.has_value());
        row.end();
    }
    return text;
}

std::string season_fields_csv(const SeasonSums& sums) {
    std::string text =
        "field,days,machines,harvested_t,swept_ha,covered_ha,yield_tpha,loss_pct,loss_pct_low,loss_pct_high,"
        "lost_t,harvesting_h\n";
    for (const SeasonSum& sum : sums.fields) {
        SeasonRow row(text);
        row.words(sum.name);
        row.count(static_cast<std::uint64_t>(sum.days));
        row.count(static_cast<std::uint64_t>(sum.machines));
        row.number(sum.harvested_kg / 1e3, 4);
        row.number(sum.swept_m2 / 1e4, 4);
        row.number(sum.covered_m2 / 1e4, 4, sum.covered_m2 > 0.0);
        row.number(tonnes_per_hectare(sum.harvested_kg, sum.covered_m2), 3, sum.covered_m2 > 0.0);
        row.loss(sum.loss());
        row.number(sum.lost_kg / 1e3, 4, sum.loss().has_value());
        row.number(sum.harvesting_s / 3600.0, 3);
        row.end();
    }
    return text;
}

}  // namespace podrate::sim
