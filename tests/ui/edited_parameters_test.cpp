// A copy of a machine's parameters: what is changed can be undone, and what is saved is what was meant.
#include "bench/edited_parameters.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "bench/parameter_list.hpp"
#include "bench/sections.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

std::size_t place_of(const std::string& key) {
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        if (key == kParameterTable[i].name) return i;
    }
    FAIL("no key " << key);
    return 0;
}

Parameters own() {
    Parameters parameters;
    parameters.width_m = Real(3.75);
    return parameters;
}

bool same(const Parameters& a, const Parameters& b) {
    return sim::mark_of(a) == sim::mark_of(b);
}

std::shared_ptr<const NamedSet> wet() {
    auto set = std::make_shared<NamedSet>();
    set->name = "wet";
    set->mark = "00ff";
    set->set.made = {"it rained", "A", 7, "viner_2, Small day", "0001"};
    set->set.history = {{"first", "B", 3, "viner_1, Small day", "0000"}};
    set->set.values[place_of("loss_limit_share")] = Real(0.2);
    set->set.values[place_of("width_m")] = Real(3.75);
    return set;
}

}  // namespace

TEST_CASE("Every change is undone and done again, whatever the order") {
    std::mt19937 bits(9);
    EditedParameters edited(own());
    std::vector<Parameters> stands = {edited.now()};
    for (int i = 0; i < 300; ++i) {
        const std::size_t index = bits() % kParameterCount;
        const ParameterInfo& info = kParameterTable[index];
        const double share = static_cast<double>(bits()) / 4294967295.0;
        const auto kind = bits() % 10;
        if (kind == 0) edited.reset_all();
        if (kind == 1) edited.reset(index);
        if (kind > 1) edited.put(index, static_cast<Real>(info.low + share * (info.high - info.low)));
        if (!same(edited.now(), stands.back())) stands.push_back(edited.now());
    }
    REQUIRE(stands.size() > 200);
    for (std::size_t i = stands.size() - 1; i > 0; --i) {
        REQUIRE(same(edited.now(), stands[i]));
        REQUIRE(edited.undo());
    }
    CHECK(same(edited.now(), own()));
    CHECK_FALSE(edited.undo());
    for (std::size_t i = 1; i < stands.size(); ++i) {
        REQUIRE(edited.redo());
        REQUIRE(same(edited.now(), stands[i]));
    }
    CHECK_FALSE(edited.redo());
    edited.undo();
    edited.put(0, Real(2));
    CHECK_FALSE(edited.redo());
}

TEST_CASE("A change to what is there already is none") {
    EditedParameters edited(own());
    edited.put(place_of("width_m"), Real(3.75));
    edited.reset_all();
    CHECK_FALSE(edited.undo());
    CHECK(edited.changes() == 0);
    edited.put(place_of("width_m"), Real(3.3));
    CHECK(edited.changes() == 1);
    CHECK(edited.changed(place_of("width_m")));
    edited.put(place_of("width_m"), Real(3.75));
    CHECK(edited.changes() == 0);
    CHECK_FALSE(edited.unsaved());
}

TEST_CASE("A set is saved with what differs and what its forerunner named, and with its history") {
    EditedParameters edited(own());
    edited.put(place_of("outage_s"), Real(30));
    const sim::ParameterSet first = edited.to_save({"why", "C", 9, "", ""}, "viner_2, Small day");
    CHECK(first.named() == 1);
    CHECK(first.values[place_of("outage_s")] == Real(30));
    CHECK(first.made.made_from == "viner_2, Small day");
    CHECK(first.made.made_from_mark == sim::mark_of(own()));
    CHECK(first.history.empty());

    edited.open(wet());
    CHECK_FALSE(edited.unsaved());
    CHECK(edited.now().loss_limit_share == Real(0.2));
    CHECK(edited.now().outage_s == own().outage_s);
    edited.put(place_of("outage_s"), Real(45));
    CHECK(edited.unsaved());
    const sim::ParameterSet next = edited.to_save({"why", "C", 9, "", ""}, "viner_2, Small day");
    CHECK(next.named() == 3);
    CHECK(next.values[place_of("width_m")] == Real(3.75));
    CHECK(next.made.made_from == "wet");
    CHECK(next.made.made_from_mark == "00ff");
    REQUIRE(next.history.size() == 2);
    CHECK(next.history[0].note == "first");
    CHECK(next.history[1].note == "it rained");
    REQUIRE(edited.undo());
    REQUIRE(edited.undo());
    CHECK(edited.from() == nullptr);
    CHECK(edited.now().outage_s == Real(30));
}

