// A sweep's page, and the parameters that it recommends.
#include <algorithm>
#include <catch2/catch.hpp>

#include "parameters/parameter_file.hpp"
#include "parameters/parameter_text.hpp"
#include "podrate/parameter_bytes.hpp"
#include "report/tuning/operating_chart.hpp"
#include "report/tuning/tuning_html.hpp"
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

bool tells(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

// Elements that are not closed in order; HTML's void ones need no end.
std::string unclosed(const std::string& html) {
    std::vector<std::string> open;
    for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
        const std::size_t end = html.find('>', at);
        if (end == std::string::npos) return html.substr(at, 40);
        if (html[at + 1] == '!' || html[end - 1] == '/') continue;
        const bool closes = html[at + 1] == '/';
        const std::size_t from = at + (closes ? 2 : 1);
        const std::string name = html.substr(from, html.find_first_of(" >", from) - from);
        if (name == "meta") continue;
        if (!closes) {
            open.push_back(name);
        } else if (open.empty() || open.back() != name) {
            return "</" + name + "> after <" + (open.empty() ? "" : open.back()) + ">";
        } else {
            open.pop_back();
        }
    }
    return open.empty() ? "" : "<" + open.back() + ">";
}

bool warns(const std::vector<std::string>& all, const std::string& part) {
    return std::any_of(all.begin(), all.end(), [&](const std::string& text) { return tells(text, part); });
}

// The tallies of a single day of one machine.
TuneTable one_day() {
    TuneTable table = loss_sweep(1, 1, 4);
    for (auto& of_setting : table.tallies) {
        AlarmTally& tally = of_setting[0].alarms[kLossHigh];
        tally.episodes = std::min(tally.episodes, 4);
        tally.told = std::min(tally.told, 4);
        tally.delays_s.resize(static_cast<std::size_t>(tally.told));
    }
    return table;
}

}  // namespace

TEST_CASE("The page says first what to set with what it brings and costs, and each part stands in it") {
    const TuneTable table = loss_sweep(6, 3, 21, 12.0);
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE(choice.chosen.setting != 0);
    const std::string html = tuning_html(table, choice);
    CHECK(unclosed(html).empty());
    const std::string& first = summary_text(table, choice);
    CHECK(tells(first, "Set loss_high_share to 0.12 (was 0.1), loss_high_on_s to 12 s (was 6 s)."));
    CHECK(tells(first, "once in "));
    CHECK(tells(first, "seen on days and machines left out"));
    CHECK(html.find("class=\"summary\"") < html.find("class=\"contents\""));
    CHECK(warns(how_sure(table, choice), "What is asked was met on 6 of 6 days left out"));
    for (const char* part : {"Why this setting", "Does it hold elsewhere?", "A day left out",
                             "A machine left out", "What the driver is shown in all", "IEC 62682",
                             "from memory", "Beside published points", "Alarms that the sweep does not move"})
        CHECK(tells(html, part));
    CHECK_FALSE(tells(html, "nan"));
    CHECK_FALSE(tells(html, "inf"));
    CHECK_FALSE(tells(html, "http"));  // it needs nothing else
    CHECK(tuning_html(table, choice) == html);
}

TEST_CASE("The check of elements sees one that is left open") {
    CHECK(unclosed("<!doctype html><meta a=\"b\"><p>x<rect/></p>").empty());
    CHECK_FALSE(unclosed("<p><b>x</p>").empty());
    CHECK_FALSE(unclosed("<div><p></p>").empty());
    CHECK_FALSE(unclosed("</p>").empty());
}

TEST_CASE("Each setting has its mark and those that count have shapes of their own") {
    const TuneTable table = loss_sweep(6, 3, 21, 12.0);
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    const AlarmConclusion& loss = choice.alarms.at(0);
    const auto best = static_cast<std::size_t>(std::count(loss.unbeaten.begin(), loss.unbeaten.end(), true));
    for (const std::string& svg : {detection_chart_svg(loss, choice), delay_chart_svg(loss, choice)}) {
        CHECK(count_of(svg, "<circle class=\"any-setting\"") == table.settings.size() - best);
        CHECK(count_of(svg, "<path class=\"unbeaten\"") == best);
        CHECK(count_of(svg, "<path class=\"as-it-was\"") == 1);
        CHECK(count_of(svg, "<path class=\"to-set\"") == 1);
        CHECK(tells(svg, ">recommended<"));
        CHECK(tells(svg, ">as it was<"));
    }
    const std::string listed = settings_table_html(table, choice, loss);
    CHECK(count_of(listed, "<tr>") == table.settings.size() + 1);
    TuneTable twice = table;
    twice.settings.insert(twice.settings.end(), table.settings.begin(), table.settings.end());
    twice.tallies.insert(twice.tallies.end(), table.tallies.begin(), table.tallies.end());
    const TuningChoice same = conclude_tuning(twice, Parameters{});
    const std::string once = settings_table_html(twice, same, same.alarms.at(0));
    CHECK(count_of(once, "<tr>") == table.settings.size() + 1);
    CHECK(count_of(once, ">1 more<") == table.settings.size());
}

