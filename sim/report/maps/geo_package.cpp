#include "report/maps/geo_package.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <cstring>
#include <stdexcept>

#include "day/local_time.hpp"
#include "log/number.hpp"
#include "report/maps/plane_wkt.hpp"

namespace podrate::sim {
namespace {

// OGC 12-128r17 (GeoPackage 1.3.1): "GPKG", version 1.3.0, and the tables that each must have.
constexpr const char* kHead = R"sql(
PRAGMA application_id = 1196444487;
PRAGMA user_version = 10300;
CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY,
  organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
CREATE TABLE gpkg_contents (table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '', last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL,
  geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name), CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
INSERT INTO gpkg_spatial_ref_sys VALUES
  ('Undefined cartesian SRS', -1, 'NONE', -1, 'undefined', 'undefined cartesian coordinate reference system'),
  ('Undefined geographic SRS', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system');
)sql";

std::string quoted_sql(const std::string& text) {
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("''") : std::string(1, c);
    return out + "'";
}

template <class T>
void append_bytes(std::string& to, T value) {
    char bytes[sizeof(T)];
    std::memcpy(bytes, &value, sizeof(T));
    to.append(bytes, sizeof(T));
}

void append_corner_bytes(std::string& to, EastNorth corner) {
    append_bytes(to, corner.east_m);
    append_bytes(to, corner.north_m);
}

// Header of GeoPackage and WKB, both little-endian as the processors are that this runs on.
std::string geometry(LayerKind kind, int epsg, const std::vector<EastNorth>& corners,
                     const std::array<double, 4>& box) {
    constexpr char kLittle = 1;
    constexpr char kWithBox = 1 << 1;
    std::string blob = {'G', 'P', 0,
                        kind == LayerKind::polygons ? static_cast<char>(kLittle | kWithBox) : kLittle};
    append_bytes(blob, static_cast<std::int32_t>(epsg));
    if (kind == LayerKind::polygons) {
        for (const int i : {0, 2, 1, 3}) append_bytes(blob, box[static_cast<std::size_t>(i)]);
    }
    blob += kLittle;
    append_bytes(blob, static_cast<std::uint32_t>(kind == LayerKind::polygons ? 3 : 1));
    if (kind == LayerKind::points) {
        append_corner_bytes(blob, corners.front());
        return blob;
    }
    append_bytes(blob, std::uint32_t{1});
    append_bytes(blob, static_cast<std::uint32_t>(corners.size() + 1));
    for (const EastNorth& corner : corners) append_corner_bytes(blob, corner);
    append_corner_bytes(blob, corners.front());
    return blob;
}

std::array<double, 4> box_of(const std::vector<EastNorth>& corners) {
    std::array<double, 4> box = {corners.front().east_m, corners.front().north_m, corners.front().east_m,
                                 corners.front().north_m};
    for (const EastNorth& c : corners) {
        box = {std::min(box[0], c.east_m), std::min(box[1], c.north_m), std::max(box[2], c.east_m),
               std::max(box[3], c.north_m)};
    }
    return box;
}

}  // namespace

GeoPackage::GeoPackage(const UtmPlane& plane, TimeUs made_us) : epsg_(plane.epsg()) {
    const LocalTime utc = local_time(made_us, "Etc/UTC");
    made_at_ = utc.date + 'T' + utc.hh_mm() + ':' + utc.ss() + ".000Z";
    if (sqlite3_open(":memory:", &base_) != SQLITE_OK) fail();
    run(kHead);
    run("INSERT INTO gpkg_spatial_ref_sys VALUES ('WGS 84', 4326, 'EPSG', 4326, " + quoted_sql(kWgs84Wkt) +
        ", NULL), (" + quoted_sql(plane.name()) + ", " + std::to_string(epsg_) + ", 'EPSG', " +
        std::to_string(epsg_) + ", " + quoted_sql(plane_wkt(plane)) + ", NULL)");
    run("BEGIN");
}

GeoPackage::~GeoPackage() {
    sqlite3_finalize(insert_);
    sqlite3_close(base_);
}

void GeoPackage::fail() const {
    throw std::runtime_error(std::string("SQLite: ") + sqlite3_errmsg(base_));
}

void GeoPackage::run(const std::string& sql) {
    if (sqlite3_exec(base_, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail();
}

void GeoPackage::begin_layer(const std::string& name, const std::string& description, LayerKind kind,
                             const std::vector<LayerColumn>& columns) {
    layer_ = name;
    kind_ = kind;
    any_ = false;
    const std::string type = kind == LayerKind::polygons ? "POLYGON" : "POINT";
    std::string table =
        "CREATE TABLE " + name + " (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom " + type;
    std::string insert = "INSERT INTO " + name + " VALUES (NULL, ?";
    for (const LayerColumn& column : columns) {
        table += std::string(", ") + column.name + ' ' + column.type;
        insert += ", ?";
    }
    run(table + ")");
    run("INSERT INTO gpkg_contents VALUES ('" + name + "', 'features', '" + name + "', " +
        quoted_sql(description) + ", '" + made_at_ + "', NULL, NULL, NULL, NULL, " + std::to_string(epsg_) +
        ")");
    run("INSERT INTO gpkg_geometry_columns VALUES ('" + name + "', 'geom', '" + type + "', " +
        std::to_string(epsg_) + ", 0, 0)");
    insert += ")";
    if (sqlite3_prepare_v2(base_, insert.c_str(), -1, &insert_, nullptr) != SQLITE_OK) fail();
}

void GeoPackage::add(const std::vector<EastNorth>& corners, const std::vector<LayerValue>& values) {
    sqlite3_reset(insert_);
    sqlite3_clear_bindings(insert_);
    std::string blob;
    if (!corners.empty()) {
        const std::array<double, 4> box = box_of(corners);
        blob = geometry(kind_, epsg_, corners, box);
        if (!any_) box_ = box;
        any_ = true;
        box_ = {std::min(box_[0], box[0]), std::min(box_[1], box[1]), std::max(box_[2], box[2]),
                std::max(box_[3], box[3])};
        sqlite3_bind_blob(insert_, 1, blob.data(), static_cast<int>(blob.size()), SQLITE_STATIC);
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        const int at = static_cast<int>(i) + 2;
        if (values[i].number) sqlite3_bind_double(insert_, at, *values[i].number);
        if (values[i].words)
            sqlite3_bind_text(insert_, at, values[i].words->data(), static_cast<int>(values[i].words->size()),
                              SQLITE_STATIC);
    }
    if (sqlite3_step(insert_) != SQLITE_DONE) fail();
}

void GeoPackage::end_layer() {
    sqlite3_finalize(insert_);
    insert_ = nullptr;
    if (!any_) return;
    run("UPDATE gpkg_contents SET min_x = " + fixed(box_[0], 3) + ", min_y = " + fixed(box_[1], 3) +
        ", max_x = " + fixed(box_[2], 3) + ", max_y = " + fixed(box_[3], 3) + " WHERE table_name = '" +
        layer_ + "'");
}

std::string GeoPackage::bytes() {
    run("COMMIT");
    sqlite3_int64 size = 0;
    unsigned char* pages = sqlite3_serialize(base_, "main", &size, 0);
    if (pages == nullptr) fail();
    std::string file(reinterpret_cast<const char*>(pages), static_cast<std::size_t>(size));
    sqlite3_free(pages);
    return file;
}

}  // namespace podrate::sim
