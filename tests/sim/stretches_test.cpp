// The ledger of a machine's time and the stops drawn from it, on days worked by hand.
#include <catch2/catch.hpp>

#include "hours/stop_list.hpp"
#include "hours/stretch_track.hpp"
#include "hours/work_pace.hpp"
#include "report/stops_csv.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

LogRow row_at(double s) {
    LogRow row;
    row.time_us = static_cast<TimeUs>(s * 1e6);
    return row;
}

// A latitude of 0 comes with a longitude of 0: a receiver without fix.
LogRow row_at(double s, double lat_deg) {
    LogRow row = row_at(s);
    for (const Column column : {Column::lat_deg, Column::lon_deg}) {
        row.has[static_cast<int>(column)] = true;
        row.value[static_cast<int>(column)] = column == Column::lat_deg || lat_deg == 0.0 ? lat_deg : -2.9;
    }
    return row;
}

Estimate doing(WorkState state, double harvested_kg = 0.0) {
    Estimate e;
    e.started = true;
    e.state = state;
    e.harvested_kg = static_cast<Real>(harvested_kg);
    return e;
}

Stretch stretch(TimeKind kind, double from_s, double to_s, double kg = 0.0) {
    Stretch s;
    s.kind = kind;
    s.start_us = static_cast<TimeUs>(from_s * 1e6);
    s.end_us = static_cast<TimeUs>(to_s * 1e6);
    s.harvested_kg = kg;
    return s;
}

}  // namespace

TEST_CASE("A ledger has neither hole nor overlap and a gap of the log is a stretch of its own") {
    StretchTrack track;
    track.on_row(row_at(100), doing(WorkState::harvesting));
    track.on_row(row_at(105), doing(WorkState::harvesting, 7));
    track.on_row(row_at(109.5), doing(WorkState::turning, 12));
    track.on_row(row_at(110), doing(WorkState::turning, 12.5));
    track.on_row(row_at(400), doing(WorkState::turning, 90));
    track.on_row(row_at(402), doing(WorkState::stopped, 90));
    track.on_row(row_at(402), doing(WorkState::tipping, 91));
    track.on_row(row_at(409), doing(WorkState::tipping, 91));
    const struct {
        TimeKind kind;
        double start_s;
        double end_s;
        double kg;
    } expected[] = {{TimeKind::harvesting, 100, 109.5, 12},
                    {TimeKind::turning, 109.5, 110, 0.5},
                    {TimeKind::no_log, 110, 400, 0},
                    {TimeKind::turning, 400, 402, 0},
                    {TimeKind::tipping, 402, 409, 0}};
    const std::vector<Stretch>& found = track.stretches();
    REQUIRE(found.size() == std::size(expected));
    for (std::size_t i = 0; i < found.size(); ++i) {
        INFO("stretch " << i);
        CHECK(found[i].kind == expected[i].kind);
        CHECK(found[i].start_us == row_at(expected[i].start_s).time_us);
        CHECK(found[i].end_us == row_at(expected[i].end_s).time_us);
        CHECK(found[i].harvested_kg == Approx(expected[i].kg));
        if (i > 0) CHECK(found[i].start_us == found[i - 1].end_us);
    }
    const KindSeconds seconds = seconds_by_kind(found);
    CHECK(seconds[static_cast<std::size_t>(TimeKind::turning)] == 2.5);
    CHECK(seconds[static_cast<std::size_t>(TimeKind::no_log)] == 290.0);
    double sum_s = 0.0;
    for (const double s : seconds) sum_s += s;
    CHECK(sum_s == 309.0);
    const KindSeconds part = seconds_by_kind(found, row_at(109).time_us, row_at(120).time_us);
    CHECK(part[static_cast<std::size_t>(TimeKind::harvesting)] == 0.5);
    CHECK(part[static_cast<std::size_t>(TimeKind::turning)] == 0.5);
    CHECK(part[static_cast<std::size_t>(TimeKind::no_log)] == 10.0);
    CHECK(seconds_by_kind({}) == KindSeconds{});
}

TEST_CASE("A gap of the longest that still counts as log is none") {
    StretchTrack track;
    for (const double s : {0.0, 10.0, 20.0, 30.001}) track.on_row(row_at(s), doing(WorkState::waiting));
    REQUIRE(track.stretches().size() == 2);
    CHECK(track.stretches()[0].seconds() == 20.0);
    CHECK(track.stretches()[1].kind == TimeKind::no_log);
}