TEST_CASE("Where none meets what is asked the page says why") {
    TuningOptions options;
    options.most_false_per_h = 0.001;
    const TuneTable table = loss_sweep(6, 3, 21, 40.0);
    const TuningChoice choice = conclude_tuning(table, Parameters{}, options);
    const std::vector<std::string> why = reasons(table, choice);
    REQUIRE(why.size() == 2);
    CHECK(tells(why[0], "None of 20 settings meets what is asked: at least 95 % told"));
    CHECK(tells(why[1], "where 95 % was told there were at least"));
}

TEST_CASE("Where each alarm could be had as asked but not all at once the page says so") {
    TuneTable table;
    table.parameters = {"alarms_latched"};
    table.on = days_of_machines(3, 2);
    table.settings = {{{0.0}}, {{1.0}}};
    table.tallies.assign(2, std::vector<MachineDayTally>(table.on.size()));
    for (std::size_t setting = 0; setting < 2; ++setting) {
        for (MachineDayTally& day : table.tallies[setting]) {
            const AlarmTally good = alarm_tally(2, {5.0F, 6.0F}, 2, 0, 9.0);
            const AlarmTally bad = alarm_tally(2, {5.0F, 6.0F}, 20, 18, 9.0);
            day.alarms[kLossHigh] = setting == 0 ? good : bad;
            day.alarms[kRateLow] = setting == 0 ? bad : good;
        }
    }
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    const std::vector<std::string> why = reasons(table, choice);
    REQUIRE(why.size() == 2);
    CHECK(tells(why[1], "Each alarm alone"));
    CHECK(choice.chosen.setting == 0);
    CHECK(tells(what_to_set(table, choice), "Leave all as it is"));
    CHECK(unclosed(tuning_html(table, choice)).empty());
}

TEST_CASE("An alarm that could never have come leaves no figure that is none") {
    TuneTable table = loss_sweep(3, 2, 5);
    for (auto& of_setting : table.tallies) {
        for (MachineDayTally& day : of_setting) {
            day.alarms[kLossHigh].judged_h = 0.0;
            day.alarms[kLossHigh].known_h = 0.0;
        }
    }
    const std::string html = tuning_html(table, conclude_tuning(table, Parameters{}));
    CHECK(unclosed(html).empty());
    CHECK_FALSE(tells(html, "nan"));
    CHECK_FALSE(tells(html, "inf"));
}

TEST_CASE("Too little to go by is said in words") {
    const TuneTable table = one_day();
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    const std::vector<std::string> minded = warnings(table, choice);
    CHECK(warns(minded, "Too few episodes of \"loss above its limit\""));
    CHECK(warns(minded, "so few machine's days"));
    REQUIRE(choice.chosen.setting != 0);
    CHECK(warns(minded, "All is of one day"));
    CHECK(warns(minded, "All is of one machine"));
    CHECK(tells(summary_text(table, choice), "4 warnings below"));
    CHECK(unclosed(tuning_html(table, choice)).empty());
}

TEST_CASE("A gain that is not seen on what was left out is told as a warning") {
    TuneTable table = loss_sweep(6, 1, 21, 12.0);
    for (std::size_t setting = 1; setting < table.settings.size(); ++setting)
        table.tallies[setting][2].alarms[kLossHigh].false_alarms += 20;
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE(choice.chosen.setting != 0);
    CHECK(warns(warnings(table, choice), "does not carry over"));
}

TEST_CASE("A sweep that moves nothing leaves all as it is") {
    TuneTable table = loss_sweep(2, 2, 3);
    for (auto& of_setting : table.tallies) of_setting = table.tallies[0];
    const TuningChoice choice = conclude_tuning(table, Parameters{});
    CHECK(choice.alarms.empty());
    CHECK(choice.chosen.setting == 0);
    CHECK(tells(tuning_html(table, choice), "leave all as it is"));
    CHECK(recommended_set(table, choice).named() == 0);
}

TEST_CASE("Names of days and machines are escaped") {
    TuneTable table = loss_sweep(3, 2, 5, 12.0);
    for (TunedOn& on : table.on) {
        on.day += "<script>";
        on.machine += "\"&";
    }
    const std::string html = tuning_html(table, conclude_tuning(table, Parameters{}));
    CHECK_FALSE(tells(html, "<script"));
    CHECK(tells(html, "d1&lt;script&gt;"));
    CHECK(tells(html, "m2&quot;&amp;"));
    CHECK(unclosed(html).empty());
}