TEST_CASE("Steps are round, go up and down again, and end at the range") {
    const auto step = [](const char* key, double value, bool up, bool coarse) {
        return static_cast<double>(stepped(place_of(key), static_cast<Real>(value), up, coarse));
    };
    CHECK(step("loss_limit_share", 0.1, true, false) == Approx(0.105));
    CHECK(step("loss_limit_share", 0.103, true, false) == Approx(0.105));
    CHECK(step("loss_limit_share", 0.103, false, false) == Approx(0.1));
    CHECK(step("loss_limit_share", 0.1, true, true) == Approx(0.15));
    CHECK(step("hopper_capacity_kg", 2000, true, false) == Approx(2100));
    CHECK(step("loss_high_priority", 1, true, false) == Approx(2));
    CHECK(step("loss_high_priority", 2, true, false) == Approx(2));
    CHECK(step("wanted_rate_kgps", 0, true, false) == Approx(0.1));
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        INFO(kParameterTable[i].name);
        for (const bool up : {true, false}) {
            Real value = static_cast<Real>(kParameterTable[i].value);
            int steps = 0;
            for (; steps < 100000; ++steps) {
                const Real to = stepped(i, value, up, false);
                if (to == value) break;
                REQUIRE((up ? to > value : to < value));
                value = to;
            }
            CHECK(value == static_cast<Real>(up ? kParameterTable[i].high : kParameterTable[i].low));
            Parameters parameters;
            parameters.*kParameterTable[i].member = value;
            CHECK(first_invalid(parameters) == nullptr);
        }
    }
}

TEST_CASE("Each parameter stands in one section, in the table's order") {
    std::size_t next = 0;
    for (const ParameterSection& section : parameter_sections()) {
        CHECK(section.from == next);
        CHECK(section.to > section.from);
        next = section.to;
    }
    CHECK(next == kParameterCount);
    CHECK(parameter_sections().size() == 9);
}

TEST_CASE("The list is sifted by key, by section and by what is changed") {
    EditedParameters edited(own());
    ParameterList list;
    CHECK(list.rows().size() == kParameterCount + parameter_sections().size());
    list.set_filter("LOSS_HIGH");
    list.sift(edited, {});
    CHECK(list.rows().size() == 6 + 2);  // and picking_loss_high_share
    CHECK(list.rows()[0].head);
    list.set_filter("crop");
    list.sift(edited, {});
    CHECK(list.rows().size() > 8);
    list.set_filter("bestand");
    list.sift(edited, {});
    CHECK(list.rows().empty());
    CHECK_FALSE(list.chosen().has_value());
    list.step(1);
    list.sift(edited, {Language::german, Units::metric});
    CHECK(list.rows().size() == 8);
    list.set_filter("");
    list.set_changed_only(true);
    edited.put(place_of("outage_s"), Real(30));
    list.sift(edited, {});
    REQUIRE(list.rows().size() == 2);
    CHECK(list.chosen() == place_of("outage_s"));
}

TEST_CASE("The chosen row goes over heads and stays in sight") {
    EditedParameters edited(own());
    ParameterList list;
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        CHECK(list.chosen() == i);
        const std::size_t top = list.top(12);
        bool seen = false;
        for (std::size_t row = top; row < top + 12; ++row)
            seen = seen || (!list.rows()[row].head && list.rows()[row].at == i);
        REQUIRE(seen);
        list.step(1);
    }
    CHECK(list.chosen() == kParameterCount - 1);
    list.step(-1000);
    CHECK(list.chosen() == 0);
    CHECK(list.top(12) == 0);
    list.scroll(50, 12);
    CHECK(list.top(12) == 50);
    list.scroll(1000, 12);
    CHECK(list.top(12) == list.rows().size() - 12);
    list.step(10);
    CHECK(list.chosen() == 10);
    CHECK(list.top(12) < 12);
}
