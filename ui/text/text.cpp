#include "text/text.hpp"

#include <cstddef>

#include "log/number.hpp"

namespace podrate::ui {
namespace {

struct TextRow {
    const char* in[kLanguages];
};

constexpr TextRow kTextTable[] = {
#define PODRATE_TEXT(name, english, german) {{english, german}},
#include "text/bench_texts.def"
#include "text/help_texts.def"
#include "text/simulator_texts.def"
#include "text/texts.def"
#undef PODRATE_TEXT
};

// A bit for each of {1} to {9}.
constexpr unsigned places_in(const char* words) {
    unsigned places = 0;
    for (; *words != '\0'; ++words) {
        if (words[0] == '{' && words[1] >= '1' && words[1] <= '9' && words[2] == '}')
            places |= 1U << static_cast<unsigned>(words[1] - '0');
    }
    return places;
}

constexpr bool table_is_whole() {
    for (const TextRow& row : kTextTable) {
        for (const char* words : row.in) {
            if (*words == '\0' || places_in(words) != places_in(row.in[0])) return false;
        }
    }
    return true;
}

static_assert(sizeof kTextTable / sizeof kTextTable[0] == kTexts);
static_assert(table_is_whole(), "a text is empty in a language, or its {1}, {2} differ");

}  // namespace

const char* text_of(Text text, Language language) {
    return kTextTable[static_cast<std::size_t>(text)].in[static_cast<std::size_t>(language)];
}

std::string Speech::operator()(Text text, std::initializer_list<std::string> parts) const {
    std::string filled;
    for (const char* at = text_of(text, language); *at != '\0'; ++at) {
        const auto place = static_cast<std::size_t>(at[0] == '{' ? at[1] - '1' : -1);
        if (place < parts.size() && at[2] == '}') {
            filled += parts.begin()[place];
            at += 2;
        } else {
            filled += *at;
        }
    }
    return filled;
}

std::string Speech::number(double value, int decimals) const {
    std::string figure = sim::fixed(value, decimals);
    if (language != Language::german) return figure;
    const std::size_t point = figure.find('.');
    if (point != std::string::npos) figure[point] = ',';
    return figure;
}

std::string Speech::percent(double share) const {
    return number(100.0 * share, 0) + " %";
}

std::string Speech::range(const std::string& low, const std::string& high) const {
    return (*this)(Text::range, {low, high});
}

}  // namespace podrate::ui