TEST_CASE("What is recommended is kept as a parameter set and as a block for a controller") {
    const TempFolder folder;
    const TuneTable table = loss_sweep(6, 3, 21, 12.0);
    Parameters machine;
    machine.width_m = Real(3.6);
    TuningChoice choice = conclude_tuning(table, machine);
    choice.made.who = "a tester";
    choice.made.unix_s = 1782538800;
    choice.made.made_from = "viner_1";
    write_tuning_report(table, choice, folder / "out");
    const ParameterSet set = read_parameter_set(folder / "out" / "recommended.toml").set;
    CHECK(set.named() == 2);
    CHECK(set.made.note == recommendation_note(table, choice));
    CHECK(set.made.who == "a tester");
    Parameters before = machine;
    before.loss_high_share = Real(0.10);  // as the sweep's first setting has it
    CHECK(set.made.made_from_mark == mark_of(before));
    const std::string bytes = text_of(folder / "out" / "recommended.bin");
    Parameters read;
    REQUIRE(unpack_parameters(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size(), read) ==
            ParameterRead::good);
    CHECK(read.loss_high_share == Real(0.12));
    CHECK(read.loss_high_on_s == Real(12));
    CHECK(read.width_m == Real(3.6));
    CHECK(text_of(folder / "out" / "tuning.html") == tuning_html(table, choice));
    // A second sweep into the same folder keeps the set before it.
    write_tuning_report(table, choice, folder / "out");
    CHECK(std::filesystem::exists(folder / "out" / "recommended.toml.bak"));
}

TEST_CASE("Where machines differ in a parameter what is set is named for all and what is left is not") {
    TuneTable table = loss_sweep(6, 3, 21, 12.0);
    table.settings[0].values = {std::nan(""), std::nan("")};
    TuningChoice choice = conclude_tuning(table, Parameters{});
    REQUIRE(choice.chosen.setting != 0);
    // The first machine has the value already; the others need not.
    choice.present.loss_high_on_s = static_cast<Real>(table.settings[choice.chosen.setting].values[1]);
    CHECK(recommended_set(table, choice).named() == 2);
    CHECK(tells(what_to_set(table, choice), "loss_high_on_s to 12 s (was as each machine has it)"));
    CHECK_FALSE(tells(tuning_html(table, choice), "nan"));
    choice.chosen.setting = 0;
    CHECK(recommended_set(table, choice).named() == 0);
    CHECK(tells(what_to_set(table, choice), "loss_high_on_s as each machine has it"));
}

TEST_CASE("A set that the sweep began from goes on in the one recommended") {
    const TempFolder folder;
    const TuneTable table = loss_sweep(6, 3, 21, 12.0);
    TuningChoice choice = conclude_tuning(table, Parameters{});
    ParameterSet base;
    base.made.note = "for wet days";
    base.values[0] = Real(3.5);
    choice.base = base;
    write_tuning_report(table, choice, folder.path());
    const ParameterSet set = read_parameter_set(folder / "recommended.toml").set;
    CHECK(set.named() == 3);
    CHECK(set.values[0] == Real(3.5));
    REQUIRE(set.history.size() == 1);
    CHECK(set.history[0].note == "for wet days");
}

TEST_CASE("Each row of the page's tables has a cell for each heading") {
    const TuneTable table = loss_sweep(6, 3, 21, 12.0);
    const std::string html = tuning_html(table, conclude_tuning(table, Parameters{}));
    const auto count = [](const std::string& text, const std::string& tag) {
        int found = 0;
        for (auto at = text.find(tag); at != std::string::npos; at = text.find(tag, at + 1)) ++found;
        return found;
    };
    int rows = 0;
    for (auto at = html.find("<table>"); at != std::string::npos; at = html.find("<table>", at + 1)) {
        const std::string one = html.substr(at, html.find("</table>", at) - at);
        const int headings = count(one, "</th>");
        for (auto row = one.find("<tr><td"); row != std::string::npos; row = one.find("<tr><td", row + 1)) {
            CHECK(count(one.substr(row, one.find("</tr>", row) - row), "</td>") == headings);
            ++rows;
        }
    }
    CHECK(rows > 40);
}

TEST_CASE("How often an alarm cries wolf is said as a person would") {
    CHECK(how_often_text(0.0) == "not once");
    CHECK(how_often_text(0.25) == "once in 4 h");
    CHECK(how_often_text(0.4) == "once in 2.5 h");
    CHECK(how_often_text(0.05) == "once in 20 h");
    CHECK(how_often_text(2.5) == "2.5 times an hour");
    CHECK(swept_value_text("loss_high_on_s", 12.5) == "12.5 s");
    CHECK(swept_value_text("loss_high_share", 0.125) == "0.125");
}
