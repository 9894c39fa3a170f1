#include "convert/row_text.hpp"

#include <charconv>

#include "log/number.hpp"

namespace podrate::sim {
namespace {

void append_value(std::string& to, Column column, double value) {
    if (column == Column::lat_deg || column == Column::lon_deg) return append_fixed(to, value, 7);
    // A sensor's count goes beyond what a float holds exactly.
    if (column == Column::loss_hits) return append_fixed(to, value, 0);
    char digits[32];
    const auto result = std::to_chars(digits, digits + sizeof digits, static_cast<float>(value));
    to.append(digits, result.ptr);
}

// The place of a lone row's value in the order in which a row is fed (SampleFeed::feed). Heading and speed,
// which a receiver tells in the other order, know nothing of each other.
int rank_of(const LogRow& row) {
    if (row.holds(Column::drum_rpm)) return 0;
    if (row.holds(Column::pitch_deg)) return 1;
    if (row.holds(Column::lat_deg)) return 2;
    if (row.holds(Column::heading_deg) || row.holds(Column::speed_mps)) return 3;
    if (row.holds(Column::reel_on)) return 4;
    return row.holds(Column::loss_hits) ? 5 : 6;
}

bool overlap(const LogRow& a, const LogRow& b) {
    for (int i = 0; i < kColumns; ++i) {
        if (a.has[i] && b.has[i]) return true;
    }
    return false;
}

}  // namespace

std::string header_text(const std::vector<Column>& columns) {
    std::string text = name_of(Column::unix_s);
    for (const Column column : columns) text += std::string(",") + name_of(column);
    return text + '\n';
}

void RowWriter::add(const LogRow& row, std::string& to) {
    const int rank = rank_of(row);
    const bool joins = holds_ && held_.time_us == row.time_us && rank >= rank_ && !overlap(held_, row);
    rank_ = rank;
    if (joins) {
        for (int i = 0; i < kColumns; ++i) {
            if (!row.has[i]) continue;
            held_.has[i] = true;
            held_.value[i] = row.value[i];
        }
        return;
    }
    finish(to);
    held_ = row;
    holds_ = true;
}

void RowWriter::finish(std::string& to) {
    if (!holds_) return;
    holds_ = false;
    append_fixed(to, static_cast<double>(held_.time_us) / 1e6, 6);
    for (const Column column : columns_) {
        to += ',';
        if (held_.holds(column)) append_value(to, column, held_[column]);
    }
    to += '\n';
}

}  // namespace podrate::sim
