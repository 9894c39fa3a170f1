// episodes.csv in a day's folder: what alarms had to tell, marked by hand.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "tune/truth.hpp"

namespace podrate::sim {

// Rows start_unix_s,end_unix_s,machine,alarm[,note], in any order; none where there is no such file. A row
// that can't be used is told in `problems` with its line and left out.
std::vector<Episode> read_marked_episodes(const std::filesystem::path& day_folder, const Day& day,
                                          Problems& problems);

// The first of a machine's that lie wholly outside of its log, and how many there are, as a sentence; empty
// where none does.
std::string marked_outside(const std::vector<Episode>& marked, const std::string& machine,
                           const std::filesystem::path& day_folder, double first_unix_s, double last_unix_s);

// They take the place of whatever else is known of the alarms that they name, on every machine of the day:
// who marks an alarm's times has looked at all of them.
void lay_marked_over(const std::vector<Episode>& marked, const std::string& machine, MachineTruth& truth);

}  // namespace podrate::sim
