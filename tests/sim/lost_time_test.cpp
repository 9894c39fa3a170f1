// Lost time as a ranking and by published schemes, on days worked by hand.
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <numeric>

#include "hours/lost_time.hpp"
#include "hours/time_schemes.hpp"
#include "report/html/bar_table.hpp"
#include "report/html/lost_time_html.hpp"
#include "report/html/time_schemes_html.hpp"
#include "report/summary_json.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

// Stretches one after the other from 14:00 UTC, of whole seconds; harvest at 2 kg/s.
class Ledger {
  public:
    Ledger& add(TimeKind kind, int seconds) {
        Stretch s;
        s.kind = kind;
        s.start_us = now_us_;
        now_us_ += seconds * kSecondUs;
        s.end_us = now_us_;
        s.harvested_kg = kind == TimeKind::harvesting ? 2.0 * seconds : 0.0;
        stretches_.push_back(s);
        return *this;
    }
    [[nodiscard]] MachineResult machine(const std::string& id) const {
        MachineResult m;
        m.id = id;
        m.usable = true;
        m.first_us = stretches_.front().start_us;
        m.last_us = now_us_;
        m.stretches = stretches_;
        return m;
    }

  private:
    TimeUs now_us_ = 1751032800 * kSecondUs;
    std::vector<Stretch> stretches_;
};

DayResult two_machines() {
    DayResult result;
    result.machines.push_back(Ledger()
                                  .add(TimeKind::harvesting, 1000)
                                  .add(TimeKind::turning, 40)
                                  .add(TimeKind::harvesting, 1000)
                                  .add(TimeKind::waiting, 300)
                                  .add(TimeKind::tipping, 60)
                                  .machine("alder"));
    result.machines.push_back(Ledger()
                                  .add(TimeKind::harvesting, 1500)
                                  .add(TimeKind::stopped, 400)
                                  .add(TimeKind::no_log, 100)
                                  .add(TimeKind::waiting, 100)
                                  .machine("birch"));
    MachineResult refused = Ledger().add(TimeKind::stopped, 5000).machine("cedar");
    refused.usable = false;
    result.machines.push_back(refused);
    result.first_us = result.machines[0].first_us;
    result.last_us = result.machines[0].last_us;
    return result;
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("Lost time stands by kind, the largest first, with shares that add up to all of it") {
    // 1,000 s are not harvest: waiting 400, stopped 400, no log 100, tipping 60, turning 40.
    const std::vector<Lost> kinds = lost_by_kind(two_machines(), 60.0);
    const struct {
        TimeKind kind;
        double seconds;
        std::size_t times;
        double forgone_kg;
        double cumulated;
    } expected[] = {{TimeKind::waiting, 400, 2, 800, 0.4},
                    {TimeKind::stopped, 400, 1, 800, 0.8},
                    {TimeKind::no_log, 100, 1, 0, 0.9},
                    {TimeKind::tipping, 60, 1, 120, 0.96},
                    {TimeKind::turning, 40, 0, 80, 1.0}};
    REQUIRE(kinds.size() == std::size(expected));
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        INFO(kinds[i].name);
        CHECK(kinds[i].kind == expected[i].kind);
        CHECK(kinds[i].seconds == expected[i].seconds);
        CHECK(kinds[i].times == expected[i].times);
        CHECK(kinds[i].forgone_kg == Approx(expected[i].forgone_kg));
        CHECK(kinds[i].share == Approx(expected[i].seconds / 1000.0));
        CHECK(kinds[i].cumulated_share == Approx(expected[i].cumulated));
    }
}

TEST_CASE("The same lost time stands by machine and a machine whose log was refused is not in it") {
    const std::vector<Lost> machines = lost_by_machine(two_machines(), 60.0);
    REQUIRE(machines.size() == 2);
    CHECK(machines[0].name == "birch");
    CHECK(machines[0].seconds == 600.0);
    CHECK(machines[0].forgone_kg == Approx(1000.0));
    CHECK(machines[1].name == "alder");
    CHECK(machines[1].cumulated_share == Approx(1.0));
    CHECK(machines[1].times == 2);
    CHECK(lost_by_machine(two_machines(), 30.0)[1].times == 3);
    DayResult busy;
    busy.machines = {Ledger().add(TimeKind::harvesting, 100).machine("alder")};
    CHECK(lost_by_machine(busy, 60.0).empty());
    CHECK(lost_by_kind(busy, 60.0).empty());
    CHECK(lost_time_html(Day{}, busy).empty());
}

