// The map of the shipped day, held against what the replay and its map say themselves.
#include "map/map_model.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "analysis/whole_day.hpp"
#include "log/units.hpp"
#include "map/map_words.hpp"
#include "ui/small_map.hpp"

using namespace podrate;
using namespace podrate::ui;

TEST_CASE("The shipped day's map has each cell, mark, field and way of the day") {
    const sim::Day day = sim::read_day(PODRATE_SOURCE_DIR "/demo_logs/harrowmere");
    sim::DayResult result = sim::replay_day(day, {});
    CHECK_FALSE(make_map_model(day, result));
    sim::analyse_day(day, result, true);
    const auto model = make_map_model(day, result);
    REQUIRE(model);
    sim::DayMap map = *result.map;

    std::size_t told = 0;
    double kg = 0.0;
    double shown_kg = 0.0;
    for (const sim::MapCell& cell : map.cells) {
        // Its middle, by the plane itself.
        const sim::EastNorth middle = {(cell.place.column + 0.5) * map.cell_m - model->origin.east_m,
                                       (cell.place.row + 0.5) * map.cell_m - model->origin.north_m};
        const ShownCell* shown = model->cell_at(middle);
        REQUIRE((shown != nullptr) == cell.told(map.cell_m));
        if (shown == nullptr) continue;
        ++told;
        REQUIRE(shown->place == cell.place);
        kg += cell.harvested_kg;
        shown_kg += static_cast<double>(shown->of(MapTopic::yield).kgpm2) * cell.cut_m2;
        CHECK(static_cast<double>(shown->of(MapTopic::loss).kgpm2) ==
              Approx(cell.lost_kg / cell.cut_m2).epsilon(1e-5));
        CHECK((shown->of(MapTopic::yield).doubt == Doubt::sure) ==
              (cell.harvested_sd_kg <= 0.08 * cell.harvested_kg));
    }
    CHECK(told == model->cells.size());
    CHECK(told > 500);
    CHECK(shown_kg == Approx(kg).epsilon(1e-6));

    CHECK(model->pins.size() == map.marks.size());
    for (std::size_t i = 0; i < map.marks.size(); ++i) {
        const sim::EastNorth at = map.plane.to_plane(map.marks[i].place);
        CHECK(model->pins[i].place.east_m == Approx(at.east_m - model->origin.east_m).margin(1e-6));
        CHECK(model->machines[model->pins[i].machine].id == map.marks[i].machine);
    }
    REQUIRE(model->fields.size() == day.fields.size());
    for (const FieldShape& field : model->fields) CHECK_FALSE(field.box.empty());

    // Places in time: to a centimetre those of the log, and back again.
    REQUIRE(model->machines.size() == 3);
    std::mt19937 random(4);
    for (std::size_t machine = 0; machine < 3; ++machine) {
        const std::vector<sim::WorkPoint>& work = result.machines[machine].work;
        for (int i = 0; i < 200; ++i) {
            const sim::WorkPoint& point = work[random() % work.size()];
            if (!point.placed) continue;
            const auto place = model->place_at(machine, point.time_us);
            REQUIRE(place);
            const sim::EastNorth at = map.plane.to_plane(point.place());
            CHECK(place->east_m == Approx(at.east_m - model->origin.east_m).margin(0.01));
            CHECK(place->north_m == Approx(at.north_m - model->origin.north_m).margin(0.01));
            const auto passing = model->nearest_time(machine, *place);
            REQUIRE(passing);
            CHECK(passing->away_m < 1e-3);
        }
    }
}

TEST_CASE("The scale of a topic is of round steps in the units asked for") {
    const MapModel model = small_map();
    const sim::MapScale& metric = model.scale(MapTopic::yield, Units::metric);
    CHECK(metric.low <= 10.0 * 0.36);
    CHECK(metric.high >= 10.0 * 0.72);
    CHECK(metric.step == Approx(1.0));
    // 1 kg/m2 is 4.4609 short tons an acre: 43,560 x 0.3048^2 m2 over 907.18474 kg.
    const sim::MapScale& us = model.scale(MapTopic::yield, Units::us);
    CHECK(us.high / metric.high == Approx(0.44609).epsilon(0.15));
    CHECK(us.step == Approx(0.5));
}

TEST_CASE("The map says what lies under the pointer, with its range, and when the machine passed") {
    const MapModel model = small_map();
    const Speech english{Language::english, Units::metric};
    // Column 5, row 20: 0.3 + 0.02 + 0.1 = 0.42 kg/m2, 3 % doubt: 4.2 -+ 1.645 x 0.126 t/ha.
    const PlaceWords cell = words_at(model, MapTopic::yield, 0, {57.0, 205.0}, 5.0, english);
    CHECK(cell.here == "4.2 t/ha (4.0 to 4.4)");
    // Bout 11 is at 20 + 36.3 m; it runs back: 200 - (205 / 1.5) s after its begin at 2200 s.
    CHECK(cell.passing == "viner_1 at 15:37:43");
    const PlaceWords loss =
        words_at(model, MapTopic::loss, 1, {57.0, 205.0}, 5.0, {Language::german, Units::metric});
    CHECK(loss.here ==
          "170 kg/ha (110\xE2\x80\x93"
          "220)");
    CHECK(loss.passing.find("viner_2 um ") == 0);
    const PlaceWords pin = words_at(model, MapTopic::yield, 1, {101.0, 149.0}, 5.0, english);
    CHECK(pin.here == "Load tipped: 1.23 t");
    CHECK(pin.passing == "viner_1 at 15:10");
    CHECK(words_at(model, MapTopic::yield, 0, {161.0, 149.0}, 5.0, english).here == "Stop: 21 min");
    const PlaceWords bare = words_at(model, MapTopic::yield, 0, {420.0, 205.0}, 5.0, english);
    CHECK(bare.here.empty());
    CHECK_FALSE(bare.passing.empty());
}
