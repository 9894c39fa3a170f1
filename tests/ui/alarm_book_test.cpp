// What the bench counts of alarms: the figures of `podrate tune`, whole replays, and marks made by hand.
#include "bench/alarm_book.hpp"

#include <fstream>

#include "app/save_seen.hpp"
#include "bench/bench_csv.hpp"
#include "bench/parameter_scale.hpp"
#include "bench/told_words.hpp"
#include "log/number.hpp"
#include "tune/tune.hpp"
#include "tune/tune_days.hpp"
#include "tune/tuning_csv.hpp"
#include "ui/bench_desk.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

std::shared_ptr<const OpenDay> opened(const std::filesystem::path& folder) {
    const std::atomic<bool> cancel{false};
    return open_day(folder, nullptr, cancel);
}

// An hour of a viner that is driven hard.
struct TuneDayFolder {
    test::TempFolder folder;
    std::filesystem::path day = test::write_tune_day(folder, "hard", 7);
};

const std::filesystem::path& hard_day() {
    static const TuneDayFolder folder;
    return folder.day;
}

std::shared_ptr<const OpenDay> hard_day_open() {
    static const std::shared_ptr<const OpenDay> day = opened(hard_day());
    return day;
}

// The same day in a folder of its own, where files may be added.
std::filesystem::path copy_of_hard_day(const test::TempFolder& folder) {
    const std::filesystem::path copy = folder.path() / "copy";
    std::filesystem::copy(hard_day(), copy, std::filesystem::copy_options::recursive);
    return copy;
}

std::size_t place_of(const std::string& key) {
    std::size_t index = 0;
    while (key != kParameterTable[index].name) ++index;
    return index;
}

void choose(BenchDesk& desk, const std::string& key) {
    desk.bench().choose(place_of(key));
    desk.wait();
}

sim::Tuning tuned(const std::filesystem::path& day, const std::string& sweep) {
    const test::TempFolder out;
    sim::TuneOptions options;
    options.folders = {day.string()};
    options.out = out.path();
    options.sweep = sim::parse_sweep({sweep});
    return sim::tune(options);
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines(1);
    for (const char c : text) {
        if (c == '\n') {
            lines.emplace_back();
        } else {
            lines.back() += c;
        }
    }
    return lines;
}

std::string after_first_cell(const std::string& line) {
    return line.substr(line.find(','));
}

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

double cursor_s(const Bench& bench, double into_s) {
    return static_cast<double>(bench.day().series.origin_us) / 1e6 + into_s;
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

TEST_CASE("An episode is marked by keys and mouse, counts at once, is taken back and written") {
    const test::TempFolder folder;
    const std::filesystem::path day = copy_of_hard_day(folder);
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, opened(day));
    Bench& bench = desk.bench();
    choose(desk, "loss_high_share");
    const int of_truth = bench.book().table().tallies[0][0].alarms[0].episodes;
    REQUIRE(of_truth > 1);
    const auto episodes = [&] { return bench.book().table().tallies[1][0].alarms[0].episodes; };
    // By keys: E at the cursor, E again further on, a note.
    bench.go_to(600e3);
    desk.type("e");
    REQUIRE(bench.mark_begun());
    bench.go_to(700e3);
    desk.type("e");
    REQUIRE(bench.what_is_typed() == BenchTyping::mark_note);
    desk.type("haulm, wet");
    desk.press(Key::enter);
    CHECK(episodes() == 1);
    CHECK(bench.book().truth(0, AlarmId::loss_high).source == sim::EpisodeSource::marked);
    // By mouse: a sweep, backwards; no note.
    bench.sweep_mark(1300e3, true);
    bench.sweep_mark(1250e3, false);
    bench.end_sweep();
    desk.press(Key::enter);
    CHECK(episodes() == 2);
    // The same with the mouse itself, over the upper lane of the strip at 1280 x 800.
    ImGuiIO& io = ImGui::GetIO();
    io.MousePos = {700.0F, 68.0F};
    desk.frame();
    desk.frame();
    io.MouseDown[0] = true;
    desk.frame();
    io.MousePos = {720.0F, 68.0F};
    desk.frame();
    REQUIRE(bench.mark_begun());
    CHECK(bench.mark_begun()->to_ms > bench.mark_begun()->from_ms);
    io.MouseDown[0] = false;
    desk.frame();
    CHECK(bench.what_is_typed() == BenchTyping::mark_note);
    desk.press(Key::enter);
    CHECK(episodes() == 3);
    desk.press(Key::d);
    CHECK(episodes() == 2);
    const auto sweep = [&bench] {
        bench.sweep_mark(2000e3, true);
        bench.sweep_mark(2050e3, false);
        bench.end_sweep();
    };
    // A third is taken back, a fourth left before it was made.
    sweep();
    desk.press(Key::enter);
    CHECK(episodes() == 3);
    desk.press(Key::d);
    CHECK(episodes() == 2);
    sweep();
    desk.press(Key::escape);
    CHECK(episodes() == 2);
    // A press that does not move is a click.
    bench.sweep_mark(900e3, true);
    bench.end_sweep();
    CHECK(bench.window().cursor_ms() == 900e3);
    CHECK_FALSE(bench.mark_begun());
    CHECK(bench.unsaved_words().size() == 1);
    desk.press(Key::w);
    CHECK(bench.note() == "Saved: " + (day / "episodes.csv").string());
    CHECK(bench.unsaved_words().empty());
    CHECK(episodes() == 2);
    const std::string from = sim::fixed(cursor_s(bench, 600.0), 1);
    const std::string to = sim::fixed(cursor_s(bench, 700.0), 1);
    CHECK(lines_of(text_of(day / "episodes.csv"))[0] == "start_unix_s,end_unix_s,machine,alarm,note");
    CHECK(lines_of(text_of(day / "episodes.csv"))[1] ==
          from + ',' + to + ",viner_1,loss_high,\"haulm, wet\"");
    // What podrate tune reads of it is what the bench counts.
    const sim::Tuning tuning = tuned(day, "loss_high_share=0.1");
    bench.put_value(0.1);
    CHECK(bench_csv(bench) == sim::tuning_by_day_csv(tuning.table));
    CHECK_FALSE(std::filesystem::exists(day / "episodes.csv.part"));
}

