// The tables that tests/accuracy prints.
#pragma once

#include <filesystem>

namespace podrate::accuracy {

// How well the estimator does over seeds 1 to `seeds` of a scenario; `hours`: instead of the scenario's where
// positive. False where a mean misses what is aimed at.
bool print_seeds(const std::filesystem::path& scenario, std::uint64_t seeds, double hours);

// What each single fault does to a scenario's day. False where one is beyond what is aimed at.
bool print_faults(const std::filesystem::path& scenario, std::uint64_t seeds);

// How well the loss is known from weight and speed, with trays, with a sensor; the speed advised, the alarm.
void print_losses(const std::filesystem::path& scenario, std::uint64_t seeds, double hours);

// The loss of a gang's machines, live and looked back at.
void print_gang_losses(const std::filesystem::path& scenario, std::uint64_t seeds, double hours);

// How often the forecast's intervals hold what a gang's day then brings. False where the 90 % interval holds
// fewer than 85 or more than 95 of 100 days; fewer days are given what chance does to them.
bool print_plan(const std::filesystem::path& scenario, std::uint64_t seeds, double hours);

}  // namespace podrate::accuracy
