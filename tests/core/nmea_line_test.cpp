// Sentences found in a stream of bytes.
#include "podrate/bus/nmea_line.hpp"

#include <catch2/catch.hpp>
#include <cstdio>

using namespace podrate::bus;
using Got = NmeaLine::Got;

namespace {

struct Found {
    std::vector<std::string> sentences;
    int broken = 0;
};

Found found_in(const std::string& stream) {
    Found found;
    NmeaLine line;
    for (const char c : stream) {
        const Got got = line.put(static_cast<std::uint8_t>(c));
        if (got == Got::sentence)
            found.sentences.emplace_back(line.text(), static_cast<std::size_t>(line.length()));
        if (got == Got::broken) ++found.broken;
    }
    return found;
}

std::string with_checksum(const std::string& text) {
    unsigned sum = 0;
    for (const char c : text) sum ^= static_cast<unsigned char>(c);
    char end[8];
    std::snprintf(end, sizeof end, "*%02X\r\n", sum);
    return "$" + text + end;
}

const std::string kGga = "GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,";

}  // namespace

TEST_CASE("A published sentence is found") {
    const Found found = found_in("$" + kGga + "*47\r\n");
    CHECK(found.broken == 0);
    REQUIRE(found.sentences.size() == 1);
    CHECK(found.sentences[0] == kGga);
    CHECK(with_checksum(kGga) == "$" + kGga + "*47\r\n");
}

TEST_CASE("Line ends of any kind end a sentence") {
    for (const char* const end : {"\r\n", "\n", "\r"}) {
        const Found found = found_in("$" + kGga + "*47" + end + "$" + kGga + "*47" + end);
        CHECK(found.sentences.size() == 2);
        CHECK(found.broken == 0);
    }
}

TEST_CASE("Checksums in small letters are taken and wrong ones are not") {
    CHECK(found_in("$GPVTG,,,,,,,,,N*30\r\n").sentences.size() == 1);
    const std::string other = "$GPGLL,4916.45,N,12311.12,W,225444,A*31\r\n";
    CHECK(found_in(other).sentences.size() == 1);
    CHECK(found_in("$abcdefgh*08\n").sentences.size() == 1);
    CHECK(found_in("$jz*10\n").sentences.size() == 1);
    CHECK(found_in("$!K*6a\n").sentences.size() == 1);
    CHECK(found_in("$!K*6A\n").sentences.size() == 1);
    for (const char* const bad : {"*46\r\n", "*4\r\n", "*4G\r\n", "*\r\n", "\r\n", "*471\r\n", "*47 \r\n"}) {
        INFO(bad);
        const Found found = found_in("$" + kGga + bad);
        CHECK(found.sentences.empty());
        CHECK(found.broken == 1);
    }
}

TEST_CASE("Each bit flipped is noticed") {
    const std::string sentence = "$" + kGga + "*47\r\n";
    for (std::size_t at = 1; at + 2 < sentence.size(); ++at) {
        for (int bit = 0; bit < 8; ++bit) {
            std::string spoilt = sentence;
            spoilt[at] = static_cast<char>(spoilt[at] ^ (1 << bit));
            INFO(spoilt);
            CHECK(found_in(spoilt).sentences.empty());
        }
    }
}

TEST_CASE("A sentence cut by the next is broken and the next is whole") {
    const Found found = found_in("PGGA,99*11\r\n$GPGGA,12$" + kGga + "*47\r\n");
    CHECK(found.broken == 1);
    CHECK(found.sentences.size() == 1);
}

TEST_CASE("Sentences a little longer than the standard allows are taken and longer ones are not") {
    // With $, * and two digits 120 characters.
    const std::string longest = "GPTXT," + std::string(110, 'x');
    CHECK(found_in(with_checksum(longest)).sentences.size() == 1);
    const Found longer = found_in(with_checksum(longest + "x"));
    CHECK(longer.sentences.empty());
    CHECK(longer.broken == 1);
    const Found endless = found_in("$" + std::string(100000, 'x') + with_checksum(kGga));
    CHECK(endless.broken == 1);
    CHECK(endless.sentences.size() == 1);
}

TEST_CASE("Bytes that are no characters break a sentence") {
    for (int byte = 0; byte < 256; ++byte) {
        if (byte == '$' || byte == '*') continue;
        const std::string text = std::string("GP") + static_cast<char>(byte) + "GA";
        const bool printable = byte >= 0x20 && byte <= 0x7E;
        INFO("byte " << byte);
        CHECK(found_in(with_checksum(text)).sentences.size() == (printable ? 1 : 0));
    }
    CHECK(found_in("!AIVDM,1,1,,A,13aG?P0P00PD;88MD5MTDww@2<0L,0*23\r\n").sentences.empty());
    CHECK(sizeof(NmeaLine) <= 124);
}
