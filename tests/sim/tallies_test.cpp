#include "replay/tallies.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using namespace podrate::sim;

namespace {

LogRow at(double s) {
    LogRow row;
    row.time_us = static_cast<TimeUs>(s * 1e6);
    return row;
}

Estimate in(WorkState state) {
    Estimate e;
    e.started = true;
    e.state = state;
    return e;
}

}  // namespace

TEST_CASE("Seconds count for the state they began in and gaps for none") {
    StateClock clock;
    clock.on_row(at(0), in(WorkState::harvesting));
    clock.on_row(at(5), in(WorkState::turning));
    clock.on_row(at(7), in(WorkState::harvesting));
    clock.on_row(at(17), in(WorkState::harvesting));
    clock.on_row(at(117), in(WorkState::stopped));
    CHECK(clock.seconds(WorkState::harvesting) == 15.0);
    CHECK(clock.seconds(WorkState::turning) == 2.0);
    CHECK(clock.seconds(WorkState::stopped) == 0.0);
    CHECK(clock.seconds_without_data() == 100.0);
}

TEST_CASE("The day's loss is the lost of collected and lost together") {
    LossTally tally;
    Estimate e = in(WorkState::harvesting);
    e.flow_kgps = Real(1);
    e.loss_share = Real(0.1);
    e.loss_low = Real(0.05);
    e.loss_high = Real(0.2);
    tally.on_row(at(0), e);
    tally.on_row(at(9), e);
    e.flow_kgps = Real(3);
    e.loss_share = Real(0.25);
    tally.on_row(at(18), e);
    // 9 kg at 10 % came from 10 kg; 27 kg at 25 % from 36 kg: 10 of 46 kg were lost.
    CHECK(tally.mean_share() == Approx(10.0 / 46.0));
    CHECK(tally.low_share() == Approx(0.05));
    CHECK(tally.high_share() == Approx(0.2));
}

TEST_CASE("Where nothing was collected the loss is what is thought beforehand") {
    LossTally tally;
    Estimate e = in(WorkState::stopped);
    e.flow_kgps = Real(-0.01);
    e.loss_share = Real(0.1);
    tally.on_row(at(0), e);
    tally.on_row(at(10), e);
    CHECK(tally.mean_share() == Approx(0.1));
    CHECK(LossTally{}.mean_share() == 0.0);
}

TEST_CASE("Minutes end with what stood at their end and the state that filled them") {
    MinuteTrack track;
    Estimate e = in(WorkState::harvesting);
    for (int s = 0; s < 150; ++s) {
        e.harvested_kg = static_cast<Real>(s);
        e.state = s >= 70 && s < 90 ? WorkState::turning : WorkState::harvesting;
        track.on_row(at(s), e);
    }
    track.finish();
    REQUIRE(track.minutes().size() == 3);
    CHECK(track.minutes()[0].harvested_kg == 59.0);
    CHECK(track.minutes()[1].minute == 1);
    CHECK(track.minutes()[1].harvested_kg == 119.0);
    CHECK(track.minutes()[1].state == WorkState::harvesting);
    CHECK(track.minutes()[2].harvested_kg == 149.0);
}

TEST_CASE("A fault counts once each time it comes up") {
    FaultTally tally;
    for (const int faults : {0, 1, 1, 0, 1, 3, 3, 2, 0}) {
        Estimate e = in(WorkState::harvesting);
        e.faults = static_cast<std::uint8_t>(faults);
        tally.on_row(at(0), e);
    }
    CHECK(tally.count() == 3);
}

TEST_CASE("Each field gets what was harvested while the machine was in it") {
    Field field;
    field.rings = {{{52.0, 0.0}, {52.0, 1.0}, {53.0, 1.0}, {53.0, 0.0}}};
    const std::vector<Field> fields = {field};
    FieldTally tally(fields);
    const auto show = [&tally](double lon_deg, double kg, double m2) {
        LogRow row = at(kg);
        row.value[static_cast<int>(Column::lat_deg)] = 52.5;
        row.value[static_cast<int>(Column::lon_deg)] = lon_deg;
        row.has[static_cast<int>(Column::lat_deg)] = true;
        row.has[static_cast<int>(Column::lon_deg)] = true;
        Estimate e = in(WorkState::harvesting);
        e.harvested_kg = static_cast<Real>(kg);
        e.area_m2 = static_cast<Real>(m2);
        tally.on_row(row, e);
    };
    show(0.5, 10, 100);
    show(0.5, 30, 150);
    show(1.5, 35, 160);
    show(0.5, 50, 200);
    CHECK(tally.harvested_kg(0) == Approx(20.0 + 15.0));
    CHECK(tally.area_m2(0) == Approx(50.0 + 40.0));
}
