#include "podrate/work/look_back.hpp"

#include <catch2/catch.hpp>

using namespace podrate;

namespace {

TimeUs at(double s) {
    return static_cast<TimeUs>(s * 1e6);
}

}  // namespace

TEST_CASE("A look back finds the newest moment that is old enough") {
    const FlowFilter filter{Parameters{}};
    RunningTotals totals;
    LookBack back;
    CHECK(back.before(at(100)) == nullptr);
    for (int i = 0; i <= 600; ++i) {
        totals.area_m2.add(Real(1));
        back.remember(at(0.1 * i), filter, totals);
    }
    const LookBack::Moment* moment = back.before(at(42));
    REQUIRE(moment != nullptr);
    CHECK(moment->time_us == at(40));
    CHECK(static_cast<double>(moment->totals.area_m2.value()) == Approx(401.0));
    CHECK(back.before(at(60))->time_us == at(60));
    CHECK(back.before(at(-1)) == nullptr);
}

TEST_CASE("A look back reaches over a minute and forgets the rest, or all when told") {
    const FlowFilter filter{Parameters{}};
    LookBack back;
    for (int i = 0; i < 10000; ++i) back.remember(at(0.1 * i), filter, {});
    CHECK(back.before(at(999.9 - 70.0)) != nullptr);
    CHECK(back.before(at(999.9 - 90.0)) == nullptr);
    back.forget();
    CHECK(back.before(at(1000)) == nullptr);
}

TEST_CASE("A look back keeps what the filter thought at that moment, once in five seconds") {
    FlowFilter filter{Parameters{}};
    LookBack back;
    filter.start(Real(100), Real(36));
    back.remember(at(10), filter, {});
    filter.shift_mass(Real(50));
    back.remember(at(14.9), filter, {});  // too soon
    filter.shift_mass(Real(50));
    back.remember(at(15), filter, {});
    CHECK(back.before(at(14.95))->mean(FlowFilter::mass) == Real(100));
    CHECK(back.before(at(14.999999))->time_us == at(10));
    CHECK(back.before(at(15))->mean(FlowFilter::mass) == Real(200));
    CHECK(back.before(at(9.999999)) == nullptr);
}

TEST_CASE("A look back that has forgotten begins anew at once") {
    FlowFilter filter{Parameters{}};
    LookBack back;
    for (int i = 0; i < 40; ++i) back.remember(at(5.0 * i), filter, {});
    back.forget();
    filter.shift_mass(Real(7));
    back.remember(at(196), filter, {});
    REQUIRE(back.before(at(1000)) != nullptr);
    CHECK(back.before(at(1000))->time_us == at(196));
    CHECK(back.before(at(1000))->mean(FlowFilter::mass) == Real(7));
    // What was kept before is gone, though its place in the ring is not yet taken again.
    CHECK(back.before(at(195.9)) == nullptr);
}
