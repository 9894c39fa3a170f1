// Every field that is kept is taken up: what a resumed estimator saves is what it was given.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/rig.hpp"
#include "podrate/retained/retained_bytes.hpp"

using namespace podrate;
using test::Rig;

namespace {

// All fields as numbers, in their order.
class Lister {
  public:
    void flag(const bool& value) { add(value ? 1 : 0); }
    void byte(const std::uint8_t& value, std::uint8_t) { add(value); }
    void half(const std::uint16_t& value) { add(value); }
    void count(const std::uint32_t& value) { add(value); }
    void angle(const std::int32_t& value, std::int32_t) { add(value); }
    void moment(const TimeUs& value) { add(static_cast<double>(value)); }
    void real(const Real& value, Bounds) { add(static_cast<double>(value)); }
    void sum(const math::CompensatedSum<Real>& value, Bounds) { add(static_cast<double>(value.value())); }
    std::vector<double> numbers;

  private:
    void add(double value) { numbers.push_back(value); }
};

std::vector<double> fields_of(const RetainedState& state) {
    Lister lister;
    retained::visit_now(lister, state.now);
    retained::visit_loads(lister, state.loads);
    retained::visit_learnt(lister, state.learnt);
    return lister.numbers;
}

// The state of a machine that has worked, with all that this work leaves at nought set to something.
RetainedState rich_state() {
    Rig rig(21);
    rig.machine.stand(5.0);
    rig.estimator.feed(position_sample(rig.machine.now_us(), 529000000, 1200000));
    rig.machine.drive(700.0, 0.8);
    rig.machine.tip();
    rig.machine.stand(15.0);
    rig.machine.drive(300.0, 0.7);
    RetainedState state;
    REQUIRE(rig.estimator.save(state));
    REQUIRE(state.loads.last.number == 1);
    RetainedLoads& loads = state.loads;
    loads.pauses = 7;
    loads.tip_began_us = state.now.time_us - 3 * kSecondUs;
    loads.in_tip = true;
    loads.stuck = true;
    loads.stuck_kg = Real(812.5);
    loads.ceiling_kg = Real(2100);
    loads.shifts_kg = Real(-4);
    loads.before_tip_kg = Real(640);
    loads.before_tip_variance_kg2 = Real(3);
    loads.inflow_before_tip_kg = {Real(900), Real(0)};
    loads.dead_cells = 5;
    loads.trays = 3;
    RetainedLearnt& learnt = state.learnt;
    learnt.cell_count = 4;
    for (int i = 0; i < RetainedLearnt::kCells; ++i) {
        const Real n = static_cast<Real>(i + 1);
        learnt.cells[i] = {n, n * 2, n * 3, n * 4, n * 5, n * 6000, n * 7000};
    }
    learnt.tilt_share = Real(0.99);
    learnt.slip_factor = Real(0.97);
    learnt.slip_variance = Real(0.0002);
    learnt.ln_hits_gain = Real(1.5);
    learnt.hits_blocks = 30;
    learnt.cv_words = 77;
    learnt.misfit = Real(0.1);
    learnt.misfit_variance = Real(0.05);  // never vaguer than told
    learnt.loss.level_variance = Real(0.2);
    return state;
}

}  // namespace

TEST_CASE("What a resumed estimator saves is what it was given") {
    const RetainedState given = rich_state();
    Estimator estimator{Parameters{}};
    REQUIRE(estimator.resume(given, given.now.time_us) == ResumeResult::resumed);
    RetainedState again;
    REQUIRE(estimator.save(again));
    const std::vector<double> before = fields_of(given);
    const std::vector<double> after = fields_of(again);
    REQUIRE(before.size() == after.size());
    REQUIRE(before.size() > 175);
    long zeros = 0;
    for (std::size_t i = 0; i < before.size(); ++i) {
        INFO("field " << i);
        CHECK(after[i] == Approx(before[i]).epsilon(1e-5).margin(1e-6));
        if (before[i] == 0.0) ++zeros;
    }
    // Bins of the loss book at rates that never came, and little else, are nought.
    CHECK(zeros < 75);
}
