#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string_view>
#include <vector>

#include "accuracy_table/day_run.hpp"
#include "accuracy_table/table.hpp"
#include "analysis/gang_loss.hpp"
#include "log/column_reader.hpp"
#include "log/number.hpp"
#include "podrate/loss/loss_outlook.hpp"
#include "replay/day_replay.hpp"

namespace podrate::accuracy {
namespace {

using namespace podrate::sim;

constexpr long kMixS = 10;
constexpr double kDeadTimeS = 6.0;
constexpr long kAheadS = 300;
constexpr double kEpisodeS = 30.0;
constexpr double kNearS = 20.0;

// The truth of the loss, second by second and in the mean.
struct TrueLoss {
    std::vector<double> unix_s;
    std::vector<double> total;  // share of the peas standing, where crop is cut; negative elsewhere
    std::vector<double> drum;
    std::vector<double> feed_kgps;
    std::vector<double> speed_mps;
    double mean_total = 0.0;
    double mean_drum = 0.0;
};

// A loss is meant as over some seconds, as the drum mixes: means over kMixS about each second of cutting.
void smooth(std::vector<double>& shares) {
    const std::vector<double> raw = shares;
    const auto n = static_cast<long>(raw.size());
    for (long i = 0; i < n; ++i) {
        if (raw[static_cast<std::size_t>(i)] < 0.0) continue;
        double sum = 0.0;
        int count = 0;
        for (long j = std::max(0L, i - kMixS / 2); j <= std::min(n - 1, i + kMixS / 2); ++j) {
            if (raw[static_cast<std::size_t>(j)] < 0.0) continue;
            sum += raw[static_cast<std::size_t>(j)];
            ++count;
        }
        shares[static_cast<std::size_t>(i)] = sum / count;
    }
}

TrueLoss true_loss(const std::filesystem::path& day, const std::string& id) {
    TrueLoss truth;
    double stood = 0.0;
    ColumnReader rows(day / "truth" / (id + ".csv"),
                      {"unix_s", "standing_kgpm2", "area_rate_m2ps", "loss_share", "drum_loss_share",
                       "feed_kgps", "speed_mps"});
    while (rows.next()) {
        const double standing_kgps = rows.number(1) * rows.number(2);
        const bool cutting = standing_kgps > 0.0;
        truth.unix_s.push_back(rows.number(0));
        truth.total.push_back(cutting ? rows.number(3) : -1.0);
        truth.drum.push_back(cutting ? rows.number(4) : -1.0);
        truth.feed_kgps.push_back(cutting ? rows.number(5) : 0.0);
        truth.speed_mps.push_back(cutting ? rows.number(6) : 0.0);
        stood += standing_kgps;
        truth.mean_total += standing_kgps * rows.number(3);
        truth.mean_drum += standing_kgps * rows.number(4);
    }
    smooth(truth.total);
    smooth(truth.drum);
    truth.mean_total /= stood;
    truth.mean_drum /= stood;
    return truth;
}

// The highest speed that keeps the loss under `limit` in the crop of the two minutes about each second, m/s.
std::vector<double> right_speeds(const TrueLoss& truth, const ScenarioDrum& drum, double limit) {
    const double level = LossCurve<double>::level_for(drum.loss_share);
    const double hazard = std::log((1.0 - drum.picking_loss_share) / (1.0 - limit));
    const double feed = drum.rated_feed_kgps + drum.feed_steepness_kgps * (std::log(hazard) - level);
    const auto n = static_cast<long>(truth.unix_s.size());
    std::vector<double> speeds(truth.unix_s.size(), 0.0);
    for (long i = 0; i < n; ++i) {
        double feed_sum = 0.0;
        double speed_sum = 0.0;
        for (long j = std::max(0L, i - kAheadS); j <= std::min(n - 1, i + kAheadS); ++j) {
            feed_sum += truth.feed_kgps[static_cast<std::size_t>(j)];
            speed_sum += truth.speed_mps[static_cast<std::size_t>(j)];
        }
        if (feed_sum > 0.0) speeds[static_cast<std::size_t>(i)] = feed * speed_sum / feed_sum;
    }
    return speeds;
}

// Episodes of loss above the limit, and what the alarm made of them.
struct AlarmTally {
    int episodes = 0;  // longer than kEpisodeS
    int found = 0;
    std::vector<double> delays_s;
    int alarms = 0;
    int false_alarms = 0;  // no second within kNearS of it above limit less deadband
    int chatters = 0;      // three alarms within a minute
    double hours = 0.0;    // of harvest

