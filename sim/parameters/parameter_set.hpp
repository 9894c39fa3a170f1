// A set of parameters that somebody made: what it names replaces a machine's own values, the rest stays.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "podrate/parameters.hpp"

namespace podrate::sim {

// One change: who made it, when, why, and from what.
struct SetEntry {
    std::string note;
    std::string who;
    std::int64_t unix_s = 0;
    std::string made_from;       // name of the earlier set, or of the machine whose values these were
    std::string made_from_mark;  // of its content, see mark_of()
};

struct ParameterSet {
    SetEntry made;                  // the newest change
    std::vector<SetEntry> history;  // those before it, the oldest first
    // In the table's order; empty: not named.
    std::array<std::optional<Real>, kParameterCount> values;

    [[nodiscard]] std::size_t named() const;
    void lay_over(Parameters& parameters) const;
};

// `base`, where there is one, with `made` for its newest change: still to be changed so.
ParameterSet set_after(const std::optional<ParameterSet>& base, const SetEntry& made);

// What differs between a machine's own values and those wanted, as a set without any entry.
ParameterSet set_between(const Parameters& own, const Parameters& wanted);

// 16 hexadecimal digits that tell contents apart: FNV-1a of 64 bits. A change of a single byte always shows.
std::string mark_of(std::string_view content);
// The same of all values of a block.
std::string mark_of(const Parameters& parameters);

// A key of an earlier parameter version that does not mean the same today.
struct ChangedKey {
    const char* key;
    std::uint32_t until_version;  // the last that had the other meaning
    const char* reason;
    const char* mend;
};
// nullptr where the key of that version means what it means now, or is not known at all.
const ChangedKey* changed_since(const std::string& key, std::uint32_t version);

}  // namespace podrate::sim
