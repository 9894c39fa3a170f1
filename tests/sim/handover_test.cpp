// Shifts and the sheet for who takes over, on a day worked by hand.
#include <algorithm>
#include <catch2/catch.hpp>

#include "hours/shift_totals.hpp"
#include "report/html/handover_html.hpp"
#include "report/html/shifts_html.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr TimeUs kTwoOClockUs = 1751032800 * kSecondUs;  // 14:00 UTC, 15:00 in London
constexpr TimeUs kMinuteOfTimeUs = 60 * kSecondUs;

// Harvest for 90 min at 60 kg and 120 m2 a minute, then a wait of half an hour; tips after 40 and 100 min.
MachineResult alder() {
    MachineResult m;
    m.id = "alder";
    m.usable = true;
    m.first_us = kTwoOClockUs;
    m.last_us = kTwoOClockUs + 120 * kMinuteOfTimeUs;
    for (int i = 0; i < 120; ++i) {
        Minute minute;
        minute.minute = kTwoOClockUs / kMinuteOfTimeUs + i;
        minute.harvested_kg = 60.0 * std::min(i + 1, 90);
        minute.area_m2 = 120.0 * std::min(i + 1, 90);
        m.minutes.push_back(minute);
    }
    Stretch harvest;
    harvest.kind = TimeKind::harvesting;
    harvest.start_us = m.first_us;
    harvest.end_us = m.first_us + 90 * kMinuteOfTimeUs;
    Stretch wait = harvest;
    wait.kind = TimeKind::waiting;
    wait.start_us = harvest.end_us;
    wait.end_us = m.last_us;
    m.stretches = {harvest, wait};
    for (const int after_min : {40, 100}) {
        Load load;
        load.number = static_cast<std::uint32_t>(m.loads.size() + 1);
        load.end_us = m.first_us + after_min * kMinuteOfTimeUs;
        load.net_kg = Real(1000 + after_min);
        m.loads.push_back(load);
    }
    m.last.state = WorkState::waiting;
    m.last.mass_kg = Real(1800);
    m.last.level_share = Real(0.9);
    m.last.oldest_cut_us = m.last_us - 35 * kMinuteOfTimeUs;
    m.last.alarms = 1U << static_cast<unsigned>(AlarmId::hopper_full);
    m.alarms.push_back({AlarmId::hopper_full, m.first_us, m.first_us + kMinuteOfTimeUs});
    m.alarms.push_back({AlarmId::hopper_full, m.first_us + 91 * kMinuteOfTimeUs, m.last_us});
    m.alarms.push_back({AlarmId::loss_high, m.first_us + 80 * kMinuteOfTimeUs, m.last_us});
    return m;
}

DayResult one_machine() {
    DayResult result;
    result.machines = {alder()};
    result.first_us = kTwoOClockUs;
    result.last_us = kTwoOClockUs + 120 * kMinuteOfTimeUs;
    return result;
}

Day in_london(std::vector<int> shift_minutes) {
    Day day;
    day.label = "North <block>";
    day.time_zone = "Europe/London";
    day.hours.shift_minutes = std::move(shift_minutes);
    return day;
}

bool shows(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("A day is cut into shifts by the local clock and its shifts sum to the whole") {
    const std::vector<Shift> shifts = shifts_of(in_london({6 * 60, 16 * 60, 16 * 60 + 35}), one_machine());
    REQUIRE(shifts.size() == 3);
    CHECK(shifts[0].from_us == kTwoOClockUs);
    CHECK(shifts[1].from_us == kTwoOClockUs + 60 * kMinuteOfTimeUs);
    CHECK(shifts[2].from_us == kTwoOClockUs + 95 * kMinuteOfTimeUs);
    const struct {
        double harvested_kg;
        double area_m2;
        std::size_t loads;
        double tipped_kg;
        double harvesting_s;
        double waiting_s;
    } expected[] = {{3600, 7200, 1, 1040, 3600, 0}, {1800, 3600, 0, 0, 1800, 300}, {0, 0, 1, 1100, 0, 1500}};
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        INFO("shift " << i);
        REQUIRE(shifts[i].machines.size() == 1);
        const ShiftMachine& m = shifts[i].machines[0];
        CHECK(m.harvested_kg == Approx(expected[i].harvested_kg));
        CHECK(m.area_m2 == Approx(expected[i].area_m2));
        CHECK(m.loads == expected[i].loads);
        CHECK(m.tipped_kg == Approx(expected[i].tipped_kg));
        CHECK(m.seconds[static_cast<std::size_t>(TimeKind::harvesting)] == Approx(expected[i].harvesting_s));
        CHECK(m.seconds[static_cast<std::size_t>(TimeKind::waiting)] == Approx(expected[i].waiting_s));
    }
}

