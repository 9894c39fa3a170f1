#include "bench/alarm_curve.hpp"

#include "bench/edited_parameters.hpp"
#include "bench/parameter_scale.hpp"

namespace podrate::ui {

bool same_question(const CurveQuestion& a, const CurveQuestion& b) {
    if (a.alarm != b.alarm || a.parameter != b.parameter || a.places.size() != b.places.size() ||
        a.truths != b.truths)
        return false;
    const auto member = kParameterTable[a.parameter].member;
    for (std::size_t i = 0; i < a.places.size(); ++i) {
        Parameters of_a = a.places[i].parameters;
        of_a.*member = b.places[i].parameters.*member;
        if (a.places[i].machine != b.places[i].machine) return false;
        if (a.places[i].trace != b.places[i].trace || !same_values(of_a, b.places[i].parameters))
            return false;
    }
    return true;
}

std::shared_ptr<const AlarmCurve> reckon_curve(const CurveQuestion& question,
                                               const std::atomic<bool>& cancel) {
    auto curve = std::make_shared<AlarmCurve>();
    curve->question = question;
    curve->values = values_along(kParameterTable[question.parameter]);
    sim::TuneTable table;
    table.on.resize(question.places.size());
    table.settings.resize(curve->values.size());
    for (const double value : curve->values) {
        std::vector<sim::MachineDayTally>& tallies = table.tallies.emplace_back();
        for (std::size_t i = 0; i < question.places.size(); ++i) {
            if (cancel.load(std::memory_order_relaxed)) return nullptr;
            const CurvePlace& place = question.places[i];
            Parameters parameters = place.parameters;
            parameters.*kParameterTable[question.parameter].member = static_cast<Real>(value);
            tallies.push_back(sim::tally_of(sim::alarms_of(*place.trace, parameters), *place.times,
                                            (*question.truths)[place.machine]));
        }
    }
    const std::vector<int> once(question.places.size(), 1);
    for (std::size_t i = 0; i < curve->values.size(); ++i)
        curve->figures.push_back(
            sim::AlarmRow(table, i, static_cast<std::size_t>(question.alarm)).figures(once));
    return curve;
}

}  // namespace podrate::ui
