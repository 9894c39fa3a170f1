// Fields: boundaries in WGS 84 and their area.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "geo/place.hpp"
#include "log/problem.hpp"

namespace podrate::sim {

struct Field {
    std::string name;
    std::vector<Ring> rings;  // outer rings and holes alike: even-odd
    double area_ha = 0.0;
    std::string sown;                           // YYYY-MM-DD, or empty
    std::optional<double> target_tenderometer;  // points
};

// Reads an RFC 7946 file of Polygon and MultiPolygon features. A feature that can't be used is reported and
// skipped; a file that is no JSON is reported as a whole.
std::vector<Field> read_fields(const std::filesystem::path& path, Problems& problems);

}  // namespace podrate::sim
