#include "report/loss_statement.hpp"

#include <array>

#include "log/number.hpp"
#include "report/loss_figures.hpp"

namespace podrate::sim {
namespace {

constexpr double kHardlyVaried = 0.05;  // sd of ln(speed): weight and speed then tell nothing of the drum
constexpr double kNothingKg = 20.0;     // no more than a scale's own unrest
constexpr double kFinePoints = 3.0;     // ranges narrower than that are worth a decimal
constexpr int kFewTrays = 3;

std::string range_text(const Share& share, const char* between) {
    const double low_pct = 100.0 * static_cast<double>(share.low);
    const double high_pct = 100.0 * static_cast<double>(share.high);
    const int decimals = high_pct - low_pct < kFinePoints ? 1 : 0;
    return fixed(low_pct, decimals) + between + fixed(high_pct, decimals) + " %";
}

std::string count_word(int count) {
    static constexpr std::array<const char*, 13> kWords = {"No",   "One",    "Two",   "Three", "Four",
                                                           "Five", "Six",    "Seven", "Eight", "Nine",
                                                           "Ten",  "Eleven", "Twelve"};
    const auto index = static_cast<std::size_t>(count);
    return index < kWords.size() ? kWords[index] : std::to_string(count);
}

// How far the run has narrowed what is commonly known of a drum: loss_learnt 0 is nothing, 1 all.
const char* narrowing_words(double learnt) {
    if (learnt < 0.05) return "no narrower than what is common";
    if (learnt < 0.2) return "hardly narrower than what is common";
    if (learnt < 0.5) return "somewhat narrower than what is common";
    return "much narrower than what is common";
}

std::string from_trays(const MachineResult& m, const LossShares& parts) {
    const int trays = m.last.tray_checks;
    std::string text = count_word(trays) + (trays == 1 ? " tray check" : " tray checks") +
                       (m.last.loss_sensor ? " and the loss sensor: " : ": ") +
                       range_text(parts.total, " to ") + " of the crop lost, " +
                       range_text(parts.drum, " to ") + " in the drum and " +
                       range_text(parts.picking, " to ") + " by the reel.";
    if (trays < kFewTrays) text += " More checks narrow that.";
    return text;
}

std::string without_trays(const MachineResult& m, const LossShares& parts) {
    const auto spread = static_cast<double>(m.last.speed_spread);
    std::string text;
    if (spread < kHardlyVaried) {
        text = "Speed hardly varied and no peas were counted on the ground: loss unknown between " +
               range_text(parts.total, " and ") + ".";
    } else {
        text = "From weight and speed alone, which varied by " + fixed(100.0 * spread, 0) +
               " %: drum loss between " + range_text(parts.drum, " and ") + ", " +
               narrowing_words(static_cast<double>(m.last.loss_learnt)) +
               ". Picking loss is not known: only peas counted on the ground tell it.";
    }
    if (m.last.loss_sensor)
        text += " The loss sensor tells where the drum lost more or less, not how much: that takes a count.";
    return text;
}

}  // namespace

std::string loss_statement(const MachineResult& m) {
    if (!m.usable) return {};
    if (m.lost.collected_kg <= Real(0)) {
        return static_cast<double>(m.last.harvested_kg) < kNothingKg
                   ? "Nothing was cut, so nothing was lost."
                   : "Peas came, but no speed was logged with the reel on: the loss can't be told from that.";
    }
    const LossShares parts = loss_parts(m);
    std::string text = m.last.tray_checks > 0 ? from_trays(m, parts) : without_trays(m, parts);
    if (m.last.fold > Real(1))
        text +=
            " At the end it drove so fast that more speed brought fewer peas: slower would have brought "
            "more.";
    return text;
}

}  // namespace podrate::sim
