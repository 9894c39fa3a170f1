// Rows of a log in order of their times: what goes back or stands far off is left out and told.
#pragma once

#include <string>
#include <utility>

#include "log/number.hpp"
#include "log/problem.hpp"
#include "podrate/sample.hpp"

namespace podrate::sim {

// A reader of a log derives from it. Row has `line` and `time_us`.
template <class Row>
class InOrder {
  public:
    // False at the end.
    bool next(Row& row);

  protected:
    // `what` is one row's name, "row" or "frame".
    InOrder(std::string file, const char* what, Problems& problems)
        : file_(std::move(file)), what_(what), problems_(problems) {}
    ~InOrder() = default;
    InOrder(const InOrder&) = delete;
    InOrder& operator=(const InOrder&) = delete;

    // The next row that can be read, whatever its time.
    virtual bool next_parsed(Row& row) = 0;
    // Counts and reports a row that is left out.
    virtual void bad(std::uint64_t line, const std::string& reason, const std::string& mend) = 0;

    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] Problems& problems() const { return problems_; }

  private:
    // A time that leaps further than that is believed only once the next row agrees: one spoilt digit must
    // not cost the rest of the log.
    static constexpr TimeUs kLeapUs = 10 * kSecondUs;
    static constexpr int kStandingRows = 200;  // four seconds at the highest rate
    static constexpr TimeUs kStrangeGapUs = 24 * 3600 * kSecondUs;

    bool fetch(Row& row);
    bool next_not_before(Row& row);
    bool confirm(Row& row);
    void tell_strange_gap(const Row& row);
    void tell_standing_time(const Row& row);

    std::string file_;
    std::string what_;
    Problems& problems_;
    int same_time_ = 0;  // rows in a row with the same time
    bool any_time_ = false;
    TimeUs last_us_ = 0;
    bool has_queued_ = false;  // `queued_` was read ahead and is given out next
    Row queued_;
};

template <class Row>
bool InOrder<Row>::fetch(Row& row) {
    if (!has_queued_) return next_parsed(row);
    row = queued_;
    has_queued_ = false;
    return true;
}

template <class Row>
bool InOrder<Row>::next_not_before(Row& row) {
    while (fetch(row)) {
        if (!any_time_ || row.time_us >= last_us_) return true;
        bad(row.line,
            "time goes back by " + fixed(static_cast<double>(last_us_ - row.time_us) / 1e6, 3) + " s",
            what_ + " skipped");
    }
    return false;
}

// Looks one row ahead of a row whose time leaps (or is the first). True: the row stands.
template <class Row>
bool InOrder<Row>::confirm(Row& row) {
    if (!next_not_before(queued_)) return !any_time_ || row.time_us - last_us_ < kStrangeGapUs;
    has_queued_ = true;
    const TimeUs ahead_us = queued_.time_us - row.time_us;
    // The first row of all may be the only right one as well as the only wrong one: then a day decides.
    if (!any_time_) return ahead_us >= -kStrangeGapUs && ahead_us <= kStrangeGapUs;
    return ahead_us >= 0;
}

template <class Row>
void InOrder<Row>::tell_strange_gap(const Row& row) {
    if (!any_time_ || row.time_us - last_us_ <= kStrangeGapUs) return;
    const double hours = static_cast<double>(row.time_us - last_us_) / 3600e6;
    problems_.add({file_, row.line, "time leaps ahead by " + fixed(hours, 1) + " h",
                   what_ + "s on both sides are used; a log holds one day, so check the logger's clock and "
                           "cut the log there"});
}

template <class Row>
void InOrder<Row>::tell_standing_time(const Row& row) {
    same_time_ = any_time_ && row.time_us == last_us_ ? same_time_ + 1 : 0;
    if (same_time_ != kStandingRows) return;
    problems_.add({file_, row.line,
                   "time stands still for " + std::to_string(kStandingRows) + " " + what_ + "s",
                   "give times with their decimals; a spreadsheet may have cut them off"});
}

template <class Row>
bool InOrder<Row>::next(Row& row) {
    while (next_not_before(row)) {
        const bool leaps = !any_time_ || row.time_us - last_us_ > kLeapUs;
        if (!leaps || confirm(row)) {
            tell_strange_gap(row);
            tell_standing_time(row);
            any_time_ = true;
            last_us_ = row.time_us;
            return true;
        }
        bad(row.line, "time stands far from the " + what_ + "s around it", what_ + " skipped");
    }
    return false;
}

}  // namespace podrate::sim
