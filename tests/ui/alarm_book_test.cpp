// What the bench counts of alarms: the figures of `podrate tune` and of whole replays.
#include "bench/alarm_book.hpp"

#include "app/save_seen.hpp"
#include "bench/bench_csv.hpp"
#include "bench/parameter_scale.hpp"
#include "bench/told_words.hpp"
#include "log/number.hpp"
#include "tune/tuning_csv.hpp"
#include "ui/hard_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

std::string after_first_cell(const std::string& line) {
    return line.substr(line.find(','));
}

}  // namespace

TEST_CASE("The bench's counts are the rows that podrate tune gives for the same setting") {
    const std::string sweep = GENERATE(as<std::string>{}, "loss_high_share=0.05,0.1", "loss_high_on_s=0,20",
                                       "rate_low_share=0.6,0.95", "drum_blocking_sd=3,9");
    const sim::Tuning tuning = tuned(hard_day(), sweep);
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, hard_day_open());
    choose(desk, sweep.substr(0, sweep.find('=')));
    const std::vector<std::string> rows = lines_of(sim::tuning_by_day_csv(tuning.table));
    const std::size_t rows_each = kAlarms + 1;
    for (std::size_t setting = 1; setting < tuning.table.settings.size(); ++setting) {
        INFO(sweep << ", setting " << setting);
        desk.bench().put_value(tuning.table.settings[setting].values[0]);
        desk.wait();
        REQUIRE(desk.bench().book().counted());
        const std::vector<std::string> mine = lines_of(bench_csv(desk.bench()));
        CHECK(mine.front() == rows.front());
        for (std::size_t row = 0; row < rows_each; ++row) {
            CHECK(mine[1 + row] == rows[1 + row]);
            CHECK(after_first_cell(mine[1 + rows_each + row]) ==
                  after_first_cell(rows[1 + setting * rows_each + row]));
        }
    }
}

TEST_CASE("What the strip shows is what is counted") {
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, hard_day_open());
    choose(desk, "loss_high_share");
    desk.bench().put_value(0.1);
    desk.wait();
    const AlarmBook& book = desk.bench().book();
    const sim::AlarmTally& tally = book.table().tallies[1][0].alarms[0];
    REQUIRE(tally.episodes > 5);
    REQUIRE(tally.told > 0);
    REQUIRE(tally.told < tally.episodes);
    const sim::AlarmOutcomes outcomes = book.outcomes(true);
    std::vector<float> delays_s;
    for (const double after_s : outcomes.told_after_s) {
        if (after_s >= 0.0) delays_s.push_back(static_cast<float>(after_s));
    }
    CHECK(outcomes.told_after_s.size() == static_cast<std::size_t>(tally.episodes));
    CHECK(delays_s == tally.delays_s);
    CHECK(outcomes.alarms.size() == static_cast<std::size_t>(tally.alarms));
    CHECK(std::count(outcomes.for_nothing.begin(), outcomes.for_nothing.end(), true) == tally.false_alarms);
    const auto rows = told_rows(desk.bench());
    CHECK(rows[1][2] == std::to_string(tally.episodes));
    CHECK(rows[2][2] == std::to_string(tally.told));
    // J goes to the first that was missed, and its words say so.
    desk.bench().go_to(0.0);
    desk.press(Key::j);
    CHECK(strip_words(desk.bench()).find(", missed") != std::string::npos);
    // With a limit so low that the alarm stands too long it does not tell what it meets.
    desk.bench().put_value(0.02);
    desk.wait();
    int stood = 0;
    desk.bench().go_to(0.0);
    for (int i = 0; i < 20; ++i) {
        desk.press(Key::j);
        stood += strip_words(desk.bench()).find("not told: the alarm stood already") != std::string::npos;
    }
    CHECK(stood > 0);
}

TEST_CASE("A point of the curve is what its value gives when it is set") {
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, hard_day_open());
    choose(desk, "loss_high_share");
    REQUIRE(desk.bench().book().curve() != nullptr);
    const AlarmCurve curve = *desk.bench().book().curve();
    REQUIRE(curve.values.size() > 20);
    CHECK(curve.values.front() == kParameterTable[place_of("loss_high_share")].low);
    CHECK(curve.values.back() == kParameterTable[place_of("loss_high_share")].high);
    for (const std::size_t i : {std::size_t(0), std::size_t(3), std::size_t(9), curve.values.size() - 1}) {
        desk.bench().put_value(curve.values[i]);
        desk.wait();
        const sim::AlarmFigures& set = desk.bench().book().after().figures;
        CHECK(of(set, sim::AlarmFigure::detection) == of(curve.figures[i], sim::AlarmFigure::detection));
        CHECK(of(set, sim::AlarmFigure::false_per_h) == of(curve.figures[i], sim::AlarmFigure::false_per_h));
    }
    // The value that runs over its range counts for nothing: no other curve was asked for.
    REQUIRE(desk.bench().book().curve() != nullptr);
    CHECK(desk.bench().book().curve()->figures.size() == curve.figures.size());
    // One machine's day bears no range.
    CHECK_FALSE(desk.bench().book().after().ranges[0].known());
    CHECK(sureness_words(desk.bench()) == "One machine's day: too few to be sure");
    choose(desk, "drum_blocking_sd");
    CHECK(desk.bench().book().curve() == nullptr);
    CHECK(no_curve_words(desk.bench()).find("replay") != std::string::npos);
}

