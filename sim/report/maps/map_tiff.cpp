#include "report/maps/map_tiff.hpp"

#include <tiffio.h>
#include <tiffio.hxx>

#include <algorithm>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <vector>

#include "log/number.hpp"

namespace podrate::sim {
namespace {

constexpr std::uint64_t kMostPixels = 2'000'000;
constexpr int kBands = 8;
constexpr std::uint32_t kRowsPerStrip = 64;

// Of OGC 19-008r4 and GDAL's own two, which LibTIFF does not know of itself.
enum GeoTag : ttag_t {
    kPixelScale = 33550,
    kTiepoint = 33922,
    kGeoKeys = 34735,
    kGdalMetadata = 42112,
    kGdalNoData = 42113
};

struct Frame {
    std::int32_t west = std::numeric_limits<std::int32_t>::max();  // columns and rows of cells
    std::int32_t east = std::numeric_limits<std::int32_t>::min();
    std::int32_t south = std::numeric_limits<std::int32_t>::max();
    std::int32_t north = std::numeric_limits<std::int32_t>::min();
    [[nodiscard]] std::uint32_t width() const { return static_cast<std::uint32_t>(east - west + 1); }
    [[nodiscard]] std::uint32_t height() const { return static_cast<std::uint32_t>(north - south + 1); }
};

Frame frame_of(const DayMap& map) {
    Frame frame;
    for (const MapCell& cell : map.cells) {
        frame.west = std::min(frame.west, cell.place.column);
        frame.east = std::max(frame.east, cell.place.column);
        frame.south = std::min(frame.south, cell.place.row);
        frame.north = std::max(frame.north, cell.place.row);
    }
    return frame;
}

std::vector<float> pixels_of(const DayMap& map, const Frame& frame) {
    std::vector<float> pixels(std::size_t{frame.width()} * frame.height() * kBands,
                              std::numeric_limits<float>::quiet_NaN());
    for (const MapCell& cell : map.cells) {
        const auto down = static_cast<std::size_t>(frame.north - cell.place.row);
        const auto along = static_cast<std::size_t>(cell.place.column - frame.west);
        float* bands = &pixels[(down * frame.width() + along) * kBands];
        if (cell.told(map.cell_m)) {
            bands[0] = static_cast<float>(cell.yield_tpha());
            bands[1] = static_cast<float>(cell.yield_sd_tpha());
            bands[4] = static_cast<float>(cell.lost_kg_per_ha());
            bands[5] = static_cast<float>(cell.lost_sd_kg_per_ha());
        }
        if (cell.cut_m2 > 0.0) {
            bands[6] = static_cast<float>(cell.harvested_kg);
            bands[7] = static_cast<float>(cell.lost_kg);
        }
        if (cell.surface_kgpm2) {
            bands[2] = static_cast<float>(10.0 * *cell.surface_kgpm2);
            bands[3] = static_cast<float>(10.0 * cell.surface_sd_kgpm2);
        }
    }
    return pixels;
}

void know_tags(TIFF* tiff) {
    static constexpr auto kAny = static_cast<short>(TIFF_VARIABLE);
    const auto field = [](ttag_t tag, TIFFDataType type, unsigned char counted, const char* name) {
        return TIFFFieldInfo{tag, kAny, kAny, type, FIELD_CUSTOM, 1, counted, const_cast<char*>(name)};
    };
    const TIFFFieldInfo fields[] = {field(kPixelScale, TIFF_DOUBLE, 1, "GeoPixelScale"),
                                    field(kTiepoint, TIFF_DOUBLE, 1, "GeoTiePoints"),
                                    field(kGeoKeys, TIFF_SHORT, 1, "GeoKeyDirectory"),
                                    field(kGdalMetadata, TIFF_ASCII, 0, "GDALMetadata"),
                                    field(kGdalNoData, TIFF_ASCII, 0, "GDALNoDataValue")};
    TIFFMergeFieldInfo(tiff, fields, static_cast<std::uint32_t>(std::size(fields)));
}

// The bands' names, and for the sums what no cell holds.
std::string metadata(const DayMap& map) {
    static constexpr const char* kNames[kBands] = {"yield, t/ha",
                                                   "yield, sd, t/ha",
                                                   "surface, t/ha",
                                                   "surface, sd, t/ha",
                                                   "left on the ground, kg/ha",
                                                   "left on the ground, sd, kg/ha",
                                                   "harvested in the cell, kg",
                                                   "lost in the cell, kg"};
    std::string xml = "<GDALMetadata>";
    for (int i = 0; i < kBands; ++i)
        xml += "<Item name=\"DESCRIPTION\" sample=\"" + std::to_string(i) + "\" role=\"description\">" +
               kNames[i] + "</Item>";
    return xml + "<Item name=\"UNPLACED_KG\">" + fixed(map.unplaced_kg, 3) +
           "</Item><Item name=\"UNPLACED_LOST_KG\">" + fixed(map.unplaced_lost_kg, 3) +
           "</Item></GDALMetadata>";
}

void place_on_plane(TIFF* tiff, const DayMap& map, const Frame& frame) {
    const double scale[] = {map.cell_m, map.cell_m, 0.0};
    const double tie[] = {0.0, 0.0, 0.0, frame.west * map.cell_m, (frame.north + 1) * map.cell_m, 0.0};
    // Version 1.1, three keys: a projected plane, a pixel is an area, the plane's EPSG number.
    const auto epsg = static_cast<std::uint16_t>(map.plane.epsg());
    const std::uint16_t keys[] = {1, 1, 1, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, epsg};
    TIFFSetField(tiff, kPixelScale, 3, scale);
    TIFFSetField(tiff, kTiepoint, 6, tie);
    TIFFSetField(tiff, kGeoKeys, static_cast<int>(std::size(keys)), keys);
    TIFFSetField(tiff, kGdalMetadata, metadata(map).c_str());
    TIFFSetField(tiff, kGdalNoData, "nan");
}

}  // namespace

std::string map_tiff(const DayMap& map) {
    if (map.cells.empty()) return {};
    const Frame frame = frame_of(map);
    if (std::uint64_t{frame.width()} * frame.height() > kMostPixels) return {};
    std::vector<float> pixels = pixels_of(map, frame);
    std::ostringstream bytes;
    TIFF* tiff = TIFFStreamOpen("map.tif", &bytes);
    if (tiff == nullptr) throw std::runtime_error("LibTIFF makes no file");
    know_tags(tiff);
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, frame.width());
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, frame.height());
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, kBands);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 32);
    TIFFSetField(tiff, TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_IEEEFP);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_MINISBLACK);
    const std::vector<std::uint16_t> not_alpha(kBands - 1, EXTRASAMPLE_UNSPECIFIED);
    TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, kBands - 1, not_alpha.data());
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_ADOBE_DEFLATE);
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, kRowsPerStrip);
    place_on_plane(tiff, map, frame);
    bool good = true;
    for (std::uint32_t row = 0; row < frame.height(); ++row)
        good =
            TIFFWriteScanline(tiff, &pixels[std::size_t{row} * frame.width() * kBands], row, 0) == 1 && good;
    TIFFClose(tiff);
    if (!good) throw std::runtime_error("LibTIFF does not write");
    return bytes.str();
}

}  // namespace podrate::sim
