#include "report/taskdata/device_xml.hpp"

#include <cmath>
#include <cstdio>

#include "log/number.hpp"
#include "podrate/retained/crc32.hpp"
#include "podrate/version.hpp"
#include "report/taskdata/boundary.hpp"
#include "report/taskdata/data_entries.hpp"

namespace podrate::sim {
namespace {

// Labels of a device's structure and language, 7 bytes each; the second: English, metric (from memory).
constexpr const char* kStructureLabel = "50524431303031";
constexpr const char* kLocalizationLabel = "FF000000006E65";

// Object ids within a device.
constexpr std::size_t kFirstElement = 1;
constexpr std::size_t kFirstValue = 11;
constexpr std::size_t kFirstPresentation = 41;

struct ElementKind {
    int type;  // 1 device, 2 function, 3 bin
    const char* name;
};
constexpr ElementKind kElementKinds[kTaskElements] = {{1, "Viner"}, {2, "Reel"}, {3, "Hopper"}};

// A NAME as ISO 11783-5 lays it out (from memory): agriculture, harvesters, no maker, function not told; the
// identity number is the id's, so a machine keeps its NAME from day to day.
std::string client_name(const std::string& id) {
    constexpr std::uint64_t kSelfConfigurable = 1ULL << 63U;
    constexpr std::uint64_t kAgriculture = 2ULL << 60U;
    constexpr std::uint64_t kHarvesters = 7ULL << 49U;
    constexpr std::uint64_t kFunctionNotTold = 255ULL << 40U;
    std::uint32_t crc = 0;
    for (const char c : id) {
        const auto byte = static_cast<std::uint8_t>(c);
        crc = crc32(&byte, 1, crc);
    }
    const std::uint64_t name =
        kSelfConfigurable | kAgriculture | kHarvesters | kFunctionNotTold | (crc & 0x1FFFFFU);
    char text[20];
    std::snprintf(text, sizeof text, "%016llX", static_cast<unsigned long long>(name));
    return text;
}

void set(pugi::xml_node node, const char* attribute, const std::string& value) {
    node.append_attribute(attribute).set_value(value.c_str());
}

void set(pugi::xml_node node, const char* attribute, std::size_t value) {
    set(node, attribute, std::to_string(value));
}

void add_element(pugi::xml_node device, std::size_t index, TaskElement element, const std::string& name) {
    const auto number = static_cast<std::size_t>(element);
    pugi::xml_node node = device.append_child("DET");
    set(node, "A", element_id(index, element));
    set(node, "B", kFirstElement + number);
    set(node, "C", std::to_string(kElementKinds[number].type));
    set(node, "D", name);
    set(node, "E", number);
    set(node, "F", element == TaskElement::viner ? std::size_t{0} : kFirstElement);
    for (std::size_t i = 0; i < kDataEntries.size(); ++i) {
        if (kDataEntries[i].element == element) set(node.append_child("DOR"), "A", kFirstValue + i);
    }
}

void add_ring(pugi::xml_node polygon, const Ring& ring, const char* type) {
    constexpr int kDecimals = 9;  // a tenth of a millimetre
    pugi::xml_node line = polygon.append_child("LSG");
    set(line, "A", type);
    const auto add_corner = [&line](LatLon corner) {
        pugi::xml_node point = line.append_child("PNT");
        set(point, "A", "2");
        set(point, "C", fixed(corner.lat_deg, kDecimals));
        set(point, "D", fixed(corner.lon_deg, kDecimals));
    };
    for (const LatLon& corner : ring) add_corner(corner);
    add_corner(ring.front());
}

}  // namespace

void add_device(pugi::xml_node root, std::size_t index, const Machine& machine) {
    pugi::xml_node device = root.append_child("DVC");
    set(device, "A", device_id(index));
    set(device, "B", designator(machine.id));
    set(device, "C", std::string("podrate ") + kVersion);
    set(device, "D", client_name(machine.id));
    set(device, "F", kStructureLabel);
    set(device, "G", kLocalizationLabel);
    add_element(device, index, TaskElement::viner, designator(machine.id));
    for (const TaskElement element : {TaskElement::reel, TaskElement::hopper})
        add_element(device, index, element, kElementKinds[static_cast<std::size_t>(element)].name);
    for (std::size_t i = 0; i < kDataEntries.size(); ++i) {
        const DataEntry& entry = kDataEntries[i];
        pugi::xml_node value = device.append_child("DPD");
        set(value, "A", kFirstValue + i);
        set(value, "B", hex_ddi(entry));
        set(value, "C", entry.total ? "0" : "1");   // of the default set
        set(value, "D", entry.total ? "16" : "9");  // a total; by time and on change
        set(value, "E", entry.name);
        set(value, "F", kFirstPresentation + i);
    }
    for (std::size_t i = 0; i < kDataEntries.size(); ++i) {
        pugi::xml_node shown = device.append_child("DVP");
        set(shown, "A", kFirstPresentation + i);
        set(shown, "B", "0");
        set(shown, "C", kDataEntries[i].shown.scale);
        set(shown, "D", std::to_string(kDataEntries[i].shown.decimals));
        set(shown, "E", kDataEntries[i].shown.unit);
    }
}

void add_partfield(pugi::xml_node root, std::size_t index, const FieldFigures& figures, const Field* boundary,
                   const char* crop_id) {
    const double area_m2 = figures.bounded ? figures.field_m2 : figures.covered_m2;
    pugi::xml_node node = root.append_child("PFD");
    set(node, "A", partfield_id(index));
    set(node, "C", designator(figures.name));
    set(node, "D", std::to_string(std::llround(area_m2)));
    set(node, "G", crop_id);
    if (boundary == nullptr) return;
    for (const BoundaryPolygon& part : boundary_polygons(boundary->rings)) {
        pugi::xml_node polygon = node.append_child("PLN");
        set(polygon, "A", "1");
        add_ring(polygon, part.outer, "1");
        for (const Ring& hole : part.holes) add_ring(polygon, hole, "2");
    }
}

}  // namespace podrate::sim