TEST_CASE("All machines of a day are counted with what is changed laid over each, as podrate tune does") {
    const std::string folder = PODRATE_SOURCE_DIR "/demo_logs/harrowmere";
    const sim::Tuning tuning = tuned(folder, "hopper_nearly_full_share=0.6");
    BenchDesk desk;
    choose(desk, "hopper_nearly_full_share");
    desk.bench().put_value(0.6);
    desk.press(Key::v);
    desk.wait();
    REQUIRE(desk.bench().book().counted());
    const sim::TuneTable& mine = desk.bench().book().table();
    REQUIRE(mine.on.size() == 3);
    CHECK(bench_csv(desk.bench()) == sim::tuning_by_day_csv(tuning.table));
    for (std::size_t setting = 0; setting < 2; ++setting) {
        for (std::size_t alarm = 0; alarm < static_cast<std::size_t>(kAlarms); ++alarm) {
            INFO("setting " << setting << ", alarm " << alarm);
            sim::AlarmSum theirs;
            for (const sim::MachineDayTally& place : tuning.table.tallies[setting])
                theirs.add(place.alarms[alarm], 1.0);
            sim::AlarmSum ours;
            for (const sim::MachineDayTally& place : mine.tallies[setting])
                ours.add(place.alarms[alarm], 1.0);
            CHECK(ours.told == theirs.told);
            CHECK(ours.episodes == theirs.episodes);
        }
    }
    const sim::Range& detection = desk.bench().book().after().ranges[0];
    CHECK(detection.known());
    CHECK(detection.holds(of(desk.bench().book().after().figures, sim::AlarmFigure::detection)));
}

TEST_CASE("Values along a track: even, but for delays, where seconds have room") {
    const ParameterInfo& limit = kParameterTable[place_of("loss_high_share")];
    CHECK(share_of_range(limit, value_at_share(limit, 0.5)) == Approx(0.5).margin(1e-3));
    CHECK(value_at_share(limit, -1.0) == limit.low);
    CHECK(value_at_share(limit, 2.0) == limit.high);
    const ParameterInfo& delay = kParameterTable[place_of("loss_high_on_s")];
    CHECK(share_of_range(delay, 6.0) > 0.15);
    for (const double value : {0.0, 1.0, 6.0, 60.0, 600.0, 3600.0})
        CHECK(value_at_share(delay, share_of_range(delay, value)) == Approx(value).margin(1e-6));
    const std::vector<double> values = values_along(delay);
    CHECK(std::is_sorted(values.begin(), values.end()));
    CHECK(std::adjacent_find(values.begin(), values.end()) == values.end());
    CHECK(alarm_set_by(delay) == AlarmId::loss_high);
    CHECK_FALSE(alarm_set_by(kParameterTable[place_of("alarms_latched")]));
    CHECK_FALSE(alarm_set_by(kParameterTable[place_of("width_m")]));
}

TEST_CASE("P and X save the bench as it is seen, and the table waits until all is counted") {
    const test::TempFolder folder;
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, hard_day_open());
    Bench& bench = desk.bench();
    const auto draw = [&] { return desk.picture(); };
    desk.press(Key::p);
    save_seen(bench, folder.path(), draw);
    const std::filesystem::path picture = folder.path() / "podrate_2025-07-02_0400-0459_viner_1_bench.png";
    CHECK(bench.note() == "Saved: " + picture.string());
    CHECK(std::filesystem::file_size(picture) > 1000);
    // No alarm is chosen: what it takes to count is replayed first.
    desk.set("loss_high_share", "0.1");
    bench.choose(place_of("width_m"));
    CHECK_FALSE(bench.alarm());
    desk.press(Key::x);
    desk.wait();
    save_seen(bench, folder.path(), draw);
    const std::filesystem::path table = folder.path() / "podrate_2025-07-02_0400-0459_viner_1_bench.csv";
    REQUIRE(std::filesystem::exists(table));
    CHECK(test::text_of(table) == bench_csv(bench));
    CHECK(lines_of(test::text_of(table))[0].find("setting,loss_high_share,day,machine,alarm,episodes,told") ==
          0);
    CHECK(lines_of(test::text_of(table))[1].find("0,0.15,") == 0);
    save_seen(bench, folder.path() / "none", draw);
    CHECK(bench.note() == "Saved: " + table.string());
    desk.press(Key::x);
    save_seen(bench, folder.path() / "none", draw);
    CHECK(bench.note().find("Not saved: ") == 0);
}
