// What was to be told: from a day's truth, marked by hand, and from trays.
#include <catch2/catch.hpp>

#include "score/loss_alarms.hpp"
#include "score/true_loss.hpp"
#include "tune/marked_episodes.hpp"
#include "tune/tray_episodes.hpp"
#include "tune/true_episodes.hpp"
#include "tune/tune_days.hpp"

using namespace podrate;
using namespace podrate::sim;
using Catch::Contains;
using podrate::test::TempFolder;
using podrate::test::write_text;

namespace {

const AlarmTruth& of(const MachineTruth& truth, AlarmId id) {
    return truth[static_cast<std::size_t>(id)];
}

Day two_machines() {
    Day day;
    day.machines.resize(2);
    day.machines[0].id = "alder";
    day.machines[1].id = "birch";
    return day;
}

// A second after another of the true plant, ten minutes of harvest at first.
TruePlant plant() {
    TruePlant p;
    for (int s = 0; s < 6000; ++s) {
        TrueSecond second;
        second.unix_s = s;
        const bool tips = s >= 3000 && s < 3030;
        second.state = static_cast<int>(tips ? WorkState::tipping : WorkState::harvesting);
        second.mass_kg = s < 3000 ? 0.65 * s : tips ? 1950.0 - 65.0 * (s - 2999) : 0.5 * (s - 3030);
        second.area_rate_m2ps = tips ? 0.0 : 2.6;
        second.standing_kgpm2 = 0.5;
        second.flow_kgps = s >= 4000 && s < 4100 ? 0.4 : 1.3;
        second.loss_share = s >= 1000 && s < 1100 ? 0.3 : 0.05;
        p.seconds.push_back(second);
    }
    return p;
}

}  // namespace

TEST_CASE("A plant's truth says when hopper, rate, loss and age were to be told") {
    Parameters p;
    p.hopper_capacity_kg = Real(2000);
    p.wanted_rate_kgps = Real(1);
    p.peas_old_min = Real(40);
    MachineTruth truth;
    add_plant_episodes(plant(), p, truth);
    REQUIRE(of(truth, AlarmId::hopper_nearly_full).due.size() == 1);
    CHECK(of(truth, AlarmId::hopper_nearly_full).due[0].start_unix_s == Approx(1700.0 / 0.65).margin(1.5));
    CHECK(of(truth, AlarmId::hopper_nearly_full).due[0].end_unix_s == Approx(3003.0).margin(1.5));
    REQUIRE(of(truth, AlarmId::hopper_full).due.size() == 1);
    CHECK(of(truth, AlarmId::hopper_full).due[0].start_unix_s == Approx(1940.0 / 0.65).margin(1.5));
    CHECK(of(truth, AlarmId::hopper_full).reasons[0].start_unix_s == Approx(1880.0 / 0.65).margin(1.5));
    REQUIRE(of(truth, AlarmId::rate_low).due.size() == 1);
    CHECK(of(truth, AlarmId::rate_low).due[0].start_unix_s == Approx(4000.0).margin(6.0));
    CHECK(of(truth, AlarmId::rate_low).due[0].end_unix_s == Approx(4100.0).margin(6.0));
    const TrueLoss loss = true_loss(plant());
    REQUIRE(of(truth, AlarmId::loss_high).due.size() == loss_episodes(loss, 0.15, 0.02).due.size());
    CHECK(of(truth, AlarmId::loss_high).due.size() == 1);
    REQUIRE(of(truth, AlarmId::peas_old).due.size() == 2);
    CHECK(of(truth, AlarmId::peas_old).due[0].start_unix_s == Approx(2400.0).margin(1.5));
    CHECK(of(truth, AlarmId::peas_old).due[0].end_unix_s == Approx(3028.0).margin(2.0));
    CHECK(of(truth, AlarmId::peas_old).due[1].start_unix_s == Approx(3030.0 + 2400.0).margin(1.5));
    for (const AlarmTruth& alarm : truth) {
        if (alarm.known) CHECK(alarm.reasons.size() >= alarm.due.size());
    }
    CHECK_FALSE(of(truth, AlarmId::weight_fault).known);
}

