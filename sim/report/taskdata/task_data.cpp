#include "report/taskdata/task_data.hpp"

#include <cmath>
#include <cstdio>
#include <sstream>

#include "day/local_time.hpp"
#include "fields/finder_of_day.hpp"
#include "podrate/version.hpp"
#include "report/output_file.hpp"
#include "report/taskdata/data_entries.hpp"
#include "report/taskdata/device_xml.hpp"
#include "report/taskdata/task_log.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kCropId = "CTP1";

std::string log_name(std::size_t number) {
    char text[16];
    std::snprintf(text, sizeof text, "TLG%05zu", number);
    return text;
}

// "2025-06-27T14:00:00.000Z"
std::string utc_text(TimeUs time_us) {
    const LocalTime utc = local_time(time_us, "Etc/UTC");
    char clock[24];
    std::snprintf(clock, sizeof clock, "T%02d:%02d:%02d.%03dZ", utc.second_of_day / 3600,
                  utc.second_of_day / 60 % 60, utc.second_of_day % 60,
                  static_cast<int>(time_us / 1000 % 1000));
    return utc.date + clock;
}

void set_text(pugi::xml_node node, const char* attribute, const std::string& value) {
    node.append_attribute(attribute).set_value(value.c_str());
}

pugi::xml_node add_root(pugi::xml_document& document) {
    pugi::xml_node declaration = document.append_child(pugi::node_declaration);
    set_text(declaration, "version", "1.0");
    set_text(declaration, "encoding", "UTF-8");
    pugi::xml_node root = document.append_child("ISO11783_TaskData");
    set_text(root, "VersionMajor", "4");
    set_text(root, "VersionMinor", "3");
    set_text(root, "ManagementSoftwareManufacturer", "Podrate");
    set_text(root, "ManagementSoftwareVersion", kVersion);
    set_text(root, "TaskControllerManufacturer", "Podrate");
    set_text(root, "TaskControllerVersion", kVersion);
    set_text(root, "DataTransferOrigin", "2");  // from a machine's system
    return root;
}

std::int64_t total_of(const FieldTask& task, std::uint16_t ddi) {
    switch (ddi) {
        case 90: return task.mass_kg;
        case 116: return task.area_m2;
        case 117: return std::llround(task.effective_m * 1e3);
        case 118: return std::llround(task.ineffective_m * 1e3);
        case 119: return std::llround(task.effective_s);
        default: return std::llround(task.ineffective_s);
    }
}

// When it was begun and ended, and what it gave.
void add_time(pugi::xml_node node, const FieldTask& task, const MachineResult& machine,
              const std::vector<TaskSecond>& track) {
    const bool seen = !task.visits.empty();
    const TimeUs from_us = seen ? track[task.visits.front().first].time_us : machine.first_us;
    const TimeUs to_us = seen ? track[task.visits.back().second - 1].time_us : machine.last_us;
    pugi::xml_node time = node.append_child("TIM");
    set_text(time, "A", utc_text(from_us));
    set_text(time, "B", utc_text(to_us));
    set_text(time, "C", std::to_string((to_us - from_us) / kSecondUs));
    set_text(time, "D", "4");  // effective
    for (const DataEntry& entry : kDataEntries) {
        if (!entry.total) continue;
        pugi::xml_node value = time.append_child("DLV");
        set_text(value, "A", hex_ddi(entry));
        set_text(value, "B", std::to_string(total_of(task, entry.ddi)));
        set_text(value, "C", element_id(task.machine, entry.element));
    }
}

void remove_logs_from(const std::filesystem::path& folder, std::size_t number) {
    std::error_code ignored;
    for (;; ++number) {
        const bool header = std::filesystem::remove(folder / (log_name(number) + ".xml"), ignored);
        const bool bytes = std::filesystem::remove(folder / (log_name(number) + ".bin"), ignored);
        if (!header && !bytes) return;
    }
}

}  // namespace

void write_task_data(const std::filesystem::path& folder, const Day& day, const DayResult& result,
                     const TaskTracks& tracks) {
    make_folder(folder);
    const FieldFinder finder = finder_of_day(day, result.machines);

    pugi::xml_document document;
    pugi::xml_node root = add_root(document);
    pugi::xml_node crop = root.append_child("CTP");
    set_text(crop, "A", kCropId);
    set_text(crop, "B", "Vining peas");
    for (std::size_t m = 0; m < day.machines.size(); ++m) add_device(root, m, day.machines[m]);
    for (std::size_t f = 0; f < finder.count(); ++f) {
        const Field* boundary = f < day.fields.size() ? &day.fields[f] : nullptr;
        add_partfield(root, f, result.fields[f], boundary, kCropId);
    }
    std::size_t logs = 0;
    std::size_t number = 0;
    for (const FieldTask& task : field_tasks(result, finder, tracks)) {
        const MachineResult& machine = result.machines[task.machine];
        const std::string place = task.field ? finder.name(*task.field) : "elsewhere";
        pugi::xml_node node = root.append_child("TSK");
        set_text(node, "A", "TSK" + std::to_string(++number));
        set_text(node, "B", designator(machine.id + ", " + place));
        if (task.field) set_text(node, "E", partfield_id(*task.field));
        set_text(node, "G", "4");  // completed
        add_time(node, task, machine, tracks[task.machine]);
        pugi::xml_node allocation = node.append_child("DAN");
        set_text(
            allocation, "A",
            root.find_child_by_attribute("DVC", "A", device_id(task.machine).c_str()).attribute("D").value());
        set_text(allocation, "C", device_id(task.machine));
        const auto width_m = static_cast<double>(machine.parameters.width_m);
        for (const TaskLog& log : task_logs(task, tracks[task.machine], width_m)) {
            const std::string name = log_name(++logs);
            write_file(folder / (name + ".xml"), log.header);
            write_file(folder / (name + ".bin"), log.bytes);
            pugi::xml_node entry = node.append_child("TLG");
            set_text(entry, "A", name);
            set_text(entry, "B", std::to_string(log.bytes.size()));
            set_text(entry, "C", "1");  // binary
        }
    }
    std::ostringstream text;
    document.save(text, "  ", pugi::format_default, pugi::encoding_utf8);
    write_file(folder / "TASKDATA.XML", text.str());
    remove_logs_from(folder, logs + 1);
}

}  // namespace podrate::sim
