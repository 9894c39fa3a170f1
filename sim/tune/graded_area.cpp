#include "tune/graded_area.hpp"

#include <cmath>
#include <limits>

namespace podrate::sim {

GradedArea graded_area(const std::vector<Grade>& grades) {
    double episodes = 0.0;
    double false_alarms = 0.0;
    for (const Grade& grade : grades) {
        episodes += grade.episodes;
        false_alarms += grade.false_alarms;
    }
    constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
    if (episodes < 2.0 || false_alarms < 2.0) return {kNaN, kNaN};
    // Placement values: of an episode the share of false alarms that come later, of a false alarm the share
    // of episodes told before it.
    double area = 0.0;
    double episode_squares = 0.0;
    double false_squares = 0.0;
    double told = 0.0;
    double cried = 0.0;
    for (const Grade& grade : grades) {
        const double of_episode = 1.0 - (cried + 0.5 * grade.false_alarms) / false_alarms;
        const double of_false = (told + 0.5 * grade.episodes) / episodes;
        area += grade.episodes * of_episode / episodes;
        episode_squares += grade.episodes * of_episode * of_episode;
        false_squares += grade.false_alarms * of_false * of_false;
        told += grade.episodes;
        cried += grade.false_alarms;
    }
    const double episode_variance = (episode_squares - episodes * area * area) / (episodes - 1.0);
    const double false_variance = (false_squares - false_alarms * area * area) / (false_alarms - 1.0);
    return {area, std::sqrt(episode_variance / episodes + false_variance / false_alarms)};
}

}  // namespace podrate::sim
