// A form for what was counted or measured in a field: its lines as they are typed, and what they come to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "input/key.hpp"
#include "kit/typed_line.hpp"
#include "text/text.hpp"
#include "typed/typed_rows.hpp"

namespace podrate::ui {

enum class EntryKind { tray, reading };

struct EntryLine {
    Text label;
    Text unit;  // Text::unit_none where it has none
    TypedLine line;
};

class EntryForm {
  public:
    // `at_us`: the time that is there to begin with. `fields`: names that a reading may be of, or another.
    EntryForm(EntryKind kind, const sim::Day& day, const std::string& machine, TimeUs at_us,
              const Speech& say);

    void type(char32_t sign);
    // Enter goes to the next line and behind the last one ends the form; Tab, up and down go between lines;
    // on a reading's field left and right go through the day's fields.
    void press(const KeyPress& press);

    // The form is done: tray() or reading() has something.
    [[nodiscard]] bool done() const { return done_; }
    [[nodiscard]] bool closed() const { return closed_; }
    [[nodiscard]] EntryKind kind() const { return kind_; }
    [[nodiscard]] const std::vector<EntryLine>& lines() const { return lines_; }
    [[nodiscard]] std::size_t active() const { return active_; }
    [[nodiscard]] const std::string& machine() const { return machine_; }
    // What is wrong, in words; empty where nothing is.
    [[nodiscard]] const std::string& refusal() const { return refusal_; }
    [[nodiscard]] const TypedTray& tray() const { return tray_; }
    [[nodiscard]] const sim::MaturityReading& reading() const { return reading_; }

  private:
    void finish();
    bool take_time(double& unix_s);
    bool take_number(std::size_t line, double low, double high, double& value);
    void next_field(int by);

    EntryKind kind_;
    Speech say_;
    std::string time_zone_;
    std::string machine_;
    std::vector<std::string> fields_;
    TimeUs near_us_;
    std::vector<EntryLine> lines_;
    std::size_t active_ = 0;
    std::string refusal_;
    bool done_ = false;
    bool closed_ = false;
    TypedTray tray_;
    sim::MaturityReading reading_;
};

}  // namespace podrate::ui