    void add(const AlarmTally& other) {
        episodes += other.episodes;
        found += other.found;
        delays_s.insert(delays_s.end(), other.delays_s.begin(), other.delays_s.end());
        alarms += other.alarms;
        false_alarms += other.false_alarms;
        chatters += other.chatters;
        hours += other.hours;
    }
};

AlarmTally tally_alarms(const TrueLoss& truth, const std::vector<AlarmEvent>& events, const Parameters& p) {
    const auto limit = static_cast<double>(p.loss_high_share);
    const double inside = limit - static_cast<double>(p.loss_high_deadband_share);
    AlarmTally tally;
    std::vector<AlarmEvent> alarms;
    for (const AlarmEvent& event : events) {
        if (event.alarm == AlarmId::loss_high) alarms.push_back(event);
    }
    const auto unix_s = [](TimeUs time_us) { return static_cast<double>(time_us) / 1e6; };
    double began_s = -1.0;
    for (std::size_t i = 0; i < truth.unix_s.size(); ++i) {
        const double now_s = truth.unix_s[i];
        if (truth.total[i] >= 0.0) tally.hours += 1.0 / 3600.0;
        const bool above = truth.total[i] > limit;
        if (above && began_s < 0.0) began_s = now_s;
        if (above || began_s < 0.0) continue;
        if (now_s - began_s > kEpisodeS) {
            ++tally.episodes;
            for (const AlarmEvent& alarm : alarms) {
                if (unix_s(alarm.end_us) < began_s || unix_s(alarm.start_us) > now_s + kNearS) continue;
                ++tally.found;
                tally.delays_s.push_back(std::max(0.0, unix_s(alarm.start_us) - began_s));
                break;
            }
        }
        began_s = -1.0;
    }
    for (std::size_t a = 0; a < alarms.size(); ++a) {
        ++tally.alarms;
        if (a >= 2 && alarms[a].start_us - alarms[a - 2].start_us < 60 * kSecondUs) ++tally.chatters;
        bool true_alarm = false;
        for (std::size_t i = 0; i < truth.unix_s.size(); ++i) {
            if (truth.unix_s[i] < unix_s(alarms[a].start_us) - kNearS) continue;
            if (truth.unix_s[i] > unix_s(alarms[a].end_us) + kNearS) break;
            true_alarm = true_alarm || truth.total[i] > inside;
        }
        tally.false_alarms += true_alarm ? 0 : 1;
    }
    return tally;
}

// Compares each second of harvest with the truth.
class LossWatch : public ReplaySink {
  public:
    LossWatch(const TrueLoss& truth, const std::vector<double>& right_mps) : truth_(truth), right_mps_(right_mps) {}
    void on_row(const LogRow& row, const Estimate& e) override {
        // As with the yield: what is told belongs to the crop cut a dead time before.
        const double unix_s = static_cast<double>(row.time_us) / 1e6 - kDeadTimeS;
        while (next_ < truth_.unix_s.size() && truth_.unix_s[next_] < unix_s - 0.5) ++next_;
        if (next_ >= truth_.unix_s.size() || truth_.unix_s[next_] > unix_s) return;
        const double total = truth_.total[next_];
        const double drum = truth_.drum[next_];
        const double right_mps = right_mps_[next_];
        ++next_;
        if (total < 0.0 || e.state != WorkState::harvesting) return;
        ++seconds;
        if (e.advice.under_limit.known && e.advice.binding != Binding::unsure && right_mps > 0.0) {
            ++advised;
            ln_off += std::log(static_cast<double>(e.advice.under_limit.speed_mps) / right_mps);
            if (std::abs(static_cast<double>(e.advice.under_limit.speed_mps) / right_mps - 1.0) <= 0.05) ++right;
            if (right_mps >= static_cast<double>(e.advice.under_limit.low_mps) && right_mps <= static_cast<double>(e.advice.under_limit.high_mps)) ++advice_held;
        }
        const auto off = [](double true_share, Real share) { return static_cast<double>(share) - true_share; };
        total_square += std::pow(off(total, e.loss_share), 2);
        drum_square += std::pow(off(drum, e.drum_loss_share), 2);
        if (total >= static_cast<double>(e.loss_low) && total <= static_cast<double>(e.loss_high)) ++inside;
    }
    long seconds = 0;
    long inside = 0;
    long advised = 0;
    double ln_off = 0.0;
    long right = 0;
    long advice_held = 0;
    double total_square = 0.0;
    double drum_square = 0.0;

