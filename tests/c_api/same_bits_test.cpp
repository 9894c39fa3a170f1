// Through the C header and through the C++ one: the same bits.
#include <catch2/catch.hpp>
#include <cstring>
#include <memory>

#include "c_api/caller.h"
#include "c_api/kept_machine.hpp"
#include "podrate/estimator.hpp"

using namespace podrate;
using test::KeptMachine;

namespace {

// Bits, so that a NaN or a negative zero would show.
bool same(float a, Real b) {
    return std::memcmp(&a, &b, sizeof a) == 0;
}

Sample typed(const podrate_sample& from) {
    Sample sample;
    sample.time_us = from.time_us;
    sample.about_us = from.about_us;
    sample.channel = static_cast<Channel>(from.channel);
    sample.count = from.count;
    std::copy(from.value, from.value + 4, sample.value);
    sample.lat_e7 = from.lat_e7;
    sample.lon_e7 = from.lon_e7;
    return sample;
}

struct Both {
    std::unique_ptr<podrate_machine> machine = std::make_unique<podrate_machine>();
    Estimator estimator{Parameters{}};
    long samples = 0;
    long refused = 0;
    long unlike = 0;
};

bool same_loss(const podrate_estimate& c, const Estimate& e) {
    return same(c.loss_share, e.loss_share) && same(c.loss_low, e.loss_low) &&
           same(c.loss_high, e.loss_high) && same(c.drum_loss_share, e.drum_loss_share) &&
           same(c.drum_loss_low, e.drum_loss_low) && same(c.drum_loss_high, e.drum_loss_high) &&
           same(c.picking_loss_share, e.picking_loss_share) && same(c.picking_loss_low, e.picking_loss_low) &&
           same(c.picking_loss_high, e.picking_loss_high) && same(c.ground_kgpm2, e.ground_kgpm2) &&
           same(c.fold, e.fold) && same(c.loss_learnt, e.loss_learnt) &&
           same(c.speed_spread, e.speed_spread) && c.tray_checks == e.tray_checks &&
           (c.loss_sensor != 0) == e.loss_sensor;
}

bool same_speed(const podrate_speed& c, const SpeedRange& range) {
    if (!range.known) return c.speed_mps == 0.0F && c.low_mps == 0.0F && c.high_mps == 0.0F;
    return same(c.speed_mps, range.speed_mps) && same(c.low_mps, range.low_mps) &&
           same(c.high_mps, range.high_mps);
}

bool same_advice(const podrate_estimate& c, const Advice& a) {
    return c.binding == static_cast<int>(a.binding) && same_speed(c.advised, a.speed) &&
           same_speed(c.under_limit, a.under_limit) && same_speed(c.for_rate, a.for_rate) &&
           (c.past_fold != 0) == a.past_fold && same(c.faster_gained_kgps, a.faster.gained_kgps) &&
           same(c.faster_ground_kgpm2, a.faster.ground_kgpm2) &&
           same(c.slower_gained_kgps, a.slower.gained_kgps) &&
           same(c.slower_ground_kgpm2, a.slower.ground_kgpm2);
}

bool same(const podrate_estimate& c, const Estimate& e) {
    return c.time_us == e.time_us && (c.started != 0) == e.started && c.state == static_cast<int>(e.state) &&
           c.faults == e.faults && c.alarms == e.alarms && c.oldest_cut_us == e.oldest_cut_us &&
           same(c.mass_kg, e.mass_kg) && same(c.mass_sd_kg, e.mass_sd_kg) && same(c.flow_kgps, e.flow_kgps) &&
           same(c.flow_sd_kgps, e.flow_sd_kgps) && same(c.yield_kgpm2, e.yield_kgpm2) &&
           same(c.yield_sd_kgpm2, e.yield_sd_kgpm2) && same(c.speed_mps, e.speed_mps) &&
           same(c.harvested_kg, e.harvested_kg) && same(c.harvested_sd_kg, e.harvested_sd_kg) &&
           same(c.area_m2, e.area_m2) && same(c.load_kg, e.load_kg) && same(c.level_share, e.level_share) &&
           same(c.distance_to_full_m, e.distance_to_full_m) && same(c.time_to_full_s, e.time_to_full_s) &&
           same_loss(c, e) && same_advice(c, e.advice);
}

void take(void* to, const podrate_sample* sample) {
    Both& both = *static_cast<Both*>(to);
    ++both.samples;
    if (podrate_feed(both.machine.get(), sample) != PODRATE_OK) ++both.refused;
    if (both.estimator.feed(typed(*sample)) != FeedResult::taken) ++both.refused;
    podrate_estimate estimate;
    if (podrate_read(both.machine.get(), &estimate) != PODRATE_OK) ++both.refused;
    if (!same(estimate, both.estimator.read())) ++both.unlike;
}

}  // namespace

