// Loads weighed through the whole estimator.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

// A weighing may be off by four of its stated standard deviations, and by no more than 1 %.
void check_net(const Load& load, double true_kg) {
    const double error_kg = static_cast<double>(load.net_kg) - true_kg;
    INFO("net " << load.net_kg << " kg, truth " << true_kg << " kg, stated sd " << load.net_sd_kg << " kg");
    CHECK(std::abs(error_kg) < 4.0 * static_cast<double>(load.net_sd_kg));
    CHECK(std::abs(error_kg) < 0.01 * true_kg);
}

}  // namespace

TEST_CASE("A hopper filled and tipped gives one load of its weight") {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        INFO("seed " << seed);
        Rig rig(seed);
        rig.machine.stand(10.0);
        const TimeUs begun_us = rig.machine.now_us();
        rig.machine.drive(1200.0, 0.8);
        rig.machine.stand(60.0);
        const double full_kg = rig.truth().mass_kg;
        const TimeUs tip_us = rig.machine.now_us();
        rig.machine.tip();
        rig.machine.stand(20.0);
        REQUIRE(rig.loads.size() == 1);
        const Load& load = rig.loads.front();
        check_net(load, full_kg);
        CHECK(load.number == 1);
        CHECK(std::abs(load.end_us - tip_us) < 3 * kSecondUs);
        CHECK(std::abs(load.first_cut_us - begun_us) < 2 * kSecondUs);
        CHECK(load.area_m2 == Approx(rig.truth().area_m2).epsilon(0.001));
        CHECK(rig.refused == 0);
    }
}

TEST_CASE("Five loads add up with the hopper to what was harvested") {
    Rig rig(7);
    rig.machine.stand(5.0);
    double tipped_kg = 0.0;
    for (int i = 0; i < 5; ++i) {
        rig.machine.drive(900.0 + 60.0 * i, 0.7 + 0.05 * i);
        rig.machine.stand(20.0);
        const double before_kg = rig.truth().mass_kg;
        rig.machine.tip(32.0, 0.0);
        tipped_kg += before_kg;
        rig.machine.stand(15.0);
        REQUIRE(rig.loads.size() == static_cast<std::size_t>(i + 1));
        check_net(rig.loads.back(), before_kg);
    }
    rig.machine.drive(400.0, 0.8);
    const Estimate e = rig.read();
    CHECK(static_cast<double>(e.harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.005));
    double nets_kg = 0.0;
    for (const Load& load : rig.loads) nets_kg += static_cast<double>(load.net_kg);
    CHECK(nets_kg == Approx(tipped_kg).epsilon(0.005));
}

TEST_CASE("Total is tipped plus content at every reading between tips") {
    Rig rig(3);
    rig.machine.put_in(250.0);
    rig.machine.stand(20.0);
    double tipped_kg = 0.0;
    for (int i = 0; i < 3; ++i) {
        rig.machine.drive(30.0, 0.8);
        const Estimate first = rig.read();
        // What stands between total and tipped + content: the start's content and shifts of the zero.
        const double offset_kg = static_cast<double>(first.harvested_kg - first.mass_kg) - tipped_kg;
        CHECK(std::abs(offset_kg + 250.0) < 20.0);
        for (int j = 0; j < 90; ++j) {
            rig.machine.drive(10.0, 0.8);
            const Estimate e = rig.read();
            REQUIRE(static_cast<double>(e.harvested_kg - e.mass_kg) - tipped_kg ==
                    Approx(offset_kg).margin(0.01));
        }
        rig.machine.stand(30.0);
        rig.machine.tip();
        rig.machine.stand(15.0);
        REQUIRE(rig.loads.size() == static_cast<std::size_t>(i + 1));
        tipped_kg += static_cast<double>(rig.loads.back().net_kg);
    }
}

TEST_CASE("The harvested total does not fall while peas pour out") {
    Rig rig(11);
    rig.machine.stand(5.0);
    for (int i = 0; i < 4; ++i) {
        rig.machine.drive(1000.0, 0.8);
        rig.machine.stand(15.0);
        rig.machine.tip();
        rig.machine.stand(15.0);
    }
    REQUIRE(rig.loads.size() == 4);
    // Noise of the weight estimate and of each weighing, a few kilograms; a tip is 1,200 kg.
    CHECK(rig.worst_fall_kg < 15.0);
}

TEST_CASE("A tip that leaves peas in the hopper is a load of what left it") {
    Rig rig(5);
    rig.machine.stand(5.0);
    rig.machine.drive(1200.0, 0.8);
    rig.machine.stand(40.0);
    const double full_kg = rig.truth().mass_kg;
    const TimeUs oldest_us = rig.read().oldest_cut_us;
    rig.machine.tip(20.0, 500.0);
    rig.machine.stand(20.0);
    REQUIRE(rig.loads.size() == 1);
    check_net(rig.loads.front(), full_kg - 500.0);
    CHECK(static_cast<double>(rig.read().mass_kg) == Approx(rig.truth().mass_kg).margin(6.0));
    // The peas that stayed are the oldest still.
    CHECK(rig.read().oldest_cut_us == oldest_us);
    rig.machine.drive(300.0, 0.8);
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
}

