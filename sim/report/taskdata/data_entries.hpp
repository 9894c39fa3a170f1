// What a viner tells in task data: entries of ISO 11783-11's data dictionary, and the elements they belong
// to.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace podrate::sim {

enum class TaskElement : std::uint8_t { viner, reel, hopper };
inline constexpr std::size_t kTaskElements = 3;

// How a reader is told to show a value: times `scale`, in `unit`.
struct Presentation {
    const char* scale;
    int decimals;
    const char* unit;
};

struct DataEntry {
    std::uint16_t ddi;
    const char* name;
    TaskElement element;
    bool total;  // told once for a task, not second by second
    Presentation shown;
};

// Those logged, in the order of a time log's header, then those told in sum. Numbers and units as the
// standard's dictionary has them.
inline constexpr std::array<DataEntry, 11> kDataEntries = {{
    {84, "Yield", TaskElement::reel, false, {"0.00001", 2, "t/ha"}},               // mg/m2
    {87, "Load rate", TaskElement::hopper, false, {"0.0000036", 2, "t/h"}},        // mg/s
    {98, "Loss", TaskElement::reel, false, {"0.0001", 1, "%"}},                    // ppm
    {141, "Work state", TaskElement::reel, false, {"1", 0, ""}},                   // 0 off, 1 on
    {67, "Width", TaskElement::reel, false, {"0.001", 2, "m"}},                    // mm
    {90, "Harvested", TaskElement::hopper, true, {"0.001", 3, "t"}},               // kg
    {116, "Area", TaskElement::reel, true, {"0.0001", 4, "ha"}},                   // m2
    {117, "Distance harvesting", TaskElement::reel, true, {"0.000001", 3, "km"}},  // mm
    {118, "Distance in the field besides", TaskElement::reel, true, {"0.000001", 3, "km"}},
    {119, "Time harvesting", TaskElement::reel, true, {"0.000277778", 3, "h"}},  // s
    {120, "Time in the field besides", TaskElement::reel, true, {"0.000277778", 3, "h"}},
}};
inline constexpr std::size_t kLoggedEntries = 5;

// Ids in TASKDATA.XML: of machine `machine` of the day, its elements and field number `field` of the finder.
std::string device_id(std::size_t machine);
std::string element_id(std::size_t machine, TaskElement element);
std::string partfield_id(std::size_t field);

// "005A" for 90.
std::string hex_ddi(const DataEntry& entry);

// Text for a designator: no more than 32 characters, as the standard has it (from memory), and none that XML
// can't hold.
std::string designator(const std::string& text);

}  // namespace podrate::sim
