// How old peas are, on hoppers filled by hand.
#include <catch2/catch.hpp>

#include "hours/freshness.hpp"
#include "report/freshness_csv.hpp"
#include "report/html/freshness_html.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

struct Hopper {
    Parameters parameters;
    HopperParcels parcels{parameters};
    double now_s = 0.0;

    // A row each second.
    void run(int seconds, double kgps, double mass_kg = 0.0) {
        for (int i = 0; i < seconds; ++i) row(kgps, mass_kg, 1.0);
    }
    void row(double kgps, double mass_kg, double after_s) {
        LogRow r;
        now_s += after_s;
        r.time_us = static_cast<TimeUs>(now_s * 1e6);
        Estimate e;
        e.started = true;
        e.flow_kgps = static_cast<Real>(kgps);
        e.mass_kg = static_cast<Real>(mass_kg);
        parcels.on_row(r, e);
    }
    void close(std::uint32_t number, double left_kg) {
        Load load;
        load.number = number;
        parcels.on_load(load);
        row(0.0, left_kg, 1.0);
    }
};

double sum_kg(const std::vector<Parcel>& parcels) {
    double kg = 0.0;
    for (const Parcel& p : parcels) kg += p.kg;
    return kg;
}

// 600 kg over the 10 min before 1000 s, tipped at 1060 s; cut 12 s before it came.
MachineResult even_load() {
    MachineResult m;
    m.id = "alder";
    m.usable = true;
    m.drum_dead_time_s = 5.0;
    m.drum_lag_s = 7.0;
    Load load;
    load.number = 1;
    load.net_kg = Real(600);
    load.first_cut_us = 388 * kSecondUs;
    load.end_us = 1060 * kSecondUs;
    m.loads = {load};
    LoadParcels parcels;
    parcels.number = 1;
    for (int i = 0; i < 60; ++i) parcels.parcels.push_back({(405 + 10 * i) * kSecondUs, 10.0});
    m.parcels = {parcels};
    return m;
}

}  // namespace

TEST_CASE("A load holds what flowed in since the tip before and a gap brings nothing") {
    Hopper hopper;
    hopper.run(101, 2.0);
    hopper.row(2.0, 0.0, 500.0);
    hopper.run(50, 1.0);
    hopper.close(1, 0.0);
    hopper.run(11, 3.0);
    hopper.close(2, 0.0);
    const std::vector<LoadParcels>& loads = hopper.parcels.loads();
    REQUIRE(loads.size() == 2);
    // 100 s at 2 kg/s; then a second at 2 and fifty at 1.
    CHECK(sum_kg(loads[0].parcels) == Approx(252.0));
    CHECK(loads[0].parcels.front().in_us == 5 * kSecondUs);
    CHECK(sum_kg(loads[1].parcels) == Approx(33.0));
    for (const LoadParcels& load : loads) {
        for (const Parcel& p : load.parcels) CHECK(p.in_us % kParcelUs == kParcelUs / 2);
    }
}

TEST_CASE("What a tip leaves behind goes with the next load and a second part of a tip with the first") {
    Hopper hopper;
    hopper.run(501, 2.0);
    hopper.close(1, 250.0);
    CHECK(sum_kg(hopper.parcels.loads()[0].parcels) == Approx(752.0));
    hopper.close(1, 0.0);
    REQUIRE(hopper.parcels.loads().size() == 1);
    CHECK(sum_kg(hopper.parcels.loads()[0].parcels) == Approx(1002.0));
    hopper.run(101, 2.0);
    hopper.close(2, 101.0);
    hopper.close(3, 0.0);
    REQUIRE(hopper.parcels.loads().size() == 3);
    CHECK(sum_kg(hopper.parcels.loads()[1].parcels) == Approx(101.0));
    CHECK(sum_kg(hopper.parcels.loads()[2].parcels) == Approx(101.0));
}

TEST_CASE("Peas aboard when the log begins count as having come then") {
    Hopper hopper;
    hopper.run(10, 1.0, 800.0);
    hopper.close(1, 0.0);
    const std::vector<Parcel>& parcels = hopper.parcels.loads()[0].parcels;
    CHECK(parcels.front().in_us == kSecondUs);
    CHECK(parcels.front().kg == Approx(800.0));
    CHECK(sum_kg(parcels) == Approx(810.0));
}