  private:
    const TrueLoss& truth_;
    const std::vector<double>& right_mps_;
    std::size_t next_ = 0;
};

struct Outcome {
    double total_error = 0.0;  // of the mean loss, share
    double drum_error = 0.0;
    bool total_held = false;  // by the 90 % interval
    bool drum_held = false;
    double total_width = 0.0;  // of that interval over the prior's, as ln
    double drum_width = 0.0;
    double point_rmse = 0.0;  // of the loss at each second, share
    double drum_point_rmse = 0.0;
    double point_held = 0.0;
    double true_total = 0.0;
    double true_drum = 0.0;
    AlarmTally alarms;
    double advised = 0.0;  // share of harvest with advice
    double right = 0.0;    // of that, within 5 % of the right speed
    double advice_held = 0.0;
    double ln_off = 0.0;
    double level = 0.0, misfit = 0.0, reaction = 0.0, true_level = 0.0;
};

bool held(double truth, const Share& share) {
    return truth >= static_cast<double>(share.low) && truth <= static_cast<double>(share.high);
}

double ln_width(const Share& share) {
    return std::log(static_cast<double>(share.high) / static_cast<double>(share.low));
}

struct Variant {
    const char* name;
    std::size_t trays;
    bool sensor;
    double speed_spread;  // negative: the scenario's
    bool random_walk;     // the estimator's crop
};

constexpr Variant kVariants[] = {
    {"weight and speed alone", 0, false, -1.0, false},
    {"speed held constant", 0, false, 0.0, false},
    {"six tray checks", 6, false, -1.0, false},
    {"six trays and loss sensor", 6, true, -1.0, false},
    {"crop taken for a random walk", 0, false, -1.0, true},
};

Outcome run_one(const std::filesystem::path& file, std::uint64_t seed, const Variant& variant, double hours) {
    Scenario scenario = read_scenario(file, seed);
    if (hours > 0.0) scenario.hours = hours;
    ScenarioMachine& machine = scenario.machines.front();
    scenario.trays.resize(std::min(scenario.trays.size(), variant.trays));
    if (!variant.sensor) machine.hits.per_kg = 0.0;
    if (variant.speed_spread >= 0.0) {
        machine.driver.speed_spread = variant.speed_spread;
        machine.driver.eases_off = 0.0;
        machine.driver.pauses_per_h = 0.0;
    }
    const DayRun run(scenario, "loss_" + std::to_string(&variant - kVariants) + '_' + std::to_string(seed));
    const TrueLoss truth = true_loss(run.day(), machine.id);
    Day day = read_day(run.day());
    if (variant.random_walk) {
        Parameters& p = day.machines.front().parameters;
        p.crop_cv *= static_cast<Real>(std::sqrt(500.0 / static_cast<double>(p.crop_length_m)));
        p.crop_length_m = Real(500);
    }
    const std::vector<double> right_mps =
        right_speeds(truth, machine.drum, static_cast<double>(day.machines.front().parameters.loss_limit_share));
    LossWatch watch(truth, right_mps);
    const MachineResult result = replay_machine(day.machines.front(), day.fields, {&watch}, nullptr);
    const LossSoFar& lost = result.lost;
    Outcome o;
    o.true_total = truth.mean_total;
    o.true_drum = truth.mean_drum;
    o.total_error = static_cast<double>(lost.shares.total.share) - truth.mean_total;
    o.drum_error = static_cast<double>(lost.shares.drum.share) - truth.mean_drum;
    o.total_held = held(truth.mean_total, lost.shares.total);
    o.drum_held = held(truth.mean_drum, lost.shares.drum);
    const Parameters& p = day.machines.front().parameters;
    o.drum_width = ln_width(lost.shares.drum) /
                   (2.0 * 1.645 * static_cast<double>(p.drum_loss_ln_sd));
    o.total_width = ln_width(lost.shares.total);
    const auto n = static_cast<double>(std::max(watch.seconds, 1L));
    o.point_rmse = std::sqrt(watch.total_square / n);
    o.drum_point_rmse = std::sqrt(watch.drum_square / n);
    o.point_held = static_cast<double>(watch.inside) / n;
    o.alarms = tally_alarms(truth, result.alarms, p);
    o.ln_off = watch.advised > 0 ? watch.ln_off / static_cast<double>(watch.advised) : 0.0;
    o.advised = static_cast<double>(watch.advised) / n;
    o.right = watch.advised > 0 ? static_cast<double>(watch.right) / static_cast<double>(watch.advised) : 0.0;
    o.advice_held = watch.advised > 0 ? static_cast<double>(watch.advice_held) / static_cast<double>(watch.advised) : 0.0;
    o.level = static_cast<double>(result.loss_memory.level);
    o.true_level = static_cast<double>(LossCurve<double>::level_for(machine.drum.loss_share) - LossCurve<double>::level_for(0.035));
    return o;
}

double mean_of(const std::vector<Outcome>& all, double (*value)(const Outcome&)) {
    double sum = 0.0;
    for (const Outcome& o : all) sum += value(o);
    return sum / static_cast<double>(all.size());
}

}  // namespace

bool print_gang_losses(const std::filesystem::path& file, std::uint64_t seeds, double hours) {
    struct Each {
        std::vector<double> live, back;
        std::vector<bool> live_held, back_held;
        double pairs = 0.0, pair_sd = 0.0;
    };
    std::vector<Each> all(seeds);
    on_all_cores(seeds, [&](std::size_t i) {
        Scenario scenario = read_scenario(file, i + 1);
        if (hours > 0.0) scenario.hours = hours;
        const DayRun run(scenario, "gang_" + std::to_string(i));
        const Day day = read_day(run.day());
        const DayResult result = replay_day(day, {});
        const GangLoss gang = gang_loss(day, result);
        all[i].pairs = static_cast<double>(gang.pairs);
        all[i].pair_sd = gang.pair_ln_sd;
        for (std::size_t m = 0; m < day.machines.size(); ++m) {
            const TrueLoss truth = true_loss(run.day(), day.machines[m].id);
            const Share& live = result.machines[m].lost.shares.drum;
            const Share& back = gang.machines[m].shares.drum;
            all[i].live.push_back(static_cast<double>(live.share) - truth.mean_drum);
            all[i].back.push_back(static_cast<double>(back.share) - truth.mean_drum);
            all[i].live_held.push_back(held(truth.mean_drum, live));
            all[i].back_held.push_back(held(truth.mean_drum, back));
        }
    });
    double live = 0, back = 0, lh = 0, bh = 0, n = 0, bias = 0, bias_live = 0;
    for (const Each& e : all) for (std::size_t m = 0; m < e.live.size(); ++m) {
        live += std::abs(e.live[m]); back += std::abs(e.back[m]); bias += e.back[m]; bias_live += e.live[m]; lh += e.live_held[m]; bh += e.back_held[m]; ++n;
    }
    std::printf("gang: live |err| %.2f bias %.2f held %.0f%%, looking back |err| %.2f bias %.2f held %.0f%%, pairs %.0f sd %.3f\n", 100*live/n, 100*bias_live/n, 100*lh/n, 100*back/n, 100*bias/n, 100*bh/n, all[0].pairs, all[0].pair_sd);
    return true;
}

bool print_losses(const std::filesystem::path& file, std::uint64_t seeds, double hours, bool each) {
    std::printf("Loss, %zu seeds\n", static_cast<std::size_t>(seeds));
    for (const Variant& variant : kVariants) {
        std::vector<Outcome> all(seeds);
        on_all_cores(seeds, [&](std::size_t i) { all[i] = run_one(file, i + 1, variant, hours); });
        const auto points = [&all](double (*value)(const Outcome&)) { return 100.0 * mean_of(all, value); };
        std::printf(
            "%-30s total %5.2f +%5.2f |err| %4.2f held %3.0f%%  drum %5.2f +%5.2f |err| %4.2f held %3.0f%% width %.2f  point rmse %4.2f drum %4.2f "
            "held %3.0f%%\n",
            variant.name, points([](const Outcome& o) { return o.true_total; }), points([](const Outcome& o) { return o.total_error; }),
            points([](const Outcome& o) { return std::abs(o.total_error); }),
            points([](const Outcome& o) { return o.total_held ? 1.0 : 0.0; }),
            points([](const Outcome& o) { return o.true_drum; }),points([](const Outcome& o) { return o.drum_error; }),
            points([](const Outcome& o) { return std::abs(o.drum_error); }),
            points([](const Outcome& o) { return o.drum_held ? 1.0 : 0.0; }),
            mean_of(all, [](const Outcome& o) { return o.drum_width; }),
            points([](const Outcome& o) { return o.point_rmse; }),
            points([](const Outcome& o) { return o.drum_point_rmse; }),
            points([](const Outcome& o) { return o.point_held; }));
        AlarmTally sum;
        for (const Outcome& o : all) sum.add(o.alarms);
        std::sort(sum.delays_s.begin(), sum.delays_s.end());
        std::printf("      advised %.0f%% of harvest, %.0f%% within 5%%, held %.0f%%; episodes %d found %d delay %.0f s, alarms %d false %d in %.0f h chatter %d\n", points([](const Outcome& o) { return o.advised; }), points([](const Outcome& o) { return o.right; }), points([](const Outcome& o) { return o.advice_held; }), sum.episodes, sum.found, sum.delays_s.empty() ? 0.0 : sum.delays_s[sum.delays_s.size() / 2], sum.alarms, sum.false_alarms, sum.hours, sum.chatters);
        if (each) for (const Outcome& o : all) std::printf("   adv %.2f ln off %.2f held %.2f true %.2f drum %.2f err %.2f drum err %.2f %d level %.2f true %.2f\n", o.advised, o.ln_off, o.advice_held, 100*o.true_total, 100*o.true_drum, 100*o.total_error, 100*o.drum_error, o.drum_held, o.level, o.true_level);
        std::fflush(stdout);
    }
    return true;
}

}  // namespace podrate::accuracy