TEST_CASE("An empty hopper has no oldest pea until crop is cut again") {
    Rig rig(6);
    rig.machine.stand(5.0);
    CHECK(rig.read().oldest_cut_us == 0);
    rig.machine.drive(900.0, 0.8);
    rig.machine.stand(60.0);
    rig.machine.tip();
    rig.machine.stand(20.0);
    CHECK(rig.read().oldest_cut_us == 0);
    const TimeUs again_us = rig.machine.now_us();
    rig.machine.drive(60.0, 0.8);
    CHECK(std::abs(rig.read().oldest_cut_us - again_us) < 2 * kSecondUs);
}

TEST_CASE("A little taken out by hand is no load and does not count as lost harvest") {
    Rig rig(8);
    rig.machine.stand(5.0);
    rig.machine.drive(900.0, 0.8);
    rig.machine.stand(60.0);
    const double before_kg = rig.truth().mass_kg;
    rig.machine.tip(4.0, before_kg - 80.0);
    rig.machine.stand(20.0);
    CHECK(rig.loads.empty());
    CHECK(static_cast<double>(rig.read().mass_kg) == Approx(before_kg - 80.0).margin(6.0));
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
    rig.machine.drive(600.0, 0.8);
    rig.machine.stand(20.0);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip();
    rig.machine.stand(20.0);
    REQUIRE(rig.loads.size() == 1);
    check_net(rig.loads.front(), full_kg);
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
}

TEST_CASE("Peas that pour in two goes are one load") {
    Rig rig(9);
    rig.machine.stand(5.0);
    rig.machine.drive(1100.0, 0.8);
    rig.machine.stand(40.0);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip(14.0, full_kg / 2);
    rig.machine.stand(3.0);
    rig.machine.tip(14.0, 0.0);
    rig.machine.stand(20.0);
    REQUIRE(rig.loads.size() == 1);
    check_net(rig.loads.front(), full_kg);
}

TEST_CASE("A tip in parts with no crop cut between is one load that is revised") {
    Rig rig(14);
    rig.machine.stand(5.0);
    rig.machine.drive(1100.0, 0.8);
    rig.machine.stand(40.0);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip(14.0, full_kg / 2);
    rig.machine.stand(60.0);
    REQUIRE(rig.loads.size() == 1);
    CHECK(rig.loads.front().revision == 0);
    check_net(rig.loads.front(), full_kg / 2);
    rig.machine.tip(14.0, 0.0);
    rig.machine.stand(20.0);
    REQUIRE(rig.loads.size() == 1);
    CHECK(rig.loads.front().revision == 1);
    check_net(rig.loads.front(), full_kg);
    // With crop cut between, the next tip is a load of its own.
    rig.machine.drive(600.0, 0.8);
    rig.machine.stand(40.0);
    rig.machine.tip();
    rig.machine.stand(20.0);
    CHECK(rig.loads.size() == 2);
}

TEST_CASE("Loads are found on logs from ten readings a second to one in five seconds") {
    // Every so many of the machine's ten readings a second.
    for (const int every : {1, 2, 10, 20, 50}) {
        INFO("one reading in " << 0.1 * every << " s");
        Estimator estimator{Parameters{}};
        int count = 0;
        const auto sink = [&](const Sample& sample) {
            if (sample.channel == Channel::weight && count++ % every != 0) return;
            estimator.feed(sample);
        };
        test::Machine<decltype(sink)> machine(sink, 15);
        machine.stand(10.0);
        double tipped_kg = 0.0;
        for (int i = 0; i < 2; ++i) {
            machine.drive(1000.0, 0.8);
            machine.stand(60.0);
            tipped_kg = machine.truth().mass_kg;
            machine.tip();
            machine.stand(40.0);
        }
        REQUIRE(estimator.load_count() == 2);
        CHECK(static_cast<double>(estimator.last_load().net_kg) == Approx(tipped_kg).epsilon(0.015));
        CHECK(static_cast<double>(estimator.read().harvested_kg) ==
              Approx(machine.truth().harvested_kg).epsilon(0.01));
    }
}

TEST_CASE("A hopper with peas in it at the start does not count them as harvested") {
    Rig rig(10);
    rig.machine.put_in(700.0);
    rig.machine.stand(20.0);
    rig.machine.drive(600.0, 0.8);
    rig.machine.stand(60.0);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip();
    rig.machine.stand(20.0);
    REQUIRE(rig.loads.size() == 1);
    check_net(rig.loads.front(), full_kg);
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
}

TEST_CASE("A zero error is learnt from the emptied hopper") {
    Rig rig(12);
    rig.machine.zero_kg = 18.0;
    rig.machine.stand(5.0);
    rig.machine.drive(900.0, 0.8);
    rig.machine.stand(30.0);
    rig.machine.tip();
    rig.machine.stand(20.0);
    // The first zero is doubted by 10 kg, the rest after a tip by 3 kg: most of the error is found.
    CHECK(std::abs(static_cast<double>(rig.read().mass_kg)) < 4.0);
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
}

TEST_CASE("A load is tipped where the machine stood") {
    Rig rig(13);
    rig.machine.stand(5.0);
    rig.estimator.feed(position_sample(rig.machine.now_us(), 526000000, 29000000));
    rig.machine.drive(900.0, 0.8);
    rig.machine.stand(30.0);
    rig.estimator.feed(position_sample(rig.machine.now_us(), 526012345, 29054321));
    rig.machine.tip();
    rig.machine.stand(20.0);
    REQUIRE(rig.loads.size() == 1);
    CHECK(rig.loads.front().place_known);
    CHECK(rig.loads.front().lat_e7 == 526012345);
    CHECK(rig.loads.front().lon_e7 == 29054321);
}