TEST_CASE("That nothing was to be told is marked, counts, is taken back and written") {
    const test::TempFolder folder;
    const std::filesystem::path day = copy_of_hard_day(folder);
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, opened(day));
    Bench& bench = desk.bench();
    choose(desk, "loss_high_share");
    const auto tally = [&]() -> const sim::AlarmTally& {
        return bench.book().table().tallies[1][0].alarms[0];
    };
    const int of_truth = tally().episodes;
    REQUIRE(of_truth > 1);
    REQUIRE(tally().alarms > 0);
    const KeyPress none{Key::e, true};
    bench.press(none);
    CHECK(bench.note().find("had nothing to tell of viner_1") != std::string::npos);
    CHECK(tally().episodes == 0);
    CHECK(tally().false_alarms == tally().alarms);
    desk.press(Key::d);
    CHECK(tally().episodes == of_truth);
    bench.press(none);
    CHECK(bench.unsaved_words().size() == 1);
    desk.press(Key::w);
    CHECK(bench.note() == "Saved: " + (day / "episodes.csv").string());
    CHECK(lines_of(text_of(day / "episodes.csv"))[1] == ",,viner_1,loss_high,");
    CHECK(tally().episodes == 0);
    const sim::Tuning tuning = tuned(day, "loss_high_share=0.1");
    bench.put_value(0.1);
    CHECK(bench_csv(bench) == sim::tuning_by_day_csv(tuning.table));
}

TEST_CASE("A file of episodes is kept whole and added to; what is wrong in it is told by its line") {
    const test::TempFolder folder;
    const std::filesystem::path day = copy_of_hard_day(folder);
    const double at_s = static_cast<double>(hard_day_open()->series.origin_us) / 1e6;
    const std::string kept = "alarm,machine,who,end_unix_s,start_unix_s\r\nloss_high,viner_1,Ann," +
                             sim::fixed(at_s + 90.0, 0) + ',' + sim::fixed(at_s + 60.0, 0) +
                             "\r\nloss_hihg,viner_1,Bob,2,1";
    test::write_text(day / "episodes.csv", kept);
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, opened(day));
    Bench& bench = desk.bench();
    choose(desk, "loss_high_share");
    CHECK(bench.note().find("episodes.csv:3: there is no alarm 'loss_hihg'; row skipped; the alarms are") !=
          std::string::npos);
    CHECK(bench.book().table().tallies[0][0].alarms[0].episodes == 1);
    // It has no room for notes: none is asked for.
    bench.sweep_mark(600e3, true);
    bench.sweep_mark(700e3, false);
    bench.end_sweep();
    CHECK_FALSE(bench.typing());
    desk.press(Key::w);
    CHECK(text_of(day / "episodes.csv") == kept + "\r\nloss_high,viner_1,," + sim::fixed(at_s + 700.0, 1) +
                                               ',' + sim::fixed(at_s + 600.0, 1) + "\r\n");
    CHECK(bench.book().table().tallies[0][0].alarms[0].episodes == 2);
    // A file that lacks a column is not touched, and the marks stay.
    test::write_text(day / "episodes.csv", "start_unix_s,machine,alarm\n");
    bench.sweep_mark(800e3, true);
    bench.sweep_mark(900e3, false);
    bench.end_sweep();
    desk.press(Key::w);
    CHECK(bench.note().find("Not saved: ") == 0);
    CHECK(bench.note().find("episodes.csv:1: has no column 'end_unix_s'; add it to its first row") !=
          std::string::npos);
    CHECK(text_of(day / "episodes.csv") == "start_unix_s,machine,alarm\n");
    CHECK(bench.book().marks().size() == 1);
}

TEST_CASE("A day without truth and trays says that nobody knows, and marks alone count") {
    const test::TempFolder folder;
    const std::filesystem::path day = copy_of_hard_day(folder);
    std::filesystem::remove_all(day / "truth");
    BenchDesk desk(1280, 800, {}, 1.0F, kDayPalette, opened(day));
    Bench& bench = desk.bench();
    choose(desk, "loss_high_share");
    REQUIRE(bench.book().counted());
    CHECK(strip_words(bench).find("nobody has said") != std::string::npos);
    CHECK(no_curve_words(bench) == "No curve: nobody has said what was to be told");
    CHECK(told_rows(bench)[7][2] == "\xE2\x80\x93");
    desk.press(Key::j);
    CHECK(bench.note() == "Nothing missed, nothing for nothing");
    bench.sweep_mark(600e3, true);
    bench.sweep_mark(700e3, false);
    bench.end_sweep();
    desk.press(Key::enter);
    desk.wait();
    CHECK(told_rows(bench)[1][2] == "1");
    CHECK(no_curve_words(bench).empty());
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
    CHECK(text_of(table) == bench_csv(bench));
    CHECK(lines_of(text_of(table))[0].find("setting,loss_high_share,day,machine,alarm,episodes,told") == 0);
    CHECK(lines_of(text_of(table))[1].find("0,0.15,") == 0);
    save_seen(bench, folder.path() / "none", draw);
    CHECK(bench.note() == "Saved: " + table.string());
    desk.press(Key::x);
    save_seen(bench, folder.path() / "none", draw);
    CHECK(bench.note().find("Not saved: ") == 0);
}
