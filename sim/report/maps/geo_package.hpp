// An OGC GeoPackage under way: layers of points and polygons on one plane, in memory.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "geo/utm_plane.hpp"
#include "podrate/sample.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace podrate::sim {

enum class LayerKind { points, polygons };

struct LayerColumn {
    const char* name;
    const char* type;  // of GeoPackage: "TEXT", "REAL", "INTEGER"
};

// A value of a column: nothing, a number or words.
struct LayerValue {
    std::optional<double> number;
    std::optional<std::string> words;
};

class GeoPackage {
  public:
    // `made_us`: the time that its contents are said to be of.
    GeoPackage(const UtmPlane& plane, TimeUs made_us);
    ~GeoPackage();
    GeoPackage(const GeoPackage&) = delete;
    GeoPackage& operator=(const GeoPackage&) = delete;

    // Rows that follow go there. Names are identifiers of ours, never of the day's.
    void begin_layer(const std::string& name, const std::string& description, LayerKind kind,
                     const std::vector<LayerColumn>& columns);
    void add(const std::vector<EastNorth>& corners, const std::vector<LayerValue>& values);
    void end_layer();

    // The file's bytes.
    [[nodiscard]] std::string bytes();

  private:
    void run(const std::string& sql);
    [[noreturn]] void fail() const;
    sqlite3* base_ = nullptr;
    sqlite3_stmt* insert_ = nullptr;
    int epsg_;
    std::string made_at_;
    std::string layer_;
    LayerKind kind_ = LayerKind::points;
    std::array<double, 4> box_{};  // west, south, east, north
    bool any_ = false;
};

}  // namespace podrate::sim
