// Area under a curve of detection against false alarms, where both are counted grade by grade.
#pragma once

#include <vector>

namespace podrate::sim {

// What one step from strict to lenient adds.
struct Grade {
    double episodes;      // told from this step on
    double false_alarms;  // that come from this step on
};

struct GradedArea {
    double area;  // 0.5: no better than chance, 1: all told before the first false alarm
    double sd;
};

// `grades`: the strictest first; episodes never told belong to a last grade. Ties count by half. The sd is
// that of DeLong, DeLong & Clarke-Pearson, Biometrics 44: 837-845, 1988: episodes and false alarms
// are taken as independent of each other. NaN with fewer than two of either.
GradedArea graded_area(const std::vector<Grade>& grades);

}  // namespace podrate::sim
