#include "report/html/moment.hpp"

#include <cmath>

#include "day/local_time.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kMonths[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

std::string date_words(const LocalTime& local) {
    const int month = std::stoi(local.date.substr(5, 2));
    return std::to_string(std::stoi(local.date.substr(8, 2))) + ' ' + kMonths[month - 1];
}

LocalTime local_at(double unix_s, const std::string& time_zone) {
    return local_time(static_cast<TimeUs>(unix_s) * kSecondUs, time_zone);
}

}  // namespace

std::string moment_text(double unix_s, const std::string& time_zone, double step_s) {
    if (std::isinf(unix_s)) return unix_s < 0.0 ? "earlier" : "later";
    const LocalTime local = local_at(std::round(unix_s / step_s) * step_s, time_zone);
    return date_words(local) + ' ' + local.hh_mm();
}

std::string date_text(double unix_s, const std::string& time_zone) {
    return date_words(local_at(unix_s, time_zone));
}

}  // namespace podrate::sim
