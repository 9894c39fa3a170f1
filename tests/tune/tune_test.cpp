// A sweep as a whole.
#include "tune/tune.hpp"

#include <catch2/catch.hpp>

#include "tune/kept_work.hpp"
#include "tune/tallying.hpp"
#include "tune/true_episodes.hpp"
#include "tune/tune_days.hpp"
#include "tune/tuned_part.hpp"
#include "tune/tuning_csv.hpp"

using namespace podrate;
using namespace podrate::sim;
using Catch::Contains;
using podrate::test::TempFolder;
using podrate::test::text_of;
using podrate::test::write_text;

namespace {

constexpr std::size_t kLoss = static_cast<std::size_t>(AlarmId::loss_high);

TuneOptions options_of(const TempFolder& folder, const std::vector<std::string>& sweep,
                       const std::string& out) {
    TuneOptions options;
    options.folders = {(folder / "one").string(), (folder / "two").string()};
    options.out = folder / out;
    options.sweep = parse_sweep(sweep);
    return options;
}

}  // namespace

TEST_CASE("A sweep's tallies are those of each setting's own replay, whatever it changes") {
    const TempFolder folder;
    test::write_tune_day(folder, "one", 1, 0.4);
    test::write_tune_day(folder, "two", 2, 0.4);
    const Tuning tuning =
        tune(options_of(folder, {"loss_high_on_s=0,20", "drum_loss_share=0.03,0.09"}, "out"));
    CHECK(tuning.notes.empty());
    REQUIRE(tuning.table.settings.size() == 5);
    REQUIRE(tuning.table.on.size() == 2);
    CHECK(tuning.table.on[1].day == "Tuned on, day two");
    CHECK(tuning.alarms.size() == kAlarms);  // the estimator moves, so all may
    const auto sweep = parse_sweep({"loss_high_on_s=0,20", "drum_loss_share=0.03,0.09"});
    int alarms = 0;
    for (std::size_t place = 0; place < 2; ++place) {
        const auto path = folder / (place == 0 ? "one" : "two");
        Machine machine = read_day(path).machines[0];
        const MachineTruth truth = true_episodes(path, machine);
        const Parameters own = machine.parameters;
        for (std::size_t i = 0; i < 5; ++i) {
            machine.parameters = i == 0 ? own : with_setting(own, sweep, tuning.table.settings[i]);
            AlarmTrace trace;
            const MachineResult result = test::traced_replay(machine, trace);
            const MachineDayTally expected = tally_of(result.alarms, times_of(trace), truth);
            TunedPart a;
            TunedPart b;
            a.tallies = {expected};
            b.tallies = {tuning.table.tallies[i][place]};
            CHECK(bytes_of(a) == bytes_of(b));
            alarms += expected.alarms[kLoss].alarms;
        }
    }
    CHECK(alarms > 10);
}

TEST_CASE("A sweep is the same with one thread, with two, and taken over, damaged work made anew") {
    const TempFolder folder;
    test::write_tune_day(folder, "one", 1, 0.4);
    test::write_tune_day(folder, "two", 2, 0.4);
    const std::vector<std::string> sweep = {"loss_high_share=0.06:0.2:40", "loss_high_on_s=0,6,20"};
    const auto tables = [](const Tuning& tuning) {
        return tuning_csv(tuning.table, tuning.alarms, {}) + tuning_by_day_csv(tuning.table);
    };
    TuneOptions options = options_of(folder, sweep, "out");
    options.at_once = 1;
    const Tuning one = tune(options);
    CHECK(one.taken_over == 0);
    CHECK(one.table.settings[0].values == std::vector<double>{0.15, 6.0});  // not 0.150000006
    CHECK(one.alarms == std::vector<AlarmId>{AlarmId::loss_high});
    options.out = folder / "out2";
    options.at_once = 2;
    const std::string expected = tables(tune(options));
    CHECK(tables(one) == expected);

    const Tuning again = tune(options);
    CHECK(again.taken_over == 6);  // three pieces a machine's day
    CHECK(tables(again) == expected);
    int spoilt = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder / "out2" / "work")) {
        std::string text = text_of(entry.path());
        if (spoilt == 0) text[text.size() / 2] = static_cast<char>(text[text.size() / 2] ^ 1);
        if (spoilt == 1) text.resize(text.size() - 3);
        if (spoilt == 2) text.clear();
        if (spoilt++ < 3) write_text(entry.path(), text);
    }
    write_text(folder / "out2" / "work" / "draft", "left behind");
    const Tuning mended = tune(options);
    CHECK(mended.taken_over == 3);
    CHECK(tables(mended) == expected);
    CHECK_FALSE(std::filesystem::exists(folder / "out2" / "work" / "draft"));
    // What the day holds has changed, so nothing of it is taken over.
    write_text(folder / "one" / "episodes.csv",
               "start_unix_s,end_unix_s,machine,alarm\n1751429000,1751429100,viner_1,loss_high\n");
    const Tuning marked = tune(options);
    CHECK(marked.taken_over == 3);
    CHECK(marked.table.tallies[0][0].alarms[kLoss].episodes == 1);
    options.anew = true;
    CHECK(tune(options).taken_over == 0);
}