TEST_CASE("A stretch is placed where it began or by the first fix soon after, else not at all") {
    StretchTrack track;
    track.on_row(row_at(0, 52.1), doing(WorkState::harvesting));
    track.on_row(row_at(5), doing(WorkState::stopped));
    track.on_row(row_at(12), doing(WorkState::stopped));
    track.on_row(row_at(20), doing(WorkState::waiting));
    track.on_row(row_at(26, 52.3), doing(WorkState::waiting));
    track.on_row(row_at(28, 0.0), doing(WorkState::tipping));
    track.on_row(row_at(36), doing(WorkState::tipping));
    track.on_row(row_at(37), doing(WorkState::travelling));
    track.on_row(row_at(46), doing(WorkState::travelling));
    track.on_row(row_at(48, 52.9), doing(WorkState::travelling));
    const std::vector<Stretch>& found = track.stretches();
    REQUIRE(found.size() == 5);
    CHECK(found[0].place.lat_deg == 52.1);
    CHECK(found[1].place_known);
    CHECK(found[1].place.lat_deg == 52.1);
    CHECK(found[2].place_known);
    CHECK(found[2].place.lat_deg == 52.3);
    CHECK(found[3].place.lat_deg == 52.3);
    CHECK_FALSE(found[4].place_known);
}

TEST_CASE("What a stop costs is its length at the machine's own rate in the hours about it") {
    // Rich crop until 2 h, 2 kg/s; a wait of 10 min; then poor crop, 1 kg/s, to 6 h; a gap; two short hours.
    const std::vector<Stretch> day = {
        stretch(TimeKind::harvesting, 0, 7200, 14400),     stretch(TimeKind::waiting, 7200, 7800),
        stretch(TimeKind::harvesting, 7800, 21600, 13800), stretch(TimeKind::turning, 21600, 21630),
        stretch(TimeKind::harvesting, 21630, 25230, 3600), stretch(TimeKind::no_log, 25230, 40000),
        stretch(TimeKind::harvesting, 40000, 40100, 100),  stretch(TimeKind::stopped, 40100, 40400, 0)};
    const std::vector<Stop> stops = stops_of("alder", day, 60.0);
    REQUIRE(stops.size() == 3);
    CHECK(stops[0].stretch.kind == TimeKind::waiting);
    // An hour before at 2 kg/s, an hour after at 1: 1.5 kg/s over 600 s.
    CHECK(stops[0].forgone_kg == Approx(900.0));
    CHECK(stops[1].stretch.kind == TimeKind::no_log);
    CHECK_FALSE(stops[1].forgone_known);
    // 100 s of harvest within reach are too little: all 31,900 kg over 24,700 s of harvest.
    CHECK(stops[2].forgone_kg == Approx(300.0 * 31900.0 / 24700.0));
    CHECK(stops_of("alder", day, 30.0).size() == 4);
    CHECK(stops_of("alder", day, 30.0)[1].forgone_kg == Approx(30.0));
}

TEST_CASE("A machine that never harvested forgoes what nobody knows") {
    const std::vector<Stop> stops = stops_of("alder", {stretch(TimeKind::stopped, 0, 7200)}, 60.0);
    REQUIRE(stops.size() == 1);
    CHECK_FALSE(stops[0].forgone_known);
    CHECK_FALSE(WorkPace({}).kgps_about(0, 1).has_value());
    CHECK(stops_of("alder", {}, 60.0).empty());
}

TEST_CASE("Peas that come in a stop count to the rate of the harvest that they were cut in") {
    const WorkPace pace(
        {stretch(TimeKind::harvesting, 0, 1000, 990), stretch(TimeKind::stopped, 1000, 1500, 10)});
    REQUIRE(pace.kgps_about(1000 * kSecondUs, 1500 * kSecondUs).has_value());
    CHECK(*pace.kgps_about(1000 * kSecondUs, 1500 * kSecondUs) == Approx(1.0));
}

TEST_CASE("stops.csv has a row for each stop and leaves empty what is not known") {
    MachineResult machine;
    machine.id = "alder";
    machine.stretches = {stretch(TimeKind::harvesting, 1000, 2000, 1500),
                         stretch(TimeKind::waiting, 2000, 2090), stretch(TimeKind::turning, 2090, 2149),
                         stretch(TimeKind::no_log, 2149, 9000)};
    machine.stretches[1].place_known = true;
    machine.stretches[1].place = {52.6024464, -2.9029116};
    DayResult result;
    result.machines = {machine};
    CHECK(stops_csv(Day{}, result) ==
          "machine,start_unix_s,end_unix_s,state,lat_deg,lon_deg,seconds,forgone_kg\n"
          "alder,2000.0,2090.0,waiting,52.6024464,-2.9029116,90.0,135.0\n"
          "alder,2149.0,9000.0,no_log,,,6851.0,\n");
}
