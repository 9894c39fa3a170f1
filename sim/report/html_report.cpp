#include "report/html_report.hpp"
namespace podrate::sim {
std::string html_report(const Day& day, const DayResult&) {
    return day.label;
}
}  // namespace podrate::sim
