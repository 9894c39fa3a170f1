#include "report/html/time_schemes_html.hpp"

#include "hours/stretch_track.hpp"
#include "hours/time_schemes.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

struct SchemeColumn {
    std::string machine;
    KindSeconds seconds;
};

std::string scheme_html(const TimeScheme& scheme, const std::vector<SchemeColumn>& columns) {
    std::vector<std::string> headings = {scheme.name, "seen in the log as"};
    std::vector<std::vector<std::string>> rows;
    for (const TimeClass& c : scheme.classes) rows.push_back({c.name, c.words});
    rows.push_back({"all", ""});
    for (const SchemeColumn& column : columns) {
        headings.push_back(column.machine);
        const std::vector<double> sums = seconds_by_class(scheme, column.seconds);
        double all_s = 0.0;
        for (std::size_t i = 0; i < sums.size(); ++i) {
            rows[i].push_back(duration_text(sums[i]));
            all_s += sums[i];
        }
        rows.back().push_back(duration_text(all_s));
    }
    return "<div class=\"pace\">" + table_html(headings, rows, {1}) + "</div><p class=\"quiet\">" +
           escaped(scheme.untold) + "</p>\n";
}

}  // namespace

std::string time_schemes_html(const DayResult& result) {
    std::vector<SchemeColumn> columns;
    for (const MachineResult& m : result.machines) {
        if (m.usable && !m.stretches.empty()) columns.push_back({m.id, seconds_by_kind(m.stretches)});
    }
    if (columns.empty()) return {};
    return "<h2>The same time by published schemes</h2>\n" + scheme_html(konaka_scheme(), columns) +
           scheme_html(ktbl_scheme(), columns);
}

}  // namespace podrate::sim
