// Whatever a file holds, reading it never crashes, never hangs and keeps its books.
#include <catch2/catch.hpp>
#include <cmath>

#include "log/sample_feed.hpp"
#include "podrate/estimator.hpp"
#include "sim/read_log.hpp"
#include "synth/random.hpp"

using namespace podrate;

namespace {

const std::string kPieces[] = {",",
                               "\n",
                               "\r\n",
                               "\"",
                               "\"\"",
                               "-",
                               "1e308",
                               "nan",
                               "inf",
                               ",,,",
                               "\t",
                               "0",
                               "1e9",
                               ".",
                               "\xEF\xBB\xBF",
                               "unix_s",
                               "99999999999",
                               "\xFF\xFE",
                               " ",
                               "+",
                               "e",
                               std::string(1, '\0'),
                               "hopper_kg",
                               "\r"};

std::size_t below(sim::Random& random, std::size_t limit) {
    return static_cast<std::size_t>(random.uniform() * static_cast<double>(limit));
}

std::string good_log(sim::Random& random) {
    std::string text = "unix_s,speed_mps,hopper_kg,pitch_deg,roll_deg,lat_deg,lon_deg,heading_deg,reel_on\n";
    double time_s = 1751032800.0;
    double kg = 100.0;
    for (int i = 0; i < 60; ++i) {
        time_s += random.uniform(0.0, 2.0);
        kg += random.uniform(-1.0, 3.0);
        text += std::to_string(time_s) + ",0.8," + std::to_string(kg) + ",1,-1,52.6,2.9,86,1\n";
    }
    return text;
}

std::string spoilt(std::string text, sim::Random& random) {
    const std::size_t changes = 1 + below(random, 12);
    for (std::size_t i = 0; i < changes && !text.empty(); ++i) {
        const std::size_t at = below(random, text.size());
        switch (below(random, 6)) {
            case 0: text[at] = static_cast<char>(below(random, 256)); break;
            case 1: text.erase(at, 1 + below(random, 40)); break;
            case 2: text.insert(at, kPieces[below(random, std::size(kPieces))]); break;
            case 3: text.insert(at, text.substr(below(random, text.size()), below(random, 200))); break;
            case 4: text.resize(at); break;
            default: text.replace(at, 1, kPieces[below(random, std::size(kPieces))]);
        }
    }
    return text;
}

std::string garbage(sim::Random& random) {
    std::string text;
    const std::size_t size = below(random, 600);
    while (text.size() < size) {
        if (random.uniform() < 0.5) {
            text += kPieces[below(random, std::size(kPieces))];
        } else {
            text += static_cast<char>(below(random, 256));
        }
    }
    return text;
}

bool all_finite(const Estimate& e) {
    for (const Real value :
         {e.mass_kg, e.mass_sd_kg, e.flow_kgps, e.flow_sd_kgps, e.yield_kgpm2, e.yield_sd_kgpm2, e.loss_share,
          e.loss_low, e.loss_high, e.harvested_kg, e.harvested_sd_kg, e.area_m2, e.load_kg}) {
        if (!std::isfinite(value)) return false;
    }
    return true;
}

// Reads and estimates; REQUIREs what must hold of any input.
void work_through(const std::filesystem::path& path, bool& refused) {
    sim::Problems problems;
    try {
        sim::LogReader reader(path, problems);
        sim::SampleFeed feed(path.string(), reader, problems);
        Estimator estimator{Parameters{}};
        const sim::SampleTaker take = [&estimator](const Sample& sample) { return estimator.feed(sample); };
        sim::LogRow row;
        TimeUs last_us = 0;
        std::uint64_t good = 0;
        while (reader.next(row)) {
            ++good;
            REQUIRE(row.time_us >= last_us);
            last_us = row.time_us;
            feed.feed(row, take);
        }
        REQUIRE(good + reader.rows_bad() == reader.rows_read());
        REQUIRE(all_finite(estimator.read()));
        refused = false;
    } catch (const sim::RefusedInput& error) {
        REQUIRE_FALSE(error.problem().reason.empty());
        REQUIRE_FALSE(error.problem().mend.empty());
        refused = true;
    }
}

}  // namespace

TEST_CASE("Spoilt logs never crash the reader or the estimator") {
    const test::TempFolder folder;
    int taken = 0;
    for (std::uint64_t seed = 1; seed <= 2500; ++seed) {
        INFO("seed " << seed);
        sim::Random random(seed, "spoilt log");
        const std::filesystem::path path = folder.file("log.csv", spoilt(good_log(random), random));
        bool refused = false;
        work_through(path, refused);
        if (!refused) ++taken;
    }
    // Most of them are still worth reading: the test would be idle if all were refused.
    CHECK(taken > 1500);
}

TEST_CASE("Garbage never crashes the reader") {
    const test::TempFolder folder;
    for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
        INFO("seed " << seed);
        sim::Random random(seed, "garbage");
        const std::string head = random.uniform() < 0.5 ? "unix_s,hopper_kg\n" : "";
        bool refused = false;
        work_through(folder.file("log.csv", head + garbage(random)), refused);
    }
}

TEST_CASE("Garbage never crashes the decompressor") {
    const test::TempFolder folder;
    for (std::uint64_t seed = 1; seed <= 500; ++seed) {
        INFO("seed " << seed);
        sim::Random random(seed, "packed garbage");
        // The frame's magic number (RFC 8878, 3.1.1), so that it gets past the door.
        bool refused = false;
        work_through(folder.file("log.csv.zst", "\x28\xB5\x2F\xFD" + garbage(random)), refused);
    }
}