TEST_CASE("Without shifts the day is one and the report has no section of them") {
    const DayResult result = one_machine();
    REQUIRE(shifts_of(in_london({}), result).size() == 1);
    CHECK(shifts_of(in_london({}), result)[0].machines[0].harvested_kg == Approx(5400.0));
    CHECK(shifts_html(in_london({}), result).empty());
    CHECK(shifts_html(in_london({6 * 60}), result).empty());
    CHECK(shows(shifts_html(in_london({16 * 60}), result),
                "<td>15:00 to 16:00</td><td class=\"words\">alder</td><td>3.60</td><td>0.72</td><td>1</td>"
                "<td>1.04</td><td>1 h 00 min</td><td>0 s</td>"));
}

TEST_CASE("A log whose times can't be right is not cut into a thousand shifts") {
    DayResult result = one_machine();
    result.last_us += 400 * 1440 * kMinuteOfTimeUs;
    CHECK(shifts_of(in_london({6 * 60}), result).size() == 1);
}

TEST_CASE("The handover sheet tells hoppers and work and alarms that stand and the last loads") {
    DayResult result = one_machine();
    for (std::uint32_t number = 3; number <= 5; ++number) {
        result.machines[0].loads.push_back(result.machines[0].loads[1]);
        result.machines[0].loads.back().number = number;
    }
    MachineResult refused;
    refused.id = "birch";
    result.machines.push_back(refused);
    const std::string html = handover_html(in_london({16 * 60}), result);
    CHECK(shows(html, "Handover: North &lt;block&gt;"));
    CHECK(shows(html, "2025-06-27 17:00 (Europe/London)"));
    CHECK(shows(html,
                "<td>alder</td><td class=\"words\">waiting to tip since 16:30</td><td>17:00</td>"
                "<td>1800</td><td>90</td><td>35 min</td>"));
    CHECK(shows(html, "<td>birch</td><td class=\"words\">log could not be used</td>"));
    // The alarm that stands, not the one that went nor the one shown no more.
    CHECK(shows(html, "<td>alder</td><td class=\"words\">hopper full</td><td>16:31</td>"));
    CHECK_FALSE(shows(html, "<td class=\"words\">hopper full</td><td>15:00</td>"));
    CHECK_FALSE(shows(html, "loss above"));
    CHECK_FALSE(shows(html, "<td>alder</td><td>3</td>"));
    CHECK(shows(html,
                "<td>alder</td><td>5</td><td>16:40</td><td>1100</td><td>4</td><td>16:40</td><td>1100</td>"));
    CHECK(shows(html, "16:00 to 17:00"));
    CHECK_FALSE(shows(html, "15:00 to 16:00"));
    for (const char* word : {"<script", "http://", "https://", "<link", "<img"})
        CHECK_FALSE(shows(html, word));
}

TEST_CASE("A handover sheet without alarms or loads says so") {
    DayResult result = one_machine();
    result.machines[0].loads.clear();
    result.machines[0].last.alarms = 0;
    result.machines[0].last.oldest_cut_us = 0;
    result.machines[0].last.state = WorkState::tipping;
    const std::string html = handover_html(in_london({}), result);
    CHECK(shows(html, "<h2>Alarms standing</h2>\n<p>None.</p>"));
    CHECK(shows(html, "No load was tipped."));
    CHECK(shows(html, "<td class=\"words\">tipping</td>"));
    CHECK(shows(html, "<td>empty</td>"));
}