TEST_CASE("The C header gives the bits of the estimator") {
    Both both;
    podrate_parameters parameters;
    REQUIRE(podrate_default_parameters(&parameters) == PODRATE_OK);
    REQUIRE(podrate_init(both.machine.get(), &parameters, CALLER_START_US) == PODRATE_OK);
    caller_log(take, &both);
    CHECK(both.samples > 10000);
    CHECK(both.refused == 0);
    CHECK(both.unlike == 0);

    podrate_load load;
    REQUIRE(podrate_last_load(both.machine.get(), &load) == PODRATE_OK);
    const Load& last = both.estimator.last_load();
    CHECK(load.number == 1);
    CHECK(load.number == last.number);
    CHECK(load.revision == last.revision);
    CHECK(load.start_us == last.start_us);
    CHECK(load.end_us == last.end_us);
    CHECK(load.closed_us == last.closed_us);
    CHECK(load.first_cut_us == last.first_cut_us);
    CHECK(load.lat_e7 == last.lat_e7);
    CHECK(load.lon_e7 == last.lon_e7);
    CHECK(load.place_known == 1);
    CHECK(same(load.net_kg, last.net_kg));
    CHECK(same(load.net_sd_kg, last.net_sd_kg));
    CHECK(same(load.area_m2, last.area_m2));
    CHECK(same(load.lost_kg, last.lost_kg));

    podrate_loss loss;
    REQUIRE(podrate_loss_so_far(both.machine.get(), &loss) == PODRATE_OK);
    const LossSoFar lost = both.estimator.loss_so_far();
    CHECK(same(loss.collected_kg, lost.collected_kg));
    CHECK(same(loss.lost_kg, lost.lost_kg));
    CHECK(same(loss.drum_kg, lost.drum_kg));
    CHECK(same(loss.share, lost.shares.total.share));
    CHECK(same(loss.low, lost.shares.total.low));
    CHECK(same(loss.high, lost.shares.total.high));
}

TEST_CASE("A clock that begins at zero gives what any other gives") {
    struct Later {
        std::int64_t by_us;
        KeptMachine machine;
    };
    Later runs[] = {{0, KeptMachine(0)}, {1751032800000000, KeptMachine(1751032800000000)}};
    for (Later& later : runs) {
        caller_log(
            [](void* to, const podrate_sample* sample) {
                Later& run = *static_cast<Later*>(to);
                podrate_sample shifted = *sample;
                shifted.time_us += run.by_us;
                shifted.about_us += run.by_us;
                REQUIRE(podrate_feed(run.machine.get(), &shifted) == PODRATE_OK);
            },
            &later);
    }
    const podrate_estimate early = runs[0].machine.read();
    const podrate_estimate late = runs[1].machine.read();
    CHECK(early.harvested_kg > 300.0F);
    CHECK(early.harvested_kg == late.harvested_kg);
    CHECK(early.flow_kgps == late.flow_kgps);
    CHECK(early.loss_share == late.loss_share);
    CHECK(early.alarms == late.alarms);
}

TEST_CASE("Parameters of the C header are those of the table") {
    podrate_parameters parameters;
    podrate_default_parameters(&parameters);
    for (std::uint32_t i = 0; i < PODRATE_PARAMETER_COUNT; ++i) {
        const ParameterInfo& row = kParameterTable[i];
        INFO(row.name);
        podrate_parameter_info info;
        REQUIRE(podrate_describe_parameter(i, &info) == PODRATE_OK);
        CHECK(std::string(info.name) == row.name);
        CHECK(std::string(info.unit) == row.unit);
        CHECK(info.low == static_cast<float>(row.low));
        CHECK(info.high == static_cast<float>(row.high));
        CHECK(info.standard == static_cast<float>(row.value));
        CHECK(info.decimals == row.decimals);
        std::uint32_t index = 0;
        REQUIRE(podrate_find_parameter(row.name, &index) == PODRATE_OK);
        CHECK(index == i);
        float value = 0.0F;
        REQUIRE(podrate_get_parameter(&parameters, i, &value) == PODRATE_OK);
        CHECK(value == Parameters{}.*row.member);
        CHECK(podrate_set_parameter(&parameters, i, info.high) == PODRATE_OK);
        CHECK(podrate_set_parameter(&parameters, i, info.low) == PODRATE_OK);
        CHECK(parameters.value[i] == info.low);
    }
    CHECK(PODRATE_P_width_m == 0);
}

TEST_CASE("A parameter set through the C header counts") {
    auto machine = std::make_unique<podrate_machine>();
    podrate_parameters parameters;
    podrate_default_parameters(&parameters);
    REQUIRE(podrate_set_parameter(&parameters, PODRATE_P_width_m, 6.6F) == PODRATE_OK);
    REQUIRE(podrate_init(machine.get(), &parameters, CALLER_START_US) == PODRATE_OK);
    REQUIRE(caller_feed(machine.get()) == 0);
    podrate_estimate wide;
    podrate_read(machine.get(), &wide);
    podrate_default_parameters(&parameters);
    REQUIRE(podrate_init(machine.get(), &parameters, CALLER_START_US) == PODRATE_OK);
    REQUIRE(caller_feed(machine.get()) == 0);
    podrate_estimate narrow;
    podrate_read(machine.get(), &narrow);
    CHECK(wide.area_m2 == Approx(2.0F * narrow.area_m2).epsilon(1e-5));
}
