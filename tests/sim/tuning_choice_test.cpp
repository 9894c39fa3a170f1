#include "tune/tuning_choice.hpp"

#include <catch2/catch.hpp>
#include <cstring>

#include "sim/tune_tables.hpp"

using namespace podrate;
using namespace podrate::sim;
using namespace podrate::test;

namespace {

AlarmFigures figures(double detection, double false_per_h, double delay_s) {
    AlarmFigures f{};
    f[static_cast<std::size_t>(AlarmFigure::detection)] = detection;
    f[static_cast<std::size_t>(AlarmFigure::false_per_h)] = false_per_h;
    f[static_cast<std::size_t>(AlarmFigure::delay_median_s)] = delay_s;
    return f;
}

// A day of 10 h for each setting of one parameter: episodes 20.
struct Plain {
    double value;
    int told;
    float delay_s;
    int false_alarms;
};
TuneTable plain_table(const std::vector<Plain>& settings, int days = 3) {
    TuneTable table;
    table.parameters = {"loss_high_on_s"};
    table.on = days_of_machines(days, 1);
    for (const Plain& plain : settings) {
        table.settings.push_back({{plain.value}});
        std::vector<MachineDayTally>& tallies = table.tallies.emplace_back(table.on.size());
        for (MachineDayTally& day : tallies) {
            day.alarms[kLossHigh] =
                alarm_tally(20, std::vector<float>(static_cast<std::size_t>(plain.told), plain.delay_s),
                            plain.told + plain.false_alarms, plain.false_alarms, 10.0);
        }
    }
    return table;
}

std::size_t chosen_of(const TuneTable& table, const TuningOptions& options = {}) {
    const TuningRows rows(table, alarms_moved(table));
    return choose_setting(rows, options, std::vector<int>(table.on.size(), 1)).setting;
}

bool same_bits(double a, double b) {
    return std::memcmp(&a, &b, sizeof a) == 0;
}

}  // namespace

TEST_CASE("Settings that nothing beats are those of a comparison of each with each") {
    PathRandom random(5, 0, 0);
    for (int round = 0; round < 200; ++round) {
        std::vector<AlarmFigures> all;
        const std::size_t count = 1 + random.below(25);
        for (std::size_t i = 0; i < count; ++i) {
            const double told = static_cast<double>(random.below(6)) / 5.0;
            all.push_back(figures(told, static_cast<double>(random.below(6)),
                                  told > 0.0 ? static_cast<double>(random.below(6)) : std::nan("")));
        }
        const std::vector<bool> kept = unbeaten(all);
        for (std::size_t i = 0; i < count; ++i) {
            bool beaten = false;
            for (std::size_t j = 0; j < count; ++j) {
                const auto cost = [&](std::size_t k, AlarmFigure f) {
                    const double value = of(all[k], f);
                    if (f == AlarmFigure::detection) return -value;
                    return std::isnan(value) ? HUGE_VAL : value;
                };
                bool never_worse = true;
                bool once_better = false;
                for (const AlarmFigure f :
                     {AlarmFigure::detection, AlarmFigure::false_per_h, AlarmFigure::delay_median_s}) {
                    never_worse = never_worse && cost(j, f) <= cost(i, f);
                    once_better = once_better || cost(j, f) < cost(i, f);
                }
                beaten = beaten || (never_worse && once_better);
            }
            CHECK(kept[i] == !beaten);
        }
    }
}

TEST_CASE("The soonest is taken of those that meet what is asked") {
    const TuneTable table =
        plain_table({{6, 20, 5.0F, 20}, {9, 20, 8.0F, 2}, {12, 19, 11.0F, 1}, {15, 17, 7.0F, 0}});
    CHECK(chosen_of(table) == 1);
    TuningOptions fewer;
    fewer.most_false_per_h = 0.1;
    CHECK(chosen_of(table, fewer) == 2);
    TuningOptions lenient;
    lenient.most_false_per_h = 5.0;
    CHECK(chosen_of(table, lenient) == 0);
}