TEST_CASE("A blocked drum is due once peas should have come for ten seconds") {
    constexpr int kBegins = 3040;  // of the bout after the tip; peas come 14 s later
    for (const int clears : {kBegins + 22, kBegins + 26}) {
        INFO("it clears " << clears - kBegins << " s after the bout began");
        TruePlant p = plant();
        for (int s = 3000; s < clears; ++s) {
            TrueSecond& second = p.seconds[static_cast<std::size_t>(s)];
            second.flow_kgps = 0.0;
            if (s < kBegins) second.state = static_cast<int>(WorkState::tipping);
        }
        MachineTruth truth;
        add_fault_episodes({{FaultKind::drum_blocked, 3000.0, clears + 24.0, 0.0}}, p, truth);
        CHECK(of(truth, AlarmId::drum_blocking).due.size() == (clears == kBegins + 26 ? 1 : 0));
        CHECK(of(truth, AlarmId::drum_blocking).reasons.size() == 1);
    }
}

TEST_CASE("Faults are due where they can show, and what no alarm is meant for is a reason at most") {
    TruePlant p = plant();
    for (int s = 5000; s < 5200; ++s)
        p.seconds[static_cast<std::size_t>(s)].state = static_cast<int>(WorkState::stopped);
    for (int s = 500; s < 560; ++s) p.seconds[static_cast<std::size_t>(s)].flow_kgps = 0.0;
    MachineTruth truth;
    add_fault_episodes({{FaultKind::drum_blocked, 500.0, 584.0, 0.0},
                        {FaultKind::weight_stuck, 5010.0, 5100.0, 0.0},
                        {FaultKind::speed_zero, 1500.0, 1600.0, 0.0},
                        {FaultKind::weight_drift, 0.0, 6000.0, 5.0},
                        {FaultKind::hopper_leak, 5050.0, 5150.0, 0.1},
                        {FaultKind::rows_doubled, 100.0, 200.0, 0.0}},
                       p, truth);
    CHECK(of(truth, AlarmId::drum_blocking).due.size() == 1);
    CHECK(of(truth, AlarmId::speed_fault).due.size() == 1);
    CHECK(of(truth, AlarmId::hopper_leak).due.size() == 1);
    CHECK(of(truth, AlarmId::weight_fault).due.empty());  // it stood all the while
    CHECK(of(truth, AlarmId::weight_fault).reasons.size() == 2);
    CHECK(of(truth, AlarmId::tilt_fault).known);
    CHECK(of(truth, AlarmId::tilt_fault).due.empty());
    CHECK_FALSE(of(truth, AlarmId::loss_high).known);
}

TEST_CASE("What is lost while the drum blocks is the drum's alarm to tell") {
    MachineTruth truth;
    AlarmTruth& loss = truth[static_cast<std::size_t>(AlarmId::loss_high)];
    loss.known = true;
    loss.due = {{100.0, 200.0}, {480.0, 620.0}, {700.0, 800.0}};
    add_fault_episodes({{FaultKind::drum_blocked, 500.0, 584.0, 0.0}}, plant(), truth);
    // 20 s before it are no episode, 36 s after it are.
    REQUIRE(loss.due.size() == 3);
    CHECK(loss.due[0].end_unix_s == 200.0);
    CHECK(loss.due[1].start_unix_s == 584.0);
    CHECK(loss.due[1].end_unix_s == 620.0);
    CHECK(loss.due[2].start_unix_s == 700.0);
    // An alarm of the loss is not for nothing there, where the drum's has not come yet.
    REQUIRE(loss.reasons.size() == 1);
    CHECK(loss.reasons[0].start_unix_s == 500.0);
}

TEST_CASE("A synthetic day's truth is read, faults at their times") {
    const TempFolder folder;
    const auto path = test::write_tune_day(folder, "day", 1, 0.7);
    REQUIRE(has_truth(path));
    const Day day = read_day(path);
    const MachineTruth truth = true_episodes(path, day.machines[0]);
    for (const AlarmTruth& alarm : truth) CHECK(alarm.known);
    REQUIRE(of(truth, AlarmId::drum_blocking).due.size() == 1);
    CHECK(of(truth, AlarmId::drum_blocking).due[0].start_unix_s == Approx(1751428800.0 + 900.0).margin(1.0));
    CHECK(of(truth, AlarmId::weight_fault).due.size() == 1);
    CHECK(of(truth, AlarmId::loss_high).due.size() > 0);
    CHECK_FALSE(has_truth(folder.path()));
}