TEST_CASE("Each kind of time falls into exactly one class of each scheme, whose classes sum to the whole") {
    KindSeconds seconds{};
    for (std::size_t i = 0; i < kTimeKinds; ++i) seconds[i] = static_cast<double>(1U << i);
    for (const TimeScheme* scheme : {&konaka_scheme(), &ktbl_scheme()}) {
        INFO(scheme->name);
        for (std::size_t i = 0; i < kTimeKinds; ++i) {
            const auto holds = [i](const TimeClass& c) { return (c.kinds >> i & 1U) != 0; };
            CHECK(std::count_if(scheme->classes.begin(), scheme->classes.end(), holds) == 1);
        }
        const std::vector<double> sums = seconds_by_class(*scheme, seconds);
        REQUIRE(sums.size() == scheme->classes.size());
        CHECK(std::accumulate(sums.begin(), sums.end(), 0.0) == 255.0);
        CHECK(sums.front() == 1.0);   // harvesting alone is the work itself
        CHECK(sums.back() == 128.0);  // no log is in no class of a published scheme
    }
    // Paused in the crop (4) and stopped (64): one class with Konaka, two with KTBL.
    CHECK(seconds_by_class(konaka_scheme(), seconds)[5] == 68.0);
    CHECK(seconds_by_class(ktbl_scheme(), seconds)[3] == 4.0);
    CHECK(seconds_by_class(ktbl_scheme(), seconds)[6] == 64.0);
}

TEST_CASE(
    "The report shows the ranking with figures beside its bars and says how the forgone is worked out") {
    const std::string html = lost_time_html(Day{}, two_machines());
    CHECK(
        says(html, "<td>waiting to tip</td><td>7 min</td><td>40.0</td><td>40.0</td><td>2</td><td>0.80</td>"));
    CHECK(says(html, "<td>no log</td><td>2 min</td><td>10.0</td><td>90.0</td><td>1</td><td>not known</td>"));
    CHECK(says(html, "<rect class=\"tipping\" width=\"24.0\" height=\"12\"/>"));
    CHECK(says(html, "<td>birch</td><td>10 min</td><td>60.0</td><td>60.0</td>"));
    CHECK(says(html, "own mean rate, peas into the hopper per hour of harvesting"));
    CHECK(says(html,
               "<td>14:25</td><td class=\"words\">birch</td><td class=\"words\">stopped</td><td>7 min</td>"
               "<td>not known</td><td>0.80</td>"));
    Day day;
    day.hours.stop_least_s = 500.0;
    CHECK(says(lost_time_html(day, two_machines()), "No stop lasted that long."));
}

TEST_CASE("A bar is never longer than its column and its words are made safe") {
    const std::string html = bar_table_html({"a<b"}, "c&d", {{{"x<y"}, 7.0, "bar"}, {{"z"}, -1.0, "bar"}});
    CHECK(says(html, "a&lt;b"));
    CHECK(says(html, "c&amp;d"));
    CHECK(says(html, "x&lt;y"));
    CHECK(says(html, "width=\"160.0\""));
    CHECK(says(html, "width=\"0.0\""));
}

TEST_CASE("The schemes stand in the report with each machine's time and what they cannot tell") {
    const std::string html = time_schemes_html(two_machines());
    CHECK(says(html,
               "<td>effective work</td><td class=\"words\">harvesting</td><td>33 min</td><td>25 min</td>"));
    CHECK(says(html, "which of them is not told"));
    CHECK(says(html, "<td>all</td><td class=\"words\"></td><td>40 min</td><td>35 min</td>"));
    CHECK_FALSE(says(html, "cedar"));
    CHECK(time_schemes_html(DayResult{}).empty());
}

TEST_CASE("The summary tells lost time for other programs") {
    const auto json = nlohmann::json::parse(summary_json(Day{}, two_machines()));
    CHECK(json["stop_least_s"] == 60.0);
    REQUIRE(json["lost_time_by_state"].size() == 5);
    CHECK(json["lost_time_by_state"][0]["state"] == "waiting");
    CHECK(json["lost_time_by_state"][0]["cumulated_pct"] == 40.0);
    CHECK(json["lost_time_by_state"][2]["forgone_t"].is_null());
    CHECK(json["lost_time_by_machine"][0]["machine"] == "birch");
    CHECK(json["lost_time_by_machine"][0]["forgone_t"].get<double>() == Approx(1.0));
}
