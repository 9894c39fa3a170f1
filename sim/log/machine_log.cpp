#include "log/machine_log.hpp"

#include "log/bus_log.hpp"
#include "log/log_reader.hpp"
#include "log/nmea_log.hpp"
#include "log/sample_feed.hpp"

namespace podrate::sim {
namespace {

class CsvLog final : public MachineLog {
  public:
    CsvLog(const std::filesystem::path& path, Problems& problems)
        : reader_(path, problems), feed_(path.string(), reader_, problems) {}
    bool next(LogRow& row) override { return reader_.next(row); }
    void feed(const LogRow& row, const SampleTaker& take) override { feed_.feed(row, take); }
    [[nodiscard]] bool has(Column column) const override { return reader_.has(column); }
    [[nodiscard]] std::uint64_t rows_read() const override { return reader_.rows_read(); }
    [[nodiscard]] std::uint64_t rows_bad() const override { return reader_.rows_bad(); }
    [[nodiscard]] std::uint64_t position() const override { return reader_.position(); }

  private:
    LogReader reader_;
    SampleFeed feed_;
};

}  // namespace

LogKind kind_of(const std::filesystem::path& path) {
    const auto ending = (path.extension() == ".zst" ? path.stem() : path).extension();
    if (ending == ".log") return LogKind::candump;
    return ending == ".nmea" ? LogKind::nmea : LogKind::csv;
}

std::unique_ptr<MachineLog> open_log(const std::filesystem::path& path, const BusChoice& bus,
                                     Problems& problems) {
    switch (kind_of(path)) {
        case LogKind::candump: return std::make_unique<BusLog>(path, bus, problems);
        case LogKind::nmea: return std::make_unique<NmeaLog>(path, problems);
        case LogKind::csv: break;
    }
    return std::make_unique<CsvLog>(path, problems);
}

}  // namespace podrate::sim
