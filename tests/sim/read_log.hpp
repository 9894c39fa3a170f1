// Reads a log text through the program's own reader, for tests.
#pragma once

#include <string>
#include <vector>

#include "log/log_reader.hpp"
#include "log/problem.hpp"
#include "support/temp_folder.hpp"

namespace podrate::test {

struct ReadLog {
    std::vector<sim::LogRow> rows;
    std::uint64_t rows_read = 0;
    std::uint64_t rows_bad = 0;
    sim::Problems problems;
};

// Throws RefusedInput where the reader does.
inline ReadLog read_log_file(const std::filesystem::path& path) {
    ReadLog log;
    sim::LogReader reader(path, log.problems);
    sim::LogRow row;
    while (reader.next(row)) log.rows.push_back(row);
    log.rows_read = reader.rows_read();
    log.rows_bad = reader.rows_bad();
    return log;
}

inline ReadLog read_log(const std::string& text, const std::string& name = "viner.csv") {
    const TempFolder folder;
    return read_log_file(folder.file(name, text));
}

// What the reader refuses a log with; fails where it takes it.
inline sim::Problem refusal_of(const std::string& text, const std::string& name = "viner.csv") {
    try {
        (void)read_log(text, name);
    } catch (const sim::RefusedInput& refused) {
        return refused.problem();
    }
    throw std::logic_error("the log was not refused");
}

}  // namespace podrate::test
