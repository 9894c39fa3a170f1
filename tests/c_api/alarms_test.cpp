// Alarms through the C header.
#include <catch2/catch.hpp>

#include "c_api/kept_machine.hpp"

using podrate::test::KeptMachine;

namespace {

constexpr std::uint32_t kWeightFault = 6;

struct podrate_alarm told(const KeptMachine& machine, std::uint32_t alarm) {
    struct podrate_alarm a = {};
    CHECK(podrate_read_alarm(machine.get(), alarm, &a) == PODRATE_OK);
    return a;
}

// Weights until `until_s`; silence afterwards raises weight_fault.
void silent_after(const KeptMachine& machine, int until_s, int to_s) {
    for (int s = 1; s <= until_s; ++s)
        REQUIRE(machine.feed(s * 1000000LL, PODRATE_WEIGHT, 5.0F) == PODRATE_OK);
    for (int s = until_s + 1; s <= to_s; ++s)
        REQUIRE(podrate_step(machine.get(), s * 1000000LL) == PODRATE_OK);
}

}  // namespace

TEST_CASE("An alarm is raised and acknowledged and shelved and taken off the shelf") {
    const KeptMachine machine(0);
    REQUIRE(std::string(podrate_alarm_name(kWeightFault)) == "weight_fault");
    CHECK(told(machine, kWeightFault).state == PODRATE_NORMAL);
    silent_after(machine, 10, 20);
    struct podrate_alarm a = told(machine, kWeightFault);
    CHECK(a.state == PODRATE_UNACKNOWLEDGED);
    CHECK(a.shown == 1);
    CHECK(a.active == 1);
    CHECK(a.priority == PODRATE_MEDIUM);
    CHECK(a.activations == 1);
    CHECK(a.since_us > 0);
    CHECK((machine.read().alarms & (1U << kWeightFault)) != 0);

    REQUIRE(podrate_acknowledge(machine.get(), kWeightFault) == PODRATE_OK);
    CHECK(told(machine, kWeightFault).state == PODRATE_ACKNOWLEDGED);

    REQUIRE(podrate_shelve(machine.get(), kWeightFault, 5.0F) == PODRATE_OK);
    CHECK(told(machine, kWeightFault).state == PODRATE_SHELVED);
    CHECK(told(machine, kWeightFault).shown == 0);
    REQUIRE(podrate_unshelve(machine.get(), kWeightFault) == PODRATE_OK);
    CHECK(told(machine, kWeightFault).state == PODRATE_ACKNOWLEDGED);

    REQUIRE(podrate_shelve(machine.get(), kWeightFault, 5.0F) == PODRATE_OK);
    for (int s = 21; s <= 27; ++s) REQUIRE(podrate_step(machine.get(), s * 1000000LL) == PODRATE_OK);
    CHECK(told(machine, kWeightFault).state == PODRATE_ACKNOWLEDGED);  // the shelf's time is over
}

TEST_CASE("Limits are those of the parameters") {
    const KeptMachine machine(0);
    CHECK(told(machine, 0).limit == machine.parameters.value[PODRATE_P_loss_high_share]);
    CHECK(told(machine, 0).deadband == machine.parameters.value[PODRATE_P_loss_high_deadband_share]);
    CHECK(told(machine, 3).priority == PODRATE_HIGH);
}

TEST_CASE("An alarm that is not there and a strange shelf are refused") {
    const KeptMachine machine(0);
    struct podrate_alarm a = {};
    for (const std::uint32_t alarm : {std::uint32_t{PODRATE_ALARM_COUNT}, 0xFFFFFFFFU}) {
        CHECK(podrate_read_alarm(machine.get(), alarm, &a) == PODRATE_NO_SUCH);
        CHECK(podrate_acknowledge(machine.get(), alarm) == PODRATE_NO_SUCH);
        CHECK(podrate_shelve(machine.get(), alarm, 1.0F) == PODRATE_NO_SUCH);
        CHECK(podrate_unshelve(machine.get(), alarm) == PODRATE_NO_SUCH);
    }
    for (const float for_s : {0.0F, -1.0F, 43201.0F, NAN, INFINITY})
        CHECK(podrate_shelve(machine.get(), 0, for_s) == PODRATE_OUT_OF_RANGE);
    CHECK(told(machine, 0).state != PODRATE_SHELVED);
}
