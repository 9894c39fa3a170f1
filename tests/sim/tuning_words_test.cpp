// What a sweep's page says in words, of what is known and of what is not.
#include <algorithm>
#include <catch2/catch.hpp>

#include "podrate/parameter_bytes.hpp"
#include "report/tuning/operating_chart.hpp"
#include "report/tuning/tuning_reasons.hpp"
#include "report/tuning/tuning_tables.hpp"
#include "report/tuning/tuning_words.hpp"
#include "report/tuning/write_tuning_report.hpp"
#include "sim/tune_tables.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using namespace podrate::sim;
using namespace podrate::test;

namespace {

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

bool minds(const std::vector<std::string>& all, const std::string& part) {
    return std::any_of(all.begin(), all.end(), [&](const std::string& text) { return says(text, part); });
}

}  // namespace

TEST_CASE("A price that is higher on what was left out is told as a warning") {
    const TuneTable table = loss_sweep(6, 3, 21, 12.0);
    TuningChoice choice = conclude_tuning(table, Parameters{});
    GainCheck& price = choice.by_machine.of_alarm[0][static_cast<std::size_t>(Gain::false_per_h)];
    price.on_all = -0.1;
    price.left_out = -4.2;
    price.range = {-6.0, -0.05};
    CHECK_FALSE(minds(warnings(table, choice), "The price is higher there"));
    price.range = {-6.0, -2.4};
    CHECK(minds(
        warnings(table, choice),
        "more false alarms: 0.10 an hour on all machines, but 4.20 an hour on machines left out (2.40 an "
        "hour to 6.00 an hour)"));
    CHECK(says(summary_text(table, choice), "see the warning below"));
}

TEST_CASE("Where nobody knows what was to be told nothing is said to be met") {
    TuneTable table = loss_sweep(3, 2, 5);
    for (auto& of_setting : table.tallies) {
        for (MachineDayTally& day : of_setting) {
            AlarmTally& tally = day.alarms[kLossHigh];
            tally.episodes = tally.told = tally.false_alarms = 0;
            tally.delays_s.clear();
            tally.known_h = 0.0;
        }
    }
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE_FALSE(choice.alarms.empty());
    CHECK(choice.chosen.setting == 0);
    const std::vector<std::string> why = reasons(table, choice);
    REQUIRE(why.size() == 1);
    CHECK(says(why[0], "Nobody knows what was to be told"));
    CHECK(says(summary_text(table, choice), "had to tell nobody knows"));
    CHECK(says(brings_text(choice, choice.alarms[0]), "nobody knows what it had to tell"));
    CHECK(minds(warnings(table, choice), "nobody knows what it had to tell"));
    CHECK_FALSE(says(recommendation_note(table, choice), "not known"));
}

TEST_CASE("An alarm that told nothing has no delay") {
    TuneTable table = loss_sweep(3, 2, 5);
    for (auto& of_setting : table.tallies) {
        for (MachineDayTally& day : of_setting) {
            day.alarms[kLossHigh].told = 0;
            day.alarms[kLossHigh].delays_s.clear();
        }
    }
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE_FALSE(choice.alarms.empty());
    CHECK_FALSE(says(summary_text(table, choice), "tells after"));
    CHECK_FALSE(says(brings_text(choice, choice.alarms[0]), "half of them"));
}

TEST_CASE("One false alarm seen leaves more open than none") {
    TuneTable table = loss_sweep(6, 3, 21, 12.0);
    for (MachineDayTally& day : table.tallies[1]) day.alarms[kLossHigh].false_alarms = 0;
    for (MachineDayTally& day : table.tallies[2]) day.alarms[kLossHigh].false_alarms = 0;
    table.tallies[2][0].alarms[kLossHigh].false_alarms = 1;
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    const AlarmConclusion& loss = choice.alarms.at(0);
    const auto high = [&](std::size_t setting) {
        return loss.ranges[setting][static_cast<std::size_t>(AlarmFigure::false_per_h)].high;
    };
    // Garwood 1936, two-sided 90 %: 2.996 and 4.744.
    CHECK(high(1) == Approx(2.996 / loss.sums[1].known_h).epsilon(1e-3));
    CHECK(high(2) >= 4.743 / loss.sums[2].known_h);
}

TEST_CASE("It is told who says what was to be told, on how many machine's days") {
    TuneTable table = loss_sweep(6, 3, 21, 12.0);
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    CHECK_FALSE(minds(how_sure(table, choice), "is said by"));  // nobody told the page
    REQUIRE(table.on.size() == 18);
    for (std::size_t i = 0; i < 17; ++i)
        table.on[i].known_from[kLossHigh] = i < 10   ? EpisodeSource::truth
                                            : i < 16 ? EpisodeSource::marked
                                                     : EpisodeSource::trays;
    CHECK(minds(how_sure(table, choice),
                "What \"loss above its limit\" had to tell is said by the truth of synthetic days on 10 "
                "machine's days, by episodes.csv on 6 machine's days, by trays on 1 machine's day, by nobody "
                "on 1 machine's day."));
}

TEST_CASE("A value as it was that no setting tries is named") {
    TuneTable table = loss_sweep(6, 3, 21, 12.0);
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE(choice.chosen.setting != 0);
    const std::size_t tried = reasons(table, choice).size();
    CHECK_FALSE(minds(reasons(table, choice), "not among the values tried"));
    table.settings[0].values[1] = 7.0;
    CHECK(reasons(table, choice).size() == tried + 1);
    CHECK(minds(reasons(table, choice), "not among the values tried: loss_high_on_s at 7 s. Each setting"));
}

TEST_CASE("A figure breaks before its range alone") {
    const TuneTable table = loss_sweep(6, 3, 21, 12.0);
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    const std::string listed = settings_table_html(table, choice, choice.alarms.at(0));
    CHECK(says(listed, "<div class=\"ranged\">"));
    CHECK(says(listed, "\u00a0% ("));
    CHECK(says(listed, "\u00a0to\u00a0"));
}

TEST_CASE("Marks that no chart has are not in the legend") {
    TuneTable table = loss_sweep(6, 3, 21, 12.0);
    TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE(choice.chosen.setting != 0);
    CHECK(says(operating_legend_html(choice), "recommended"));
    choice.chosen.setting = 0;
    CHECK_FALSE(says(operating_legend_html(choice), "recommended"));
}

TEST_CASE("Where machines differ each has a block of its own, with what it has and what is recommended") {
    const TempFolder folder;
    const TuneTable table = loss_sweep(6, 2, 21, 12.0);
    TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE(choice.chosen.setting != 0);
    for (const TunedOn& on : table.on) {
        choice.own_of.emplace_back();
        choice.own_of.back().hopper_capacity_kg = Real(on.machine == "m1" ? 2000 : 1800);
    }
    write_tuning_report(table, choice, folder.path());
    CHECK_FALSE(std::filesystem::exists(folder / "recommended.bin"));
    for (const char* machine : {"m1", "m2"}) {
        const std::string bytes = text_of(folder / ("recommended_" + std::string(machine) + ".bin"));
        Parameters read;
        REQUIRE(unpack_parameters(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size(), read) ==
                ParameterRead::good);
        CHECK(read.hopper_capacity_kg == Real(machine[1] == '1' ? 2000 : 1800));
        CHECK(read.loss_high_on_s == Real(12));
    }
    for (Parameters& own : choice.own_of) own = Parameters{};
    write_tuning_report(table, choice, folder.path());
    CHECK(std::filesystem::exists(folder / "recommended.bin"));
    CHECK_FALSE(std::filesystem::exists(folder / "recommended_m1.bin"));
}
