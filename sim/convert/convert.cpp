#include "convert/convert.hpp"

#include "convert/candump_text.hpp"
#include "convert/row_text.hpp"
#include "convert/text_output.hpp"

namespace podrate::sim {
namespace {

constexpr std::uint64_t kRowsPerProgress = 20000;

bool is_named(const std::filesystem::path& path, const char* ending) {
    return (path.extension() == ".zst" ? path.stem() : path).extension() == ending;
}

// Runs through a log; `work` is given each row.
template <class Work>
void each_row(MachineLog& log, const std::function<void(std::uint64_t)>& progress, const Work& work) {
    LogRow row;
    std::uint64_t tell_at = kRowsPerProgress;
    while (log.next(row)) {
        work(row);
        if (log.rows_read() < tell_at || !progress) continue;
        tell_at = log.rows_read() + kRowsPerProgress;
        progress(log.position());
    }
}

void to_candump(const std::filesystem::path& from, TextOutput& out, Problems& problems,
                const std::function<void(std::uint64_t)>& progress) {
    const auto log = open_log(from, {}, problems);
    CandumpWriter writer;
    std::string text;
    const SampleTaker take = [&](const Sample& sample) {
        writer.add(sample, text);
        return check(sample);
    };
    each_row(*log, progress, [&](const LogRow& row) {
        if (row.holds(Column::drum_rpm)) writer.add_drum(row.time_us, row[Column::drum_rpm], text);
        log->feed(row, take);
        out.write(text);
        text.clear();
    });
}

// Read twice: only then is it known which columns there are.
void to_csv(const std::filesystem::path& from, TextOutput& out, const BusChoice& bus, Problems& problems,
            const std::function<void(std::uint64_t)>& progress) {
    std::vector<Column> columns;
    Problems told_later;
    {
        const auto log = open_log(from, bus, told_later);
        each_row(*log, {}, [](const LogRow&) {});
        for (int i = static_cast<int>(Column::unix_s) + 1; i < kColumns; ++i) {
            if (log->has(static_cast<Column>(i))) columns.push_back(static_cast<Column>(i));
        }
    }
    if (columns.empty()) {
        // Frames of another interface than the one named are the likelier reason.
        for (const Problem& problem : told_later.kept()) {
            if (problem.line == 0 && !problem.note) throw RefusedInput(problem);
        }
        throw RefusedInput({from.string(), 0, "holds no message that Podrate knows",
                            "README.md lists them; check that the right bus was recorded"});
    }
    const auto log = open_log(from, bus, problems);
    RowWriter writer(columns);
    std::string text = header_text(columns);
    each_row(*log, progress, [&](const LogRow& row) {
        writer.add(row, text);
        out.write(text);
        text.clear();
    });
    writer.finish(text);
    out.write(text);
}

}  // namespace

void convert_log(const std::filesystem::path& from, const std::filesystem::path& to, const BusChoice& bus,
                 Problems& problems, const std::function<void(std::uint64_t bytes)>& progress) {
    if (!is_named(to, ".csv") && !is_named(to, ".log")) {
        throw RefusedInput({to.string(), 0, "is no kind of log that can be written",
                            "let its name end in .csv or .log; .zst may follow"});
    }
    if (kind_of(from) == kind_of(to)) {
        throw RefusedInput(
            {from.string(), 0, "is of that kind already", "name a .csv, a .log or a .nmea, two of them"});
    }
    std::error_code unseen;
    if (!std::filesystem::exists(from, unseen))
        throw RefusedInput({from.string(), 0, "does not exist", "give a log file"});
    TextOutput out(to);
    if (kind_of(to) == LogKind::candump) {
        to_candump(from, out, problems, progress);
    } else {
        to_csv(from, out, bus, problems, progress);
    }
    out.commit();
}

}  // namespace podrate::sim
