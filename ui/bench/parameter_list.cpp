#include "bench/parameter_list.hpp"

#include <algorithm>

#include "bench/sections.hpp"

namespace podrate::ui {
namespace {

char small_letter(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool holds(const std::string& text, const std::string& part) {
    const auto alike = [](char a, char b) { return small_letter(a) == small_letter(b); };
    return std::search(text.begin(), text.end(), part.begin(), part.end(), alike) != text.end();
}

}  // namespace

ParameterList::ParameterList() {
    sift(EditedParameters(Parameters{}), {});
}

void ParameterList::sift(const EditedParameters& edited, const Speech& say) {
    rows_.clear();
    const std::vector<ParameterSection>& sections = parameter_sections();
    std::optional<std::size_t> nearest;
    for (std::size_t s = 0; s < sections.size(); ++s) {
        const bool whole = holds(say(sections[s].name), filter_);
        bool headed = false;
        for (std::size_t i = sections[s].from; i < sections[s].to; ++i) {
            if (changed_only_ && !edited.changed(i)) continue;
            if (!whole && !holds(kParameterTable[i].name, filter_)) continue;
            if (!headed) rows_.push_back({true, s});
            headed = true;
            rows_.push_back({false, i});
            // The last one at or before that which was chosen, or the first of all.
            if (!nearest || (chosen_ && i <= *chosen_)) nearest = i;
        }
    }
    chosen_ = nearest;
    follow_ = true;
}

void ParameterList::choose(std::size_t index) {
    chosen_ = index;
    follow_ = true;
}

std::size_t ParameterList::row_of_chosen() const {
    const auto found = std::find_if(rows_.begin(), rows_.end(),
                                    [this](const ListRow& row) { return !row.head && row.at == chosen_; });
    return static_cast<std::size_t>(found - rows_.begin());
}

void ParameterList::step(int by) {
    if (!chosen_) return;
    auto row = static_cast<int>(row_of_chosen());
    const int direction = by < 0 ? -1 : 1;
    const auto end = static_cast<int>(rows_.size());
    for (int to = row + direction; by != 0 && to >= 0 && to < end; to += direction) {
        if (rows_[static_cast<std::size_t>(to)].head) continue;
        row = to;
        by -= direction;
    }
    choose(rows_[static_cast<std::size_t>(row)].at);
}

std::size_t ParameterList::top(std::size_t room) {
    if (follow_ && chosen_ && room > 0) {
        const std::size_t row = row_of_chosen();
        // With the head of its section where it is the first there.
        const std::size_t upper = row > 0 && rows_[row - 1].head ? row - 1 : row;
        if (upper < top_) top_ = upper;
        if (row >= top_ + room) top_ = row + 1 - room;
    }
    follow_ = false;
    top_ = std::min(top_, rows_.size() > room ? rows_.size() - room : 0);
    return top_;
}

void ParameterList::scroll(int by_rows, std::size_t room) {
    const auto most = static_cast<int>(rows_.size() > room ? rows_.size() - room : 0);
    top_ = static_cast<std::size_t>(std::clamp(static_cast<int>(top_) + by_rows, 0, most));
}

}  // namespace podrate::ui
