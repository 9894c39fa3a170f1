// What happened in a day, as rows in the order of time: loads, stops, heaps, alarms, tray checks, readings.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/open_day.hpp"
#include "text/text.hpp"
#include "typed/typed_rows.hpp"

namespace podrate::ui {

enum class LedgerKind : std::uint8_t { load, stop, heap, alarm, tray, reading };
inline constexpr int kLedgerKinds = 6;

// "Loads", "Stops", ...
Text word_for(LedgerKind kind);

struct LedgerRow {
    LedgerKind kind = LedgerKind::load;
    std::optional<std::size_t> machine;  // in OpenDay; none for a field's reading
    TimeUs from_us = 0;
    TimeUs to_us = 0;    // as from_us where it is a moment
    std::string clock;   // "15:42"; with its date where that is another than the logs'
    std::string what;    // "Load 7", "Waiting to tip"
    std::string figure;  // "1.86 t ± 0.01", or empty
};

// All rows of all machines, and what has been typed in besides.
std::vector<LedgerRow> ledger_of(const OpenDay& day, const TypedRows& typed, const Speech& say);

// Which rows are seen, and which is chosen.
class LedgerWindow {
  public:
    // Chooses nothing any more. `machine`: whose rows are seen, beside those of no machine; none: all.
    // `from_us`: of the uppermost row on the screen.
    void fill(const std::vector<LedgerRow>& rows, std::optional<std::size_t> machine, TimeUs from_us);
    void toggle(LedgerKind kind);
    [[nodiscard]] bool seen(LedgerKind kind) const { return seen_[static_cast<std::size_t>(kind)]; }
    // Rows of a kind, seen or not.
    [[nodiscard]] int count(LedgerKind kind) const { return counts_[static_cast<std::size_t>(kind)]; }

    // Indices into the rows, in their order.
    [[nodiscard]] const std::vector<std::size_t>& shown() const { return shown_; }
    // Place in shown() of the uppermost row on the screen, where so many find room.
    [[nodiscard]] std::size_t top(std::size_t room) const;
    void scroll(int by_rows, std::size_t room);

    // Index into the rows.
    [[nodiscard]] std::optional<std::size_t> chosen() const { return chosen_; }
    void choose(std::size_t row);
    // By so many of those shown; to the first of them where none is chosen.
    void step(int by_rows);
    void choose_none() { chosen_.reset(); }

  private:
    void sift();

    std::array<bool, kLedgerKinds> seen_ = {true, true, true, true, true, true};
    std::array<int, kLedgerKinds> counts_{};
    std::vector<LedgerKind> kinds_;
    std::vector<bool> of_machine_;
    std::vector<std::size_t> shown_;
    std::optional<std::size_t> chosen_;
    std::size_t top_ = 0;
    bool follow_ = false;  // the chosen row is to be on the screen
};

}  // namespace podrate::ui