TEST_CASE("The best that a search finds is within 2 per cent of the best of all") {
    const TempFolder folder;
    test::write_tune_day(folder, "one", 1);
    test::write_tune_day(folder, "two", 4);
    TuneOptions options =
        options_of(folder, {"loss_high_share=0.06:0.24:19", "loss_high_on_s=0:30:11"}, "grid");
    const Tuning grid = tune(options);
    REQUIRE(grid.table.settings.size() == 210);
    options.out = folder / "search";
    options.search = true;
    options.most_settings = 100;
    const Tuning found = tune(options);
    CHECK(found.table.settings.size() <= 101);
    const auto least = [](const Tuning& tuning) {
        return objective_of(tuning.table.tallies[best_setting(tuning.table, tuning.alarms, {})],
                            tuning.alarms, {});
    };
    const double as_it_was = objective_of(grid.table.tallies[0], grid.alarms, {});
    INFO("grid " << least(grid) << ", search " << least(found) << ", as it was " << as_it_was);
    CHECK(least(grid) < as_it_was);
    CHECK(least(found) <= 1.02 * least(grid));
    // The same trail, taken from what is kept.
    const Tuning again = tune(options);
    CHECK(tuning_csv(again.table, again.alarms, {}) == tuning_csv(found.table, found.alarms, {}));
    CHECK(again.taken_over == 2 * found.table.settings.size());
}

TEST_CASE("A day that cannot be used is told and left out") {
    const TempFolder folder;
    test::write_tune_day(folder, "one", 1, 0.2);
    test::write_tune_day(folder, "two", 2, 0.2);
    write_text(folder / "two" / "viner_1.csv", "unix_s,hopper_kg\n");
    TuneOptions options = options_of(folder, {"loss_high_on_s=0,20"}, "out");
    options.folders.push_back((folder / "nowhere").string());
    options.folders.push_back((folder / "one").string());
    const Tuning tuning = tune(options);
    CHECK(tuning.table.on.size() == 1);
    REQUIRE(tuning.notes.size() == 3);
    CHECK_THAT(tuning.notes[0], Contains("nowhere"));
    CHECK_THAT(tuning.notes[1], Contains("given twice"));
    CHECK_THAT(tuning.notes[2], Contains("viner_1.csv"));
    options.folders = {(folder / "two").string()};
    CHECK_THROWS_WITH(tune(options), Contains("no day can be used"));
}