TEST_CASE("Oldest and median pea at the tip and at the intake follow from when they came") {
    const std::vector<Freshness> fresh = freshness_of(even_load(), HoursKeys{});
    REQUIRE(fresh.size() == 1);
    CHECK(fresh[0].oldest_min == Approx(672.0 / 60));
    REQUIRE(fresh[0].median_min.has_value());
    // Half had come by 700 s and were cut by 688 s.
    CHECK(*fresh[0].median_min == Approx(372.0 / 60));
    CHECK(fresh[0].intake_oldest_min == Approx(672.0 / 60 + 25));
    CHECK(*fresh[0].intake_median_min == Approx(372.0 / 60 + 25));
    CHECK(*fresh[0].over_limit == 0.0);
    CHECK(fresh[0].traced_kg == Approx(600.0));
}

TEST_CASE("The share beyond the limit counts mass from cutting or from leaving the field") {
    HoursKeys keys;
    keys.road_min = 30.0;
    keys.fresh_limit_min = 30.0 + 372.0 / 60;
    CHECK(*freshness_of(even_load(), keys)[0].over_limit == Approx(0.5));
    keys.fresh_limit_min = 30.0 + 572.0 / 60;
    CHECK(*freshness_of(even_load(), keys)[0].over_limit == Approx(100.0 / 600));
    keys.fresh_from = FreshFrom::leaving_field;
    CHECK(*freshness_of(even_load(), keys)[0].over_limit == 0.0);
    CHECK(freshness_of(even_load(), keys)[0].intake_oldest_min == 30.0);
    keys.fresh_limit_min = 29.0;
    CHECK(*freshness_of(even_load(), keys)[0].over_limit == 1.0);
}

TEST_CASE("A median is by mass, not by time") {
    MachineResult m = even_load();
    m.parcels[0].parcels = {{405 * kSecondUs, 100.0}, {995 * kSecondUs, 500.0}};
    // Of the last 10 s' 500 kg two fifths are older than the median, which came at 994 s.
    CHECK(*freshness_of(m, HoursKeys{})[0].median_min == Approx((1060.0 - 994.0 + 12.0) / 60));
}

TEST_CASE("Where less than half a load was seen to come its median is not known, its oldest is") {
    MachineResult m = even_load();
    m.parcels[0].parcels.resize(29);
    const Freshness fresh = freshness_of(m, HoursKeys{})[0];
    CHECK_FALSE(fresh.median_min.has_value());
    CHECK_FALSE(fresh.over_limit.has_value());
    CHECK(fresh.oldest_min > 11.0);
    m.parcels.clear();
    CHECK(freshness_of(m, HoursKeys{})[0].traced_kg == 0.0);
}

TEST_CASE("freshness.csv and the report tell the same loads") {
    DayResult result;
    result.machines = {even_load()};
    Load blind = result.machines[0].loads[0];
    blind.number = 2;
    result.machines[0].loads.push_back(blind);
    CHECK(freshness_csv(Day{}, result) ==
          "machine,load,tipped_unix_s,net_kg,traced_kg,oldest_min,median_min,intake_oldest_min,"
          "intake_median_min,over_limit_pct\n"
          "alder,1,1060.0,600.0,600.0,11.2,6.2,36.2,31.2,0.0\n"
          "alder,2,1060.0,600.0,0.0,11.2,,36.2,,\n");
    Day day;
    day.hours.fresh_limit_min = 31.2;
    const std::string html = freshness_html(day, result);
    CHECK(html.find("<td>11</td><td>6</td><td>36</td><td>31</td><td>50</td>") != std::string::npos);
    CHECK(html.find("<td>11</td><td>not known</td><td>36</td><td>not known</td><td>not known</td>") !=
          std::string::npos);
    CHECK(html.find("0.30 t of 0.60 t (50.0 %) came to the intake beyond the limit") != std::string::npos);
    CHECK(html.find("25 min of road") != std::string::npos);
    CHECK(freshness_html(day, DayResult{}).empty());
}
