// What a day taught of the loss, carried to the next.
#include "replay/carry.hpp"

#include <catch2/catch.hpp>

#include "support/temp_folder.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

DayResult taught() {
    DayResult result;
    result.machines.resize(2);
    MachineResult& one = result.machines[0];
    one.id = "viner_1";
    one.usable = true;
    one.loss_memory = {1751032800 * kSecondUs, Real(0.25), Real(0.09), Real(-0.5), Real(0.2), Real(-0.04)};
    result.machines[1].id = "viner_2";  // its log was refused
    return result;
}

Day next_day() {
    Day day;
    day.machines.resize(3);
    day.machines[0].id = "viner_3";
    day.machines[1].id = "viner_2";
    day.machines[2].id = "viner_1";
    return day;
}

void check_refused(const test::TempFolder& folder, const std::string& text, const std::string& part) {
    test::write_text(folder / "carry.json", text);
    Day day = next_day();
    try {
        take_carried(folder.path(), day);
        FAIL("taken: " << text);
    } catch (const RefusedInput& refused) {
        CHECK(std::string(refused.what()).find(part) != std::string::npos);
    }
}

}  // namespace

TEST_CASE("Each machine gets back what it was taught, to the last bit; others start as told") {
    const test::TempFolder folder;
    test::write_text(folder / "carry.json", carry_json(taught()));
    Day day = next_day();
    take_carried(folder.path(), day);
    CHECK_FALSE(day.machines[0].carried);
    CHECK_FALSE(day.machines[1].carried);
    REQUIRE(day.machines[2].carried);
    const LossMemory& memory = *day.machines[2].carried;
    const LossMemory wanted = taught().machines[0].loss_memory;
    CHECK(memory.time_us == wanted.time_us);
    CHECK(memory.level == wanted.level);
    CHECK(memory.level_variance == wanted.level_variance);
    CHECK(memory.ln_picking == wanted.ln_picking);
    CHECK(memory.ln_picking_variance == wanted.ln_picking_variance);
    CHECK(memory.level_with_picking == wanted.level_with_picking);
}

TEST_CASE("A missing or damaged carry.json is refused with a mend") {
    const test::TempFolder folder;
    Day day = next_day();
    CHECK_THROWS_AS(take_carried(folder / "nowhere", day), RefusedInput);
    check_refused(folder, "", "damaged");
    check_refused(folder, "{\"machines\":[", "damaged");
    check_refused(folder, "{\"machines\":[{\"id\":\"viner_1\"}]}", "damaged");
    std::string text = carry_json(taught());
    text.replace(text.find("\"level\": 0.25"), 13, "\"level\": 9e9");
    check_refused(folder, text, "damaged");
    text = carry_json(taught());
    text.replace(text.find("\"level_variance\": "), 18, "\"level_variance\": -");
    check_refused(folder, text, "damaged");
}
