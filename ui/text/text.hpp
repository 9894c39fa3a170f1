// The one table of words, and filling them in.
#pragma once

#include <initializer_list>
#include <string>

namespace podrate::ui {

enum class Language { english, german };
inline constexpr int kLanguages = 2;

enum class Units { metric, us };

enum class Text {
#define PODRATE_TEXT(name, english, german) name,
#include "text/bench_texts.def"
#include "text/help_texts.def"
#include "text/simulator_texts.def"
#include "text/texts.def"
#undef PODRATE_TEXT
};
#define PODRATE_TEXT(name, english, german) +1
inline constexpr int kTexts = 0
#include "text/bench_texts.def"
#include "text/help_texts.def"
#include "text/simulator_texts.def"
#include "text/texts.def"
    ;
#undef PODRATE_TEXT

// As it stands in the table, with {1} and {2} where something is to be filled in.
const char* text_of(Text text, Language language);

// How the program speaks: given to all who make words or figures.
struct Speech {
    Language language = Language::english;
    Units units = Units::metric;

    std::string operator()(Text text, std::initializer_list<std::string> parts = {}) const;

    // With that many decimals and the language's decimal sign; no signs between thousands.
    [[nodiscard]] std::string number(double value, int decimals) const;
    // A share of 1: "15 %".
    [[nodiscard]] std::string percent(double share) const;
    [[nodiscard]] std::string range(const std::string& low, const std::string& high) const;
};

}  // namespace podrate::ui
