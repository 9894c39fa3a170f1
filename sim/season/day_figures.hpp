// What a season keeps of a day.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

enum class DayUse : std::uint8_t {
    whole,
    in_part,  // something of it had to be left out
    broken,   // nothing of it could be used
    repeated  // the same logs stand in another day, which counts
};

// "whole", "in part", "broken", "repeated".
const char* name_of(DayUse use);

struct SeasonMachine {
    std::string id;
    bool usable = false;
    double harvested_kg = 0.0;
    double harvested_sd_kg = 0.0;
    double area_m2 = 0.0;  // width times distance with the reel on
    double lost_kg = 0.0;
    double lost_sd_kg = 0.0;
    double harvesting_s = 0.0;
    std::uint64_t rows = 0;
    std::uint64_t loads = 0;
    std::int64_t first_us = 0;
    std::int64_t last_us = 0;
};

struct SeasonField {
    std::string name;
    bool bounded = false;     // has a boundary, and so the same name on every day
    bool elsewhere = false;   // no field
    double covered_m2 = 0.0;  // ground counted once
};

// What a machine took from a field.
struct SeasonShare {
    std::uint64_t machine = 0;  // of the day's machines
    std::uint64_t field = 0;    // of the day's fields
    double harvested_kg = 0.0;
    double swept_m2 = 0.0;
    double lost_kg = 0.0;
    double lost_sd_kg = 0.0;  // doubt that machines and fields share
    double harvesting_s = 0.0;
    double in_field_s = 0.0;
};

struct DayFigures {
    std::string folder;  // as it was given
    std::string label;
    std::string date;    // YYYY-MM-DD
    std::string reason;  // why it is not whole; empty where it is
    DayUse use = DayUse::broken;
    std::optional<double> planned_t;
    std::vector<SeasonMachine> machines;
    std::vector<SeasonField> fields;
    std::vector<SeasonShare> shares;

    [[nodiscard]] bool counts() const { return use == DayUse::whole || use == DayUse::in_part; }
    [[nodiscard]] std::int64_t first_us() const;  // 0 where no machine is usable
};

// Of a day worked through and looked back at (analysis/whole_day), with a usable machine.
DayFigures day_figures(const Day& day, const DayResult& result);

// As a JSON document and back, to the last bit. Reading throws where it is no such document.
std::string day_figures_json(const DayFigures& figures, const std::string& stamp);
DayFigures read_day_figures(const std::string& text, std::string& stamp);

}  // namespace podrate::sim