TEST_CASE("A day that was copied counts once, and logs that two days share are told of") {
    const TempFolder folder;
    test::write_tune_day(folder, "one", 1, 0.2);
    std::filesystem::copy(folder / "one", folder / "copy", std::filesystem::copy_options::recursive);
    test::write_tune_day(folder, "two", 2, 0.2);
    TuneOptions options = options_of(folder, {"loss_high_on_s=0,20"}, "out");
    options.folders = {(folder / "one").string(), (folder / "copy").string(), (folder / "two").string()};
    const Tuning tuning = tune(options);
    CHECK(tuning.table.on.size() == 2);
    REQUIRE(tuning.notes.size() == 1);
    CHECK_THAT(tuning.notes[0], Contains("copy: its logs are those of"));
    CHECK_THAT(tuning.notes[0], Contains("one; counted once"));
    std::filesystem::remove_all(folder / "copy" / "truth");
    // A day of two machines, one of them logged elsewhere, too.
    std::filesystem::copy_file(folder / "two" / "viner_1.csv", folder / "copy" / "viner_2.csv");
    write_text(folder / "copy" / "day.toml", test::text_of(folder / "copy" / "day.toml") +
                                                 "\n[[machine]]\nid = \"viner_2\"\nlog = "
                                                 "\"viner_2.csv\"\nwidth_m = 3.3\n");
    options.folders = {(folder / "two").string(), (folder / "copy").string()};
    const Tuning shared = tune(options);
    CHECK(shared.table.on.size() == 3);
    REQUIRE(shared.notes.size() >= 1);
    CHECK_THAT(shared.notes[0], Contains("some of its logs are those of"));
}

TEST_CASE("The tables are what the tallies say") {
    TuneTable table;
    table.parameters = {"loss_high_share"};
    table.on = {{"A day, \"wet\"", "viner_1"}, {"A day, \"wet\"", "viner_2"}};
    table.settings = {{{std::nan("")}}, {{0.1}}};
    table.tallies.resize(2, std::vector<MachineDayTally>(2));
    AlarmTally& loss = table.tallies[1][0].alarms[kLoss];
    loss = {4, 3, {12.0F, 2.0F, 30.0F}, 5, 1, 2, 100.0, 40.0, 2.0, 2.0};
    table.tallies[1][1].alarms[kLoss] = {1, 0, {}, 1, 1, 0, 10.0, 0.5, 2.0, 2.0};
    table.tallies[1][0].panel = {5, 6, 2, 1, 0, 3, 1.0};
    const std::string csv = tuning_csv(table, {AlarmId::loss_high}, {});
    CHECK_THAT(
        csv,
        Contains(
            "\n1,0.1,loss_high,5,3,40.0,12.0,30.0,6,2,0.5000,1.5000,2,110.0,40.5,4.0000,4.0000,,,,,,\n"));
    CHECK_THAT(csv, Contains("\n1,0.1,all,,,,,,5,,,5.0000,,,,1.0000,,6,2,1,0,3,0.51000\n"));
    CHECK_THAT(csv, Contains("\n0,,loss_high,,,,,,0,,,,0,0.0,,0.0000,0.0000,,,,,,\n"));
    const std::string by_day = tuning_by_day_csv(table);
    CHECK_THAT(
        by_day,
        Contains("\n1,0.1,\"A day, \"\"wet\"\"\",viner_2,loss_high,1,0,100.0,,,1,1,0.5000,0.5000,0,10.0,0.5,"
                 "2.0000,2.0000,,,,,\n"));
    for (const std::string& text : {csv, by_day}) {
        const auto cells = [](const std::string& line) {
            bool quoted = false;
            int count = 1;
            for (const char c : line) {
                quoted = quoted != (c == '"');
                count += c == ',' && !quoted ? 1 : 0;
            }
            return count;
        };
        std::size_t from = 0;
        const int columns = cells(text.substr(0, text.find('\n')));
        for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', from)) {
            CHECK(cells(text.substr(from, end - from)) == columns);
            from = end + 1;
        }
    }
}

TEST_CASE("A piece of work is read back as it was, and anything else is none") {
    TunedPart part;
    part.usable = true;
    part.faults = 3;
    part.tallies.resize(2);
    part.tallies[1].alarms[2].delays_s = {1.5F, 0.1F};
    part.tallies[1].panel.work_h = 7.25;
    const std::string bytes = bytes_of(part);
    REQUIRE(part_of(bytes));
    CHECK(bytes_of(*part_of(bytes)) == bytes);
    for (const std::size_t cut : {std::size_t{0}, std::size_t{8}, bytes.size() - 1})
        CHECK_FALSE(part_of(bytes.substr(0, cut)));
    CHECK_FALSE(part_of(bytes + '\0'));
}
