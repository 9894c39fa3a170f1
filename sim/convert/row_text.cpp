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

// The place of a lone row's value in the order in which a row is fed (SampleFeed::feed).
int rank_of(const LogRow& row) {
    constexpr Column kOrder[] = {Column::drum_rpm,  Column::pitch_deg, Column::lat_deg,  Column::heading_deg,
                                 Column::speed_mps, Column::reel_on,   Column::loss_hits};
    int rank = 0;
    for (const Column column : kOrder) {
        ++rank;
        if (row.holds(column)) return rank;
    }
    return rank + 1;  // a weight
}

}  // namespace

std::string header_text(const std::vector<Column>& columns) {
    std::string text = name_of(Column::unix_s);
    for (const Column column : columns) text += std::string(",") + name_of(column);
    return text + '\n';
}

void RowWriter::add(const LogRow& row, std::string& to) {
    const int rank = rank_of(row);
    const bool joins = holds_ && held_.time_us == row.time_us && rank > rank_;
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