TEST_CASE("Where none meets what is asked the nearest is taken and says how far it is off") {
    // Silence is as far off as can be: it is not taken for its lack of false alarms.
    const TuneTable table = plain_table({{6, 20, 5.0F, 10}, {9, 18, 8.0F, 4}, {3600, 0, 0.0F, 0}});
    const TuningRows rows(table, alarms_moved(table));
    const ChosenSetting chosen = choose_setting(rows, {}, std::vector<int>(3, 1));
    CHECK(chosen.setting == 1);
    CHECK(chosen.shortfall == Approx(std::log(2.0 * 1.6)));  // twice the misses, 1.6 times the false alarms
    CHECK(std::isinf(shortfall_of(rows.row(0, 2).figures(std::vector<int>(3, 1)), {})));
}

TEST_CASE("Of settings alike in all the present one stays") {
    CHECK(chosen_of(plain_table({{6, 20, 5.0F, 1}, {9, 20, 5.0F, 1}, {3, 19, 6.0F, 1}})) == 0);
}

TEST_CASE("An alarm without episodes is judged by its false alarms alone") {
    TuneTable table = plain_table({{6, 0, 0.0F, 9}, {9, 0, 0.0F, 1}});
    for (auto& of_setting : table.tallies) {
        for (MachineDayTally& day : of_setting) day.alarms[kLossHigh].episodes = 0;
    }
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    CHECK(choice.chosen.setting == 1);
    CHECK(choice.chosen.shortfall == 0.0);
    CHECK(choice.alarms.at(0).too_few(choice.options));
    CHECK(std::isnan(choice.alarms[0].area.area));
}

TEST_CASE("Steps to the neighbours and means over the grid are those worked by hand") {
    TuneTable table;
    table.parameters = {"loss_high_share", "loss_high_on_s"};
    table.settings = {{{0.1, 6}}, {{0.1, 12}}, {{0.2, 6}}, {{0.2, 12}}, {{0.1, 30}}};
    const std::vector<AlarmFigures> f = {figures(1.0, 4.0, 6.0), figures(0.9, 2.0, 12.0),
                                         figures(0.8, 1.0, 9.0), figures(0.5, 0.0, 15.0),
                                         figures(0.3, 0.0, std::nan(""))};
    const std::vector<ParameterEffect> effects = parameter_effects(table, f, 1);
    REQUIRE(effects.size() == 2);
    CHECK_FALSE(effects[0].down);
    REQUIRE(effects[0].up);
    CHECK(effects[0].up->value == 0.2);
    CHECK(of(effects[0].up->change, AlarmFigure::detection) == Approx(-0.4));
    CHECK(of(effects[0].spread, AlarmFigure::false_per_h) == Approx(1.5));  // 2.0 and 0.5
    REQUIRE(effects[1].down);
    REQUIRE(effects[1].up);
    CHECK(effects[1].down->value == 6.0);
    CHECK(effects[1].up->value == 30.0);
    CHECK(of(effects[1].down->change, AlarmFigure::delay_median_s) == Approx(-6.0));
    CHECK(std::isnan(of(effects[1].up->change, AlarmFigure::delay_median_s)));
    CHECK(of(effects[1].at_least, AlarmFigure::detection) == Approx(0.9));
    CHECK(of(effects[1].at_greatest, AlarmFigure::detection) == Approx(0.3));
    CHECK(of(effects[1].spread, AlarmFigure::delay_median_s) == Approx(6.0));  // 7.5 and 13.5
}

