// Tallies of hand-made alarms and episodes, and against counting by brute force.
#include "tune/tallying.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "score/loss_alarms.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr std::size_t kLoss = static_cast<std::size_t>(AlarmId::loss_high);

// Scenes of a second each in which the loss is what `share` says of that second, while harvesting.
template <class Share>
AlarmTrace trace_of(int seconds, const Share& share) {
    AlarmTrace trace;
    for (int i = 0; i < seconds; ++i) {
        AlarmScene scene;
        scene.now_us = i * kSecondUs;
        scene.state = WorkState::harvesting;
        scene.loss_share = static_cast<Real>(share(i));
        trace.on_scene(scene);
        LogRow row;
        row.time_us = scene.now_us;
        trace.on_row(row, Estimate{});
    }
    return trace;
}

Parameters loss_alarm(double limit, double deadband, double on_s, double off_s) {
    Parameters p;
    p.loss_high_share = static_cast<Real>(limit);
    p.loss_high_deadband_share = static_cast<Real>(deadband);
    p.loss_high_on_s = static_cast<Real>(on_s);
    p.loss_high_off_s = static_cast<Real>(off_s);
    return p;
}

MachineTruth loss_truth(std::vector<AlarmSpan> due) {
    MachineTruth truth;
    truth[kLoss].known = true;
    truth[kLoss].due = due;
    truth[kLoss].reasons = std::move(due);
    truth[kLoss].near_s = 20.0;
    return truth;
}

AlarmTally loss_tally(const AlarmTrace& trace, const Parameters& p, const MachineTruth& truth) {
    return tally_of(alarms_of(trace, p), times_of(trace), truth).alarms[kLoss];
}

}  // namespace

TEST_CASE("Told, missed, late and false alarms of an hour made by hand are counted as by hand") {
    // Over the limit at 600 s for 100 s, which is due; at 1500 s for 4 s, which is due, too; at 3000 s for 50
    // s, which is not.
    const AlarmTrace trace = trace_of(3600, [](int s) {
        const bool over = (s >= 600 && s < 700) || (s >= 1500 && s < 1504) || (s >= 3000 && s < 3050);
        return over ? 0.3 : 0.05;
    });
    const MachineTruth truth = loss_truth({{600.0, 700.0}, {1500.0, 1504.0}});
    const AlarmTally slow = loss_tally(trace, loss_alarm(0.15, 0.02, 10, 5), truth);
    CHECK(slow.episodes == 2);
    CHECK(slow.told == 1);
    REQUIRE(slow.delays_s.size() == 1);
    CHECK(slow.delays_s[0] == 10.0F);
    CHECK(slow.alarms == 2);
    CHECK(slow.false_alarms == 1);
    CHECK(slow.chattered == 0);
    // From the delay's end to the off delay's.
    CHECK(slow.in_alarm_s == Approx((705 - 610) + (3055 - 3010)));
    // All of the second, which nothing was near to.
    CHECK(slow.idle_s == Approx(3055 - 3010));
    CHECK(slow.judged_h == Approx(3599.0 / 3600.0));
    CHECK(slow.known_h == slow.judged_h);
    const AlarmTally quick = loss_tally(trace, loss_alarm(0.15, 0.02, 0, 5), truth);
    CHECK(quick.told == 2);
    CHECK(quick.delays_s == std::vector<float>{0.0F, 0.0F});
    CHECK(quick.false_alarms == 1);
    CHECK(loss_tally(trace, loss_alarm(0.4, 0.02, 0, 5), truth).told == 0);
}

TEST_CASE("What was before or after the log is not missed, and is not told late") {
    const AlarmTrace trace = trace_of(600, [](int s) { return s >= 30 && s < 90 ? 0.3 : 0.0; });
    // Long before; begun before; after.
    const MachineTruth truth = loss_truth({{-90.0, -60.0}, {-50.0, 80.0}, {3600.0, 3700.0}});
    const AlarmTally tally = loss_tally(trace, loss_alarm(0.15, 0.02, 0, 0), truth);
    CHECK(tally.episodes == 1);
    CHECK(tally.told == 1);
    CHECK(tally.delays_s == std::vector<float>{30.0F});
    CHECK(tally.false_alarms == 0);
}

TEST_CASE("Where nobody knows what was to be told only the burden is counted") {
    const AlarmTrace trace = trace_of(600, [](int s) { return s % 100 < 50 ? 0.3 : 0.0; });
    const AlarmTally tally = loss_tally(trace, loss_alarm(0.15, 0.02, 0, 0), MachineTruth{});
    CHECK(tally.alarms == 6);
    CHECK(tally.episodes == 0);
    CHECK(tally.false_alarms == 0);
    CHECK(tally.known_h == 0.0);
    CHECK(tally.idle_s == 0.0);
    CHECK(tally.judged_h > 0.16);
}

TEST_CASE("Between trays nobody can call an alarm false") {
    const AlarmTrace trace = trace_of(3600, [](int s) { return s % 600 < 50 ? 0.3 : 0.0; });
    MachineTruth truth = loss_truth({{600.0, 630.0}});
    truth[kLoss].looked_at = {{600.0, 630.0}, {1200.0, 1230.0}, {1500.0, 1530.0}};
    const AlarmTally tally = loss_tally(trace, loss_alarm(0.15, 0.02, 0, 0), truth);
    CHECK(tally.alarms == 6);
    CHECK(tally.told == 1);
    CHECK(tally.false_alarms == 1);  // at 1200 s, where the tray was fine
    CHECK(tally.idle_s == Approx(30.0));
    CHECK(tally.known_h == Approx(90.0 / 3600.0));
}

