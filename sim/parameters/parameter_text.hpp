// A parameter set as text: TOML that a person can read, sealed by a checksum in its first line.
#pragma once

#include <string>

#include "parameters/parameter_set.hpp"

namespace podrate::sim {

// `file`: its name, for messages. Throws RefusedInput, with line and mend, where the text is damaged, was
// changed without being sealed again, is of a newer parameter version, or names a key that is unknown, means
// something else by now, is no number or out of its range.
ParameterSet parse_parameter_set(const std::string& text, const std::string& file);

// What parse_parameter_set() reads.
std::string parameter_set_text(const ParameterSet& set);

// The same text with the checksum that fits it. Throws as parse_parameter_set() does, but for the checksum.
std::string sealed_again(const std::string& text, const std::string& file);

// The mark of the text behind its first line, which is what that line holds.
std::string mark_of_text(const std::string& text);

// "2026-06-27T05:40:00Z", ISO 8601.
std::string utc_text(std::int64_t unix_s);

}  // namespace podrate::sim
