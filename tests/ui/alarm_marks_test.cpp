// Marks of what an alarm had to tell, made on the bench: counted, taken back, written.
#include "bench/alarm_book.hpp"
#include "bench/bench_csv.hpp"
#include "bench/told_words.hpp"
#include "log/number.hpp"
#include "tune/tuning_csv.hpp"
#include "ui/hard_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

double cursor_s(const Bench& bench, double into_s) {
    return static_cast<double>(bench.day().series.origin_us) / 1e6 + into_s;
}

}  // namespace

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
    CHECK(lines_of(test::text_of(day / "episodes.csv"))[0] == "start_unix_s,end_unix_s,machine,alarm,note");
    CHECK(lines_of(test::text_of(day / "episodes.csv"))[1] ==
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
    CHECK(lines_of(test::text_of(day / "episodes.csv"))[1] == ",,viner_1,loss_high,");
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
    CHECK(test::text_of(day / "episodes.csv") == kept + "\r\nloss_high,viner_1,," +
                                                     sim::fixed(at_s + 700.0, 1) + ',' +
                                                     sim::fixed(at_s + 600.0, 1) + "\r\n");
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
    CHECK(test::text_of(day / "episodes.csv") == "start_unix_s,machine,alarm\n");
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