TEST_CASE("The setting as it was counts in the grid's means once, and not at all off the grid") {
    TuneTable table;
    table.parameters = {"loss_high_on_s"};
    table.settings = {{{6}}, {{6}}, {{12}}};
    const std::vector<AlarmFigures> f = {figures(1.0, 4.0, 6.0), figures(1.0, 4.0, 6.0),
                                         figures(0.9, 2.0, 12.0)};
    CHECK(of(parameter_effects(table, f, 0)[0].at_least, AlarmFigure::false_per_h) == 4.0);
    table.settings[0].values[0] = 1.0;
    CHECK(parameter_effects(table, f, 0)[0].least == 6.0);
    table.settings[0].values[0] = std::nan("");
    const ParameterEffect effect = parameter_effects(table, f, 0)[0];
    CHECK(effect.least == 6.0);
    CHECK_FALSE(effect.down);
    CHECK_FALSE(effect.up);
    CHECK(parameter_effects(table, f, 2)[0].down->value == 6.0);
}

TEST_CASE("What is left out is judged by what was chosen without it") {
    // On its own the third day would want the other setting: only there does a delay of 12 s cry wolf.
    TuneTable table = plain_table({{6, 20, 5.0F, 20}, {12, 20, 10.0F, 0}}, 3);
    table.tallies[1][2].alarms[kLossHigh].false_alarms = 40;
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE(choice.by_day.folds.size() == 3);
    CHECK(choice.by_machine.folds.empty());
    const Fold& third = choice.by_day.folds[2];
    CHECK(third.name == "d3");
    CHECK(third.chosen.setting == 1);
    CHECK(third.sums_before[0].false_alarms == 20.0);
    CHECK(third.sums_after[0].false_alarms == 40.0);
    const GainCheck& fewer = choice.by_day.of_alarm[0][static_cast<std::size_t>(Gain::false_per_h)];
    CHECK(fewer.on_all == Approx(2.0 - 4.0 / 3.0));
    CHECK(fewer.range.holds(0.0));
    CHECK(fewer.lost());
}

TEST_CASE("A gain that every day has is kept, and one promised by chance is called lost") {
    const TuningChoice plain = conclude_tuning(loss_sweep(6, 3, 21, 12.0), Parameters{});
    REQUIRE(plain.chosen.setting != 0);
    const GainCheck& fewer = plain.by_day.of_alarm.at(0)[static_cast<std::size_t>(Gain::false_per_h)];
    CHECK(fewer.on_all > 0.0);
    CHECK_FALSE(fewer.lost());
}

TEST_CASE("Of gains promised by luck alone the check of what is left out lets about one in twenty pass") {
    // Twenty settings alike, eight days: the best of them looks better than it is. Its own range would let
    // one in three pass.
    int promised = 0;
    int passed = 0;
    int passed_unchecked = 0;
    constexpr int kRounds = 300;
    for (int round = 0; round < kRounds; ++round) {
        PathRandom random(31, static_cast<std::uint64_t>(round), 0);
        std::vector<Plain> settings(20, {6, 20, 5.0F, 0});
        for (std::size_t i = 0; i < settings.size(); ++i) settings[i].value = 1.0 + static_cast<double>(i);
        TuneTable table = plain_table(settings, 8);
        for (auto& of_setting : table.tallies) {
            for (MachineDayTally& day : of_setting) {
                const auto count = static_cast<int>(random.below(12));
                day.alarms[kLossHigh].false_alarms = count;
                day.alarms[kLossHigh].alarms = 20 + count;
            }
        }
        const TuningRows rows(table, alarms_moved(table));
        const PlaceDraws draws(8, 200, 1);
        const ChosenSetting chosen = choose_setting(rows, {}, std::vector<int>(8, 1));
        const GainCheck gain = cross_check(rows, LeftOut::day, chosen, {}, draws)
                                   .of_alarm[0][static_cast<std::size_t>(Gain::false_per_h)];
        std::vector<double> drawn;
        for (std::size_t draw = 0; draw < draws.count(); ++draw) {
            drawn.push_back(
                of(rows.row(0, 0).figures(draws.times(draw)), AlarmFigure::false_per_h) -
                of(rows.row(0, chosen.setting).figures(draws.times(draw)), AlarmFigure::false_per_h));
        }
        if (gain.on_all > 0.0) ++promised;
        if (gain.on_all > 0.0 && !gain.lost()) ++passed;
        if (bootstrap_range(drawn, 8, 0.9).low > 0.0) ++passed_unchecked;
    }
    INFO(promised << " promised, " << passed << " passed, unchecked " << passed_unchecked);
    CHECK(promised > kRounds * 9 / 10);
    CHECK(passed < kRounds * 9 / 100);
    CHECK(passed_unchecked > kRounds * 25 / 100);
}

