#include <zstd.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "log/number.hpp"
#include "sim/read_log.hpp"
#include "synth/write/log_writer.hpp"

using namespace podrate;
using sim::Column;

namespace {

// Rows whose digits wander, so that they do not compress to nothing.
std::string log_text(int rows) {
    std::string text = "unix_s,hopper_kg\n";
    std::uint64_t state = 99;
    for (int i = 0; i < rows; ++i) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        text += sim::fixed(1751032800.0 + i * 0.1, 1) + ',';
        text += sim::fixed(static_cast<double>(state >> 50) / 10.0, 1) + '\n';
    }
    return text;
}

std::string packed_fast(const std::string& text, int checksum) {
    ZSTD_CCtx* context = ZSTD_createCCtx();
    ZSTD_CCtx_setParameter(context, ZSTD_c_compressionLevel, 1);
    ZSTD_CCtx_setParameter(context, ZSTD_c_checksumFlag, checksum);
    std::string packed(ZSTD_compressBound(text.size()), '\0');
    const std::size_t size = ZSTD_compress2(context, packed.data(), packed.size(), text.data(), text.size());
    ZSTD_freeCCtx(context);
    REQUIRE_FALSE(ZSTD_isError(size));
    packed.resize(size);
    return packed;
}

bool same_rows(const test::ReadLog& a, const test::ReadLog& b, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        if (a.rows[i].time_us != b.rows[i].time_us) return false;
        if (a.rows[i][Column::hopper_kg] != b.rows[i][Column::hopper_kg]) return false;
    }
    return true;
}

}  // namespace

TEST_CASE("A compressed log gives the rows of the plain one") {
    const std::string text = log_text(5000);
    const test::ReadLog plain = test::read_log(text);
    const test::ReadLog packed = test::read_log(sim::compressed(text), "viner.csv.zst");
    REQUIRE(plain.rows.size() == 5000);
    REQUIRE(packed.rows.size() == 5000);
    CHECK(packed.problems.count() == 0);
    CHECK(same_rows(plain, packed, 5000));
}

TEST_CASE("No row is lost at the end of a compressed log whatever its length") {
    // Lengths about the decoder's blocks of 128 KiB and the reader's buffer of 256 KiB.
    const std::string text = log_text(45000);
    for (std::size_t bytes = 100000; bytes < 800000; bytes += 7351) {
        const std::string part = text.substr(0, text.find('\n', bytes) + 1);
        const auto rows = static_cast<std::size_t>(std::count(part.begin(), part.end(), '\n')) - 1;
        INFO(part.size() << " bytes");
        // With a checksum behind the last block and without one.
        for (const std::string& packed : {packed_fast(part, 0), packed_fast(part, 1)}) {
            const test::ReadLog log = test::read_log(packed, "viner.csv.zst");
            REQUIRE(log.rows.size() == rows);
            REQUIRE(log.problems.count() == 0);
        }
    }
}

TEST_CASE("Several compressed parts one after the other are one log") {
    const std::string text = log_text(4000);
    const std::size_t half = text.find('\n', text.size() / 2) + 1;
    const std::string packed = sim::compressed(text.substr(0, half)) + sim::compressed(text.substr(half));
    const test::ReadLog log = test::read_log(packed, "viner.csv.zst");
    CHECK(log.rows.size() == 4000);
    CHECK(log.problems.count() == 0);
}

TEST_CASE("A compressed log cut anywhere gives its first rows as they were and says that it was cut") {
    const std::string text = log_text(30000);
    const test::ReadLog full = test::read_log(text);
    const std::string packed = sim::compressed(text);
    std::size_t most = 0;
    for (std::size_t cut = 1; cut < packed.size(); cut += cut < 40 ? 1 : packed.size() / 60) {
        INFO("cut after " << cut << " of " << packed.size() << " bytes");
        try {
            const test::ReadLog log = test::read_log(packed.substr(0, cut), "viner.csv.zst");
            REQUIRE(log.rows.size() >= most);
            most = log.rows.size();
            REQUIRE(same_rows(log, full, log.rows.size()));
            bool told = false;
            for (const sim::Problem& p : log.problems.kept())
                told = told || p.reason == "the compressed file ends early";
            REQUIRE(told);
            REQUIRE(log.problems.faults() > 0);
        } catch (const sim::RefusedInput& refused) {
            // Cut before the first line was whole.
            REQUIRE(most == 0);
            REQUIRE(refused.problem().reason == "the compressed file ends early");
        }
    }
    CHECK(most > 20000);
}

TEST_CASE("A damaged compressed log never passes for a good one") {
    const std::string text = log_text(3000);
    const test::ReadLog full = test::read_log(text);
    const std::string packed = packed_fast(text, 1);
    for (std::size_t at = 0; at < packed.size(); at += at < 20 ? 1 : 97) {
        for (const int flip : {0x01, 0x80, 0xFF}) {
            INFO("byte " << at << " flipped by " << flip);
            std::string damaged = packed;
            damaged[at] = static_cast<char>(damaged[at] ^ flip);
            try {
                const test::ReadLog log = test::read_log(damaged, "viner.csv.zst");
                REQUIRE(log.rows.size() + log.rows_bad == log.rows_read);
                const bool whole =
                    log.rows.size() == full.rows.size() && same_rows(log, full, log.rows.size());
                REQUIRE((log.problems.faults() > 0 || whole));
            } catch (const sim::RefusedInput& refused) {
                REQUIRE_FALSE(refused.problem().mend.empty());
            }
        }
    }
}

TEST_CASE("A plain log named as a compressed one is refused as damaged") {
    const sim::Problem problem = test::refusal_of(log_text(10), "viner.csv.zst");
    CHECK(problem.reason.find("the compressed file is damaged") == 0);
}

TEST_CASE("An empty compressed log is refused as empty") {
    CHECK(test::refusal_of("", "viner.csv.zst").reason == "is empty");
    CHECK(test::refusal_of(sim::compressed(""), "viner.csv.zst").reason == "is empty");
}
