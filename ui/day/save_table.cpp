#include "day/save_table.hpp"

#include <algorithm>
#include <charconv>

#include "day/local_time.hpp"
#include "log/number.hpp"

namespace podrate::ui {
namespace {

// So that the same float is read again.
void append_float(std::string& text, float value) {
    char digits[32];
    const std::to_chars_result end = std::to_chars(digits, digits + sizeof digits, value);
    text.append(digits, end.ptr);
}

struct TableColumn {
    const char* name;
    const char* unit;
};

TableColumn named(Measure measure) {
    constexpr TableColumn kNames[kMeasures] = {
        {"load_rate", "kgps"},     {"yield", "kgpm2"},     {"loss", "share"},  {"drum_loss", "share"},
        {"picking_loss", "share"}, {"right_speed", "mps"}, {"hopper", "kg"},   {"level", "share"},
        {"harvested", "kg"},       {"area", "m2"},         {"speed", "mps"},   {"weight", "kg"},
        {"cell1", "kg"},           {"cell2", "kg"},        {"cell3", "kg"},    {"cell4", "kg"},
        {"pitch", "deg"},          {"roll", "deg"},        {"heading", "deg"}, {"drum", "rpm"},
        {"hits", "per_s"},
    };
    return kNames[static_cast<std::size_t>(measure)];
}

std::string head_of(const DayDesk& desk) {
    std::string head = "unix_s,machine";
    for (const Chart& chart : desk.charts()) {
        const TableColumn column = named(chart.measure);
        const auto add = [&](const char* part) {
            head += std::string(",") + column.name + part + '_' + column.unit;
        };
        add("");
        if (!chart.lines.front().column->has_band()) continue;
        add("_low");
        add("_high");
    }
    return head + '\n';
}

// The samples of one column within what is shown, taken in order of time.
class Reader {
  public:
    Reader(const MachineSeries& machine, const Column* column, const TimeRange& shown) : column_(column) {
        if (column_ == nullptr) return;
        times_ = &machine.times(*column_);
        next_ = index_from(*times_, shown.from_ms);
        end_ = index_from(*times_, shown.to_ms);
    }
    [[nodiscard]] bool more() const { return next_ < end_; }
    [[nodiscard]] Millis at_ms() const { return (*times_)[next_]; }
    // Its cells where it has a sample of that moment; of several the first is taken.
    void add(std::string& text, Millis at_ms, bool banded) {
        const bool due = more() && this->at_ms() == at_ms;
        const auto put = [&](float value) {
            text += ',';
            if (due) append_float(text, value);
        };
        put(due ? column_->value[next_] : 0.0F);
        if (banded) {
            const Extent band = due && column_->has_band() ? column_->band_at(next_) : Extent{0.0F, 0.0F};
            put(band.low);
            put(band.high);
        }
        if (due) ++next_;
    }

  private:
    const Column* column_;
    const std::vector<Millis>* times_ = nullptr;
    std::size_t next_ = 0;
    std::size_t end_ = 0;
};

void add_machine(const DayDesk& desk, const MachineSeries& machine, std::string& text) {
    std::vector<Reader> readers;
    for (const Chart& chart : desk.charts())
        readers.emplace_back(machine, machine.find(chart.measure), desk.window().shown());
    for (;;) {
        const Reader* earliest = nullptr;
        for (const Reader& reader : readers) {
            if (reader.more() && (earliest == nullptr || reader.at_ms() < earliest->at_ms()))
                earliest = &reader;
        }
        if (earliest == nullptr) return;
        const Millis at_ms = earliest->at_ms();
        sim::append_fixed(text, static_cast<double>(desk.day().series.time_us(at_ms)) / 1e6, 3);
        text += ',' + machine.id;
        for (std::size_t i = 0; i < readers.size(); ++i)
            readers[i].add(text, at_ms, desk.charts()[i].lines.front().column->has_band());
        text += '\n';
    }
}

}  // namespace

std::string table_of(const DayDesk& desk) {
    std::string text = head_of(desk);
    const std::vector<MachineSeries>& machines = desk.day().series.machines;
    for (std::size_t i = 0; i < machines.size(); ++i) {
        if (desk.together() || i == desk.machine()) add_machine(desk, machines[i], text);
    }
    return text;
}

std::filesystem::path free_name(const std::filesystem::path& folder, const DaySeries& series,
                                const TimeRange& shown, const std::string& what, const std::string& ending) {
    const auto at = [&](double at_ms) { return sim::local_time(series.time_us(at_ms), series.time_zone); };
    const auto plain = [](std::string hh_mm) {
        std::erase(hh_mm, ':');
        return hh_mm;
    };
    const std::string base = "podrate_" + at(shown.from_ms).date + '_' + plain(at(shown.from_ms).hh_mm()) +
                             '-' + plain(at(shown.to_ms).hh_mm()) + '_' + what;
    std::filesystem::path path = folder / (base + ending);
    std::error_code unseen;
    for (int copy = 2; std::filesystem::exists(path, unseen); ++copy)
        path = folder / (base + '_' + std::to_string(copy) + ending);
    return path;
}

std::filesystem::path free_name(const std::filesystem::path& folder, const DayDesk& desk,
                                const std::string& ending) {
    const DaySeries& series = desk.day().series;
    return free_name(folder, series, desk.window().shown(),
                     desk.together() ? "all" : series.machines[desk.machine()].id, ending);
}

}  // namespace podrate::ui