TEST_CASE("The same sweep gives the same bits") {
    const TuneTable table = loss_sweep(4, 2, 8);
    const TuningChoice a = conclude_tuning(table, Parameters{});
    const TuningChoice b = conclude_tuning(table, Parameters{});
    CHECK(a.chosen.setting == b.chosen.setting);
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
        for (std::size_t f = 0; f < kAlarmFigures; ++f) {
            CHECK(same_bits(a.alarms[0].ranges[setting][f].low, b.alarms[0].ranges[setting][f].low));
            CHECK(same_bits(a.alarms[0].ranges[setting][f].high, b.alarms[0].ranges[setting][f].high));
        }
    }
    TuningOptions other;
    other.seed = 2;
    const TuningChoice c = conclude_tuning(table, Parameters{}, other);
    CHECK(c.chosen.setting == a.chosen.setting);  // figures themselves hang on no draw
    bool differs = false;
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
        const auto share = static_cast<std::size_t>(AlarmFigure::in_alarm_share);
        differs = differs || !same_bits(a.alarms[0].ranges[setting][share].high,
                                        c.alarms[0].ranges[setting][share].high);
    }
    CHECK(differs);
}

TEST_CASE("Ranges hold their figure and widen where none was seen") {
    const TuneTable table = loss_sweep(5, 3, 9);
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    CHECK(choice.still.size() == static_cast<std::size_t>(kAlarms) - 1);
    const AlarmConclusion& loss = choice.alarms.at(0);
    CHECK(loss.alarm == kLossHigh);
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
        INFO("setting " << setting);
        for (const AlarmFigure f :
             {AlarmFigure::detection, AlarmFigure::false_per_h, AlarmFigure::delay_median_s}) {
            const double figure = of(loss.figures[setting], f);
            const Range& range = loss.ranges[setting][static_cast<std::size_t>(f)];
            CHECK(range.low <= figure);
            CHECK(figure <= range.high);
        }
    }
    const TuneTable quiet = plain_table({{6, 20, 5.0F, 1}, {9, 20, 6.0F, 0}});
    const TuningChoice none = conclude_tuning(quiet, Parameters{});
    const AlarmRanges& ranges = none.alarms.at(0).ranges[1];
    CHECK(ranges[static_cast<std::size_t>(AlarmFigure::false_per_h)].high ==
          Approx(rate_bound(0.0, 30.0, 0.9)));
    CHECK(ranges[static_cast<std::size_t>(AlarmFigure::detection)].low ==
          Approx(wilson_range(60, 60, 0.9).low));
}

TEST_CASE("The area under detection and false alarms is one where a setting tells all without crying wolf") {
    const TuningChoice choice =
        conclude_tuning(plain_table({{6, 20, 5.0F, 0}, {3, 20, 3.0F, 10}}), Parameters{});
    CHECK(choice.alarms.at(0).area.area == 1.0);
    // Half told by the strict setting, the others with all false alarms: 0.5 + 0.5 / 2.
    const TuningChoice half =
        conclude_tuning(plain_table({{6, 10, 5.0F, 0}, {3, 20, 3.0F, 10}}), Parameters{});
    CHECK(half.alarms.at(0).area.area == Approx(0.75));
}
