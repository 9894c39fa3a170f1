#include "tune/tuning_figures.hpp"

#include <catch2/catch.hpp>

#include "sim/tune_tables.hpp"
#include "tune/place_draws.hpp"

using namespace podrate;
using namespace podrate::sim;
using namespace podrate::test;

namespace {

TuneTable two_places() {
    TuneTable table;
    table.parameters = {"loss_high_on_s"};
    table.on = {{"d1", "m1"}, {"d2", "m1"}};
    table.settings = {{{6.0}}, {{12.0}}};
    table.tallies.assign(2, std::vector<MachineDayTally>(2));
    AlarmTally first = alarm_tally(4, {3.0F, 1.0F, 4.0F}, 8, 5, 8.0);
    first.chattered = 2;
    first.in_alarm_s = 1440.0;
    table.tallies[0][0].alarms[kLossHigh] = first;
    table.tallies[0][1].alarms[kLossHigh] = alarm_tally(2, {1.0F}, 1, 0, 2.0);
    table.tallies[0][0].panel = {18, 48, 6, 3, 1, 11, 8.0};
    table.tallies[0][1].panel = {2, 12, 0, 0, 0, 1, 2.0};
    table.tallies[0][0].alarms[kRateLow] = alarm_tally(0, {}, 9, 0, 8.0);
    table.tallies[0][0].alarms[static_cast<std::size_t>(AlarmId::hopper_full)] =
        alarm_tally(0, {}, 2, 0, 8.0);
    table.tallies[1] = table.tallies[0];
    table.tallies[1][1].alarms[kLossHigh].alarms = 0;
    return table;
}

}  // namespace

TEST_CASE("Figures of an alarm are the sums of the places worked by hand") {
    const TuneTable table = two_places();
    const AlarmRow row(table, 0, kLossHigh);
    const std::vector<int> once = {1, 1};
    const AlarmFigures f = row.figures(once);
    CHECK(of(f, AlarmFigure::detection) == Approx(4.0 / 6.0));
    CHECK(of(f, AlarmFigure::delay_median_s) == 2.0);  // of 1, 1, 3, 4
    CHECK(of(f, AlarmFigure::delay_90_s) == 4.0);
    CHECK(of(f, AlarmFigure::false_per_h) == Approx(0.5));
    CHECK(of(f, AlarmFigure::alarms_per_h) == Approx(0.9));
    CHECK(of(f, AlarmFigure::chatter_share) == Approx(2.0 / 9.0));
    CHECK(of(f, AlarmFigure::in_alarm_share) == Approx(0.04));
    CHECK(row.sum(once).missed() == 2.0);
}

TEST_CASE("A place counts as often as it was drawn, and one left out not at all") {
    const TuneTable table = two_places();
    const AlarmRow row(table, 0, kLossHigh);
    const AlarmFigures twice = row.figures(std::vector<int>{2, 1});
    CHECK(of(twice, AlarmFigure::detection) == Approx(7.0 / 10.0));
    CHECK(of(twice, AlarmFigure::delay_median_s) == 3.0);  // of 1, 1, 1, 3, 3, 4, 4
    CHECK(of(row.figures(std::vector<int>{2, 0}), AlarmFigure::delay_median_s) == 3.0);
    const AlarmFigures second = row.figures(std::vector<int>{0, 1});
    CHECK(of(second, AlarmFigure::detection) == 0.5);
    CHECK(of(second, AlarmFigure::false_per_h) == 0.0);
    const AlarmFigures none = row.figures(std::vector<int>{0, 0});
    for (const double figure : none) CHECK(std::isnan(figure));
}

TEST_CASE("Quantiles of delays are those of R's type 2") {
    // tests/reference/tuning.R
    const std::vector<float> delays = {3, 1, 4, 1, 5, 9, 2, 6, 5, 3};
    const auto figures_of = [&](std::size_t count) {
        TuneTable table;
        table.on = {{"d1", "m1"}};
        table.settings = {{{}}};
        table.tallies.assign(1, std::vector<MachineDayTally>(1));
        table.tallies[0][0].alarms[kLossHigh] = alarm_tally(
            10, {delays.begin(), delays.begin() + static_cast<std::ptrdiff_t>(count)}, 10, 0, 1.0);
        return AlarmRow(table, 0, kLossHigh).figures(std::vector<int>{1});
    };
    CHECK(of(figures_of(10), AlarmFigure::delay_median_s) == 3.5);
    CHECK(of(figures_of(10), AlarmFigure::delay_90_s) == 7.5);
    CHECK(of(figures_of(7), AlarmFigure::delay_median_s) == 3.0);
    CHECK(of(figures_of(7), AlarmFigure::delay_90_s) == 9.0);
}

TEST_CASE("What a driver was shown is counted for each ten minutes and by priority") {
    const TuneTable table = two_places();
    const PanelFigures f = PanelRow(table, 0, Parameters{}).figures(std::vector<int>{1, 1});
    CHECK(of(f, PanelFigure::alarms_per_ten_min) == Approx(20.0 / 60.0));
    CHECK(of(f, PanelFigure::over_one_share) == Approx(0.1));
    CHECK(of(f, PanelFigure::over_two_share) == Approx(0.05));
    CHECK(of(f, PanelFigure::flood_share) == Approx(1.0 / 60.0));
    CHECK(of(f, PanelFigure::low_share) == Approx(9.0 / 20.0));
    CHECK(of(f, PanelFigure::medium_share) == Approx(9.0 / 20.0));
    CHECK(of(f, PanelFigure::high_share) == Approx(2.0 / 20.0));
    CHECK(most_in_ten(table, 0) == 11);
}

TEST_CASE("A swept priority counts as the setting has it") {
    TuneTable table = two_places();
    table.parameters = {"loss_high_priority"};
    table.settings = {{{1.0}}, {{2.0}}};
    CHECK(of(PanelRow(table, 1, Parameters{}).figures(std::vector<int>{1, 0}), PanelFigure::high_share) ==
          Approx(10.0 / 19.0));
    CHECK(with_setting(table, 1, Parameters{}).loss_high_priority == Real(2));
}

TEST_CASE("Only alarms that some setting changes are looked at") {
    CHECK(alarms_moved(two_places()) == std::vector<std::size_t>{kLossHigh});
    TuneTable same = two_places();
    same.tallies[1] = same.tallies[0];
    CHECK(alarms_moved(same).empty());
}

TEST_CASE("Draws come from the seed alone and draw as many places as there are") {
    const PlaceDraws a(7, 50, 3);
    const PlaceDraws b(7, 60, 3);
    const PlaceDraws other(7, 50, 4);
    bool differs = false;
    for (std::size_t draw = 0; draw < 50; ++draw) {
        const PlaceTimes times = a.times(draw);
        int sum = 0;
        for (std::size_t i = 0; i < 7; ++i) {
            sum += times[i];
            CHECK(times[i] == b.times(draw)[i]);
            differs = differs || times[i] != other.times(draw)[i];
        }
        CHECK(sum == 7);
    }
    CHECK(differs);
}
