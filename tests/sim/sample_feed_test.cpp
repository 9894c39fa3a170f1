#include <catch2/catch.hpp>

#include "log/sample_feed.hpp"
#include "podrate/estimator.hpp"
#include "sim/read_log.hpp"

using namespace podrate;

namespace {

struct Fed {
    Estimate last;
    sim::Problems problems;
};

Fed feed_all(const std::string& text) {
    const test::TempFolder folder;
    const std::filesystem::path path = folder.file("viner.csv", text);
    Fed fed;
    sim::LogReader reader(path, fed.problems);
    sim::SampleFeed feed("viner.csv", reader, fed.problems);
    Estimator estimator{Parameters{}};
    const sim::SampleTaker take = [&estimator](const Sample& sample) { return estimator.feed(sample); };
    sim::LogRow row;
    while (reader.next(row)) feed.feed(row, take);
    fed.last = estimator.read();
    return fed;
}

}  // namespace

TEST_CASE("Cells are summed to the hopper's weight") {
    const Fed fed = feed_all("unix_s,cell1_kg,cell2_kg,cell3_kg,cell4_kg\n1,100,200,300,400\n");
    REQUIRE(fed.last.started);
    CHECK(fed.last.mass_kg == Approx(1000.0));
    CHECK(fed.problems.count() == 0);
}

TEST_CASE("Two cells are enough and a missing cell gives no weight") {
    CHECK(feed_all("unix_s,cell1_kg,cell3_kg\n1,100,200\n").last.mass_kg == Approx(300.0));
    const Fed fed = feed_all("unix_s,cell1_kg,cell2_kg\n1,100,\n");
    CHECK_FALSE(fed.last.started);
    CHECK(fed.problems.count() == 0);
}

TEST_CASE("The hopper's weight goes before its cells") {
    CHECK(feed_all("unix_s,cell1_kg,hopper_kg\n1,100,250\n").last.mass_kg == Approx(250.0));
}

TEST_CASE("Cells may come in different rows within half a second") {
    const Fed near = feed_all("unix_s,cell1_kg,cell2_kg\n1.0,100,\n1.4,,50\n");
    REQUIRE(near.last.started);
    CHECK(near.last.mass_kg == Approx(150.0));
    CHECK_FALSE(feed_all("unix_s,cell1_kg,cell2_kg\n1.0,100,\n1.6,,50\n").last.started);
}

TEST_CASE("Of hopper and cells the one that speaks first counts") {
    CHECK(feed_all("unix_s,hopper_kg,cell1_kg\n1,,100\n2,250,100\n").last.mass_kg ==
          Approx(100.0).margin(1.0));
}

TEST_CASE("A place of zero and zero is no fix and no fault") {
    const Fed fed = feed_all("unix_s,hopper_kg,lat_deg,lon_deg\n1,100,0,0\n");
    CHECK(fed.last.started);
    CHECK(fed.problems.count() == 0);
}

TEST_CASE("A speed a little below zero is standing") {
    const Fed fed = feed_all("unix_s,hopper_kg,speed_mps\n1,100,-0.05\n");
    CHECK(fed.problems.count() == 0);
    CHECK(fed.last.speed_mps == Real(0));
}

TEST_CASE("A value outside its channel is told and the rest of the row used") {
    const struct {
        const char* column;
        const char* value;
        const char* told;
    } kinds[] = {
        {"speed_mps", "31", "speed"},        {"speed_mps", "-0.5", "speed"},
        {"speed_mps", "1e300", "speed"},     {"pitch_deg", "61", "tilt"},
        {"roll_deg", "-1e300", "tilt"},      {"heading_deg", "361", "heading"},
        {"heading_deg", "-1e12", "heading"},
    };
    for (const auto& kind : kinds) {
        INFO(kind.column << " " << kind.value);
        const Fed fed =
            feed_all(std::string("unix_s,hopper_kg,") + kind.column + "\n1,100," + kind.value + "\n");
        CHECK(fed.last.started);
        REQUIRE(fed.problems.count() == 1);
        CHECK(fed.problems.faults() == 1);
        CHECK(fed.problems.kept().front().line == 2);
        CHECK(fed.problems.kept().front().reason.find(kind.told) == 0);
    }
}

TEST_CASE("A place off the globe is told and the weight used") {
    for (const std::string place : {"90.1,0", "0,180.1", "-1e300,5", "5,1e300"}) {
        INFO(place);
        const Fed fed = feed_all("unix_s,hopper_kg,lat_deg,lon_deg\n1,100," + place + "\n");
        CHECK(fed.last.started);
        REQUIRE(fed.problems.count() == 1);
        CHECK(fed.problems.kept().front().reason.find("position") == 0);
    }
}

TEST_CASE("A weight no hopper can show is told and left out") {
    for (const std::string kg : {"20001", "-2001", "1e300"}) {
        INFO(kg);
        const Fed fed = feed_all("unix_s,hopper_kg\n1," + kg + "\n2,50\n");
        CHECK(fed.last.mass_kg == Approx(50.0));
        REQUIRE(fed.problems.count() == 1);
        CHECK(fed.problems.kept().front().reason.find("weight") == 0);
    }
}