TEST_CASE("Chatter is as counted by brute force") {
    std::mt19937 random(11);
    int chattered = 0;
    for (int trial = 0; trial < 20; ++trial) {
        std::vector<double> share(1800);
        const std::size_t pace = 3 + random() % 30;
        for (std::size_t s = 0; s < share.size(); ++s)
            share[s] =
                s % pace == 0 ? static_cast<double>(random() % 300) / 1000.0 : share[s > 0 ? s - 1 : 0];
        const AlarmTrace trace =
            trace_of(1800, [&share](int s) { return share[static_cast<std::size_t>(s)]; });
        const Parameters p = loss_alarm(0.15, 0.0, 0, 0);
        const AlarmTally tally = loss_tally(trace, p, MachineTruth{});
        // Without delay and deadband an alarm comes at each second over the limit that follows one that is
        // not.
        std::vector<int> starts;
        int over_s = 0;
        for (int s = 0; s < 1800; ++s) {
            const auto i = static_cast<std::size_t>(s);
            const bool over = static_cast<Real>(share[i]) > p.loss_high_share;
            const bool before = s > 0 && static_cast<Real>(share[i - 1]) > p.loss_high_share;
            if (over && !before) starts.push_back(s);
            if (over && s < 1799) ++over_s;
        }
        int brute = 0;
        for (std::size_t i = 0; i < starts.size(); ++i) {
            int within = 0;
            for (std::size_t j = 0; j <= i; ++j) within += starts[i] - starts[j] <= 60 ? 1 : 0;
            brute += within >= 3 ? 1 : 0;
        }
        CHECK(tally.alarms == static_cast<int>(starts.size()));
        CHECK(tally.chattered == brute);
        CHECK(tally.in_alarm_s == Approx(over_s));
        chattered += brute;
    }
    CHECK(chattered > 100);
}

TEST_CASE("The loss is tallied as score tallies it") {
    std::mt19937 random(5);
    int false_alarms = 0;
    int told = 0;
    for (int trial = 0; trial < 20; ++trial) {
        TrueLoss truth;
        double share = 0.1;
        for (int s = 0; s < 3000; ++s) {
            share =
                std::clamp(share + (static_cast<double>(random() % 1000) / 1000.0 - 0.5) * 0.02, 0.0, 0.3);
            truth.unix_s.push_back(s);
            truth.total.push_back(random() % 900 == 0 ? -1.0 : share);
        }
        const AlarmTrace trace = trace_of(3000, [&](int s) {
            return truth.total[static_cast<std::size_t>(std::max(0, s - 15))] + 0.05 * std::sin(s / 40.0);
        });
        const std::vector<AlarmEvent> events = alarms_of(trace, loss_alarm(0.15, 0.02, 6, 15));
        std::vector<AlarmSpan> spans;
        for (const AlarmEvent& event : events) {
            if (event.alarm == AlarmId::loss_high)
                spans.push_back(
                    {static_cast<double>(event.start_us) / 1e6, static_cast<double>(event.end_us) / 1e6});
        }
        const LossAlarmScore score = score_loss_alarms(truth, spans, 0.15, 0.02);
        LossEpisodes episodes = loss_episodes(truth, 0.15, 0.02);
        MachineTruth known;
        known[kLoss] = {true, episodes.due, episodes.reasons, {}, kNearLossS, EpisodeSource::truth};
        const AlarmTally tally = tally_of(events, times_of(trace), known).alarms[kLoss];
        CHECK(tally.episodes == score.episodes);
        CHECK(tally.told == score.told);
        CHECK(tally.alarms == score.alarms);
        CHECK(tally.false_alarms == score.false_alarms);
        CHECK(tally.chattered == score.chattered);
        if (tally.told > 0) CHECK(median_delay_s(tally) == Approx(score.median_delay_s()));
        false_alarms += tally.false_alarms;
        told += tally.told;
    }
    CHECK(false_alarms > 0);
    CHECK(told > 10);
}

TEST_CASE("Ten minutes of the clock at work, their rates and floods are counted as by hand") {
    // 100 minutes, the last 40 of them standing.
    AlarmTrace trace;
    for (int s = 0; s < 6000; ++s) {
        AlarmScene scene;
        scene.now_us = s * kSecondUs;
        scene.state = s < 3600 ? WorkState::harvesting : WorkState::stopped;
        trace.on_scene(scene);
    }
    std::vector<AlarmEvent> events;
    const auto add = [&events](int from_s, int count, AlarmId alarm) {
        for (int i = 0; i < count; ++i)
            events.push_back({alarm, (from_s + 20 * i) * kSecondUs, (from_s + 20 * i + 5) * kSecondUs});
    };
    add(10, 1, AlarmId::loss_high);     // first ten: one
    add(700, 2, AlarmId::rate_low);     // second: two
    add(1300, 3, AlarmId::peas_old);    // third: three
    add(1900, 11, AlarmId::loss_high);  // fourth: a flood
    add(5500, 1, AlarmId::tilt_fault);  // standing
    const PanelTally panel = tally_of(events, times_of(trace), MachineTruth{}).panel;
    CHECK(panel.alarms == 18);
    CHECK(panel.tens == 7);
    CHECK(panel.tens_over_one == 3);
    CHECK(panel.tens_over_two == 2);
    CHECK(panel.tens_in_flood == 1);
    CHECK(panel.most_in_ten == 11);
    CHECK(panel.work_h == Approx(1.0).margin(0.0003));
}
