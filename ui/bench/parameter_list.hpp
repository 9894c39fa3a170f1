// Which parameters are seen, and which of them is chosen: plain data, no drawing.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "bench/edited_parameters.hpp"
#include "text/text.hpp"

namespace podrate::ui {

struct ListRow {
    bool head = false;   // a section's name
    std::size_t at = 0;  // place in parameter_sections(), or in the parameter table
};

class ParameterList {
  public:
    ParameterList();

    // Only keys that hold the filter, or whose section does, whatever the case of its letters.
    void set_filter(std::string filter) { filter_ = std::move(filter); }
    [[nodiscard]] const std::string& filter() const { return filter_; }
    void set_changed_only(bool only) { changed_only_ = only; }
    [[nodiscard]] bool changed_only() const { return changed_only_; }
    // After either, or where parameters have changed. What is chosen stays where it is still seen.
    void sift(const EditedParameters& edited, const Speech& say);

    [[nodiscard]] const std::vector<ListRow>& rows() const { return rows_; }
    // Place in the parameter table; nothing where no parameter is seen.
    [[nodiscard]] std::optional<std::size_t> chosen() const { return chosen_; }
    void choose(std::size_t index);
    // By so many parameters, heads not counted.
    void step(int by);

    // The uppermost row on the screen, where so many find room.
    [[nodiscard]] std::size_t top(std::size_t room);
    void scroll(int by_rows, std::size_t room);

  private:
    [[nodiscard]] std::size_t row_of_chosen() const;

    std::string filter_;
    bool changed_only_ = false;
    std::vector<ListRow> rows_;
    std::optional<std::size_t> chosen_ = 0;
    std::size_t top_ = 0;
    bool follow_ = true;  // the chosen row is to be on the screen
};

}  // namespace podrate::ui