TEST_CASE("Episodes marked by hand take the place of the truth for the alarms they name") {
    const TempFolder folder;
    write_text(folder / "episodes.csv",
               "start_unix_s,end_unix_s,machine,alarm,note\n"
               "2000,2100,alder,loss_high,\"seen, behind the drum\"\n"
               "1000,1050,alder,loss_high,\n"
               "1040,1200,alder,loss_high,again\n"
               "500,600,birch,drum_blocking,\n"
               ",,alder,hopper_leak,\"looked: none\"\n");
    Problems problems;
    const auto marked = read_marked_episodes(folder.path(), two_machines(), problems);
    CHECK(problems.count() == 0);
    REQUIRE(marked.size() == 5);
    CHECK(marked_outside(marked, "alder", folder.path(), 0.0, 5000.0).empty());
    MachineTruth truth;
    for (AlarmTruth& alarm : truth) {
        alarm.known = true;
        alarm.due = {{1.0, 2.0}};
        alarm.reasons = {{1.0, 2.0}};
    }
    lay_marked_over(marked, "alder", truth);
    const AlarmTruth& loss = of(truth, AlarmId::loss_high);
    CHECK(loss.source == EpisodeSource::marked);
    REQUIRE(loss.due.size() == 2);
    CHECK(loss.due[0].start_unix_s == 1000.0);
    CHECK(loss.due[0].end_unix_s == 1200.0);
    CHECK(loss.reasons.size() == 2);
    CHECK(of(truth, AlarmId::drum_blocking).due.empty());  // birch's, and nothing of alder's
    CHECK(of(truth, AlarmId::rate_low).due[0].start_unix_s == 1.0);
    const AlarmTruth& leak = of(truth, AlarmId::hopper_leak);
    CHECK(leak.known);
    CHECK(leak.source == EpisodeSource::marked);
    CHECK(leak.due.empty());
    CHECK(leak.reasons.empty());
}

TEST_CASE("Bad rows of episodes.csv are told with file, line and mend, and the rest is used") {
    const TempFolder folder;
    write_text(folder / "episodes.csv",
               "start_unix_s,end_unix_s,machine,alarm\n"
               "1000,1100,alder,loss_hihg\n"
               "1000,1100,cedar,loss_high\n"
               "1100,1000,alder,loss_high\n"
               "soon,1000,alder,loss_high\n"
               "-5,1000,alder,loss_high\n"
               "1000,1e300,alder,loss_high\n"
               "1000,1100,alder\n"
               "1000,1100,alder,loss_high\n");
    Problems problems;
    const auto marked = read_marked_episodes(folder.path(), two_machines(), problems);
    CHECK(marked.size() == 1);
    REQUIRE(problems.faults() == 7);
    std::vector<std::string> told;
    for (const Problem& problem : problems.kept()) told.push_back(to_text(problem));
    const auto tells = [&told](const std::string& line, const std::string& words) {
        for (const std::string& text : told) {
            if (text.find("episodes.csv:" + line + ":") != std::string::npos &&
                text.find(words) != std::string::npos)
                return true;
        }
        return false;
    };
    const auto tells_of = [](const Problems& all, const std::string& words) {
        return to_text(all.kept().back()).find(words) != std::string::npos;
    };
    CHECK(tells("2", "the alarms are loss_high, rate_low"));
    CHECK(tells("3", "use the id of a [[machine]]"));
    CHECK(tells("4", "give start_unix_s before end_unix_s"));
    CHECK(tells("5", "start_unix_s is 'soon', not a number; row skipped; write seconds since 1970"));
    CHECK(tells("6", "outside unix seconds"));
    CHECK(tells("7", "outside unix seconds"));
    CHECK(tells("8", ""));
    const TempFolder none;
    CHECK(read_marked_episodes(none.path(), two_machines(), problems).empty());
    write_text(none / "episodes.csv", "when,what\n1,2\n");
    CHECK(read_marked_episodes(none.path(), two_machines(), problems).empty());
    REQUIRE(problems.faults() == 8);
    CHECK(tells_of(problems, "episodes.csv:1: has no column 'start_unix_s'; no row of it used"));
}

TEST_CASE("Trays over the limit are episodes of half a minute, and nothing is known between trays") {
    Machine machine;
    machine.trays = {
        {1000.0, "alder", 1500.0, 0.2}, {1100.0, "alder", 200.0, 0.2}, {5000.0, "alder", 3000.0, 0.2}};
    MachineResult replayed;
    replayed.swath = {{1004.0, {}, 40.0, 2.6, 0.5}, {1096.0, {}, 40.0, 2.6, 0.5}};
    const AlarmTruth truth = tray_episodes(machine, replayed);
    CHECK(truth.known);
    REQUIRE(truth.due.size() == 1);  // 0.15 of 0.65 kg/m2; no yield is known at 5000 s
    CHECK(truth.due[0].start_unix_s == 985.0);
    CHECK(truth.due[0].end_unix_s == 1015.0);
    CHECK(truth.looked_at.size() == 2);
    CHECK(truth.reasons.size() == 1);
    machine.trays.clear();
    CHECK_FALSE(tray_episodes(machine, replayed).known);
}
