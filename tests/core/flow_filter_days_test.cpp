// Three days without a pause: the float covariance must stay one.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>

#include "core/least_eigenvalue.hpp"
#include "podrate/filter/flow_filter.hpp"

using namespace podrate;

namespace {

// Speed, reel and tips of a working day, as a function of the step alone.
struct Work {
    double speed_mps;
    bool tip;
};

Work work_at(long step) {
    const long in_bout = step % 5200;  // 520 s of bout, then a turn
    const bool turning = in_bout > 4900;
    const bool standing = step % 11000 > 10500;
    const double speed_mps = standing ? 0.0 : 0.8 + 0.3 * std::sin(0.0007 * static_cast<double>(step));
    return {turning ? 0.0 : speed_mps, step % 11000 == 10990};
}

}  // namespace

TEST_CASE("The float covariance stays symmetric and positive over 72 hours at 10 Hz") {
    FlowFilter filter{Parameters{}};
    filter.start(Real(0), Real(36));
    double mass_kg = 0.0;
    double flow_kgps = 0.0;
    std::uint64_t state = 1;
    for (long step = 0; step < 72L * 36000; ++step) {
        const Work now = work_at(step);
        Intake intake;
        intake.dt_s = Real(0.1);
        intake.distance_m = static_cast<Real>(now.speed_mps * 0.1);
        intake.area_m2 = intake.distance_m * Real(3.3);
        intake.area_rate_change_m2ps2 =
            static_cast<Real>(3.3 * (now.speed_mps - work_at(step > 0 ? step - 1 : 0).speed_mps) / 0.1);
        intake.known = step % 50000 > 600;
        const double arriving = 3.3 * now.speed_mps * 0.5 * 0.92;
        flow_kgps += (arriving - flow_kgps) * 0.0124;
        mass_kg += flow_kgps * 0.1;
        filter.predict(intake);
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        const double noise_kg = static_cast<double>(state >> 11) * 0x1.0p-53 * 20.0 - 10.0;
        if (now.tip) {
            mass_kg = 1.0;
            filter.retell_mass(static_cast<Real>(mass_kg), Real(2));
        } else {
            // Standing still the scale is quiet: the smallest noise is the hardest case.
            const bool still = now.speed_mps <= 0.0;
            filter.update(static_cast<Real>(mass_kg + (still ? 0.01 : 1.0) * noise_kg),
                          still ? Real(0.01) : Real(36), still ? Real(0.01) : Real(36));
        }
        if (step % 500 != 0) continue;
        const auto& covariance = filter.belief().covariance;
        REQUIRE((covariance == covariance.transpose()));
        INFO("step " << step);
        REQUIRE(test::least_eigenvalue(covariance) > 0.0);
        REQUIRE(filter.belief().mean.allFinite());
    }
    CHECK(static_cast<double>(filter.belief().mean(FlowFilter::mass)) == Approx(mass_kg).margin(15.0));
}
