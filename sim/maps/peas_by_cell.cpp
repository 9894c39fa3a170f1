#include "maps/peas_by_cell.hpp"

#include <algorithm>
#include <cmath>

#include "maps/belief_smoother.hpp"
#include "maps/loss_by_rate.hpp"

namespace podrate::sim {
namespace {

constexpr double kLongestStepS = 6.0;  // steps further apart tell nothing of one another
constexpr double kPlotPatchM =
    0.12;  // of swath's variance, as patches of a few paces make it in Nonnecke's plots (1960)
constexpr double kLeastPatches = 0.5;  // of what is told of them
constexpr int kTiedSteps = 20;         // a cell is tied to what is cut so many steps before it

// A cell that the machine is about to enter, seen backwards.
struct OpenCell {
    std::size_t cell;
    BeliefSmoother::State with_state;
    int idle;
};

class BackwardSpread {
  public:
    BackwardSpread(const MachineResult& machine, const SwathQuads& swath)
        : machine_(machine), swath_(swath), area_(machine.work), loss_(machine), quad_(swath.quads.size()) {
        const Parameters& p = machine.parameters;
        drum_.width_m = static_cast<double>(p.width_m);
        drum_.crop_length_m = static_cast<double>(p.crop_length_m);
        drum_.patch_m = static_cast<double>(p.crop_patch_m);
        drum_.flow_noise_share = static_cast<double>(p.flow_noise_share);
        drum_.mean_drift = static_cast<double>(p.crop_mean_drift);
        find_patches();
    }

    void run() {
        const std::vector<BeliefStep>& steps = machine_.beliefs;
        const auto late_us = static_cast<TimeUs>(machine_.drum_dead_time_s * 1e6);
        bool begun = false;
        for (std::size_t i = steps.size(); i-- > 1;) {
            const BeliefStep& later = steps[i];
            const BeliefStep& at = steps[i - 1];
            drum_.dt_s = static_cast<double>(later.time_us - at.time_us) / 1e6;
            if (drum_.dt_s > kLongestStepS) {
                begun = false;
                continue;
            }
            to_m2_ = area_.at(later.time_us - late_us);
            from_m2_ = area_.at(at.time_us - late_us);
            drum_.area_m2 = to_m2_ - from_m2_;
            if (!begun) {
                smoother_.begin(later);
                open_.clear();
            }
            begun = true;
            smoother_.step(at, later, drum_);
            find_loss(later);
            spread_step();
        }
    }
    std::vector<CellPeas> cells;
    [[nodiscard]] double lost_kg() const { return lost_kg_; }
    [[nodiscard]] double placed_kg() const { return placed_kg_; }

  private:
    // The drum hides patches of a few paces: the weight cannot tell how uneven they are, only how uneven the
    // crop is beyond them. It is taken to be so at all scales alike. What patches add to the doubt about all
    // that was cut up to a place grows with the root of their variance, as for any random walk weighed with
    // white noise.
    void find_patches() {
        if (machine_.beliefs.empty() || drum_.patch_m <= 0.0) return;
        const double more_uneven = static_cast<double>(machine_.beliefs.back().crop_cv) /
                                   static_cast<double>(machine_.parameters.crop_cv);
        patches_ =
            std::clamp(more_uneven * more_uneven, kLeastPatches, std::max(1.0, kPlotPatchM / drum_.patch_m));
        hidden_ = std::sqrt(patches_);
    }
    // A loss sensor tells what was lost there; without one the curve does, by the rate.
    void find_loss(const BeliefStep& later) {
        const double kg = std::max(0.0, smoother_.kg());
        const double rate_kgps = kg / drum_.dt_s;
        const auto told = static_cast<double>(later.loss_share);
        const double lost_per_kg =
            told > 0.0 && told < 1.0 ? told / (1.0 - told) : loss_.lost_per_kg(rate_kgps);
        step_lost_kg_ = kg * lost_per_kg;
        step_lost_sd_kg_ = step_lost_kg_ * loss_.ln_sd(rate_kgps);
        lost_kg_ += step_lost_kg_;
    }
    void spread_step() {
        touched_.clear();
        if (drum_.area_m2 > 0.0) find_touched();
        for (OpenCell& open : open_) {
            const auto touched = std::find_if(touched_.begin(), touched_.end(),
                                              [&open](const CellShare& t) { return t.cell == open.cell; });
            const double tied = smoother_.pull().dot(open.with_state);
            open.with_state = smoother_.gain() * open.with_state;
            ++open.idle;
            if (touched == touched_.end()) continue;
            cells[open.cell].variance_kg2 += hidden_ * 2.0 * touched->share * tied;
            add(open, *touched);
            touched->cell = kNone;
        }
        for (const CellShare& touched : touched_) {
            if (touched.cell == kNone) continue;
            open_.push_back({touched.cell, BeliefSmoother::State::Zero(), 0});
            add(open_.back(), touched);
        }
        open_.erase(std::remove_if(open_.begin(), open_.end(),
                                   [](const OpenCell& open) { return open.idle > kTiedSteps; }),
                    open_.end());
    }
    void add(OpenCell& open, const CellShare& touched) {
        CellPeas& peas = cells[open.cell];
        const double kg = touched.share * smoother_.kg();
        peas.kg += kg;
        placed_kg_ += kg;
        peas.lost_kg += touched.share * step_lost_kg_;
        peas.lost_sd_kg += touched.share * step_lost_sd_kg_;
        peas.variance_kg2 += hidden_ * touched.share * touched.share * smoother_.variance_kg2();
        // Of two parts of a step the patches of a few paces say which is the richer; nobody else does.
        const double far_m = drum_.area_m2 / drum_.width_m;
        peas.variance_kg2 += patches_ * smoother_.kg() * smoother_.kg() * drum_.patch_m / far_m *
                             touched.share * (1.0 - touched.share);
        open.with_state += touched.share * smoother_.with_state();
        open.idle = 0;
    }
    // Cells of the ground cut from from_m2_ to to_m2_, with their shares of it.
    void find_touched() {
        while (quad_ > 0 && swath_.quads[quad_ - 1].from_m2 >= to_m2_) --quad_;
        for (std::size_t q = quad_; q-- > 0 && swath_.quads[q].to_m2 > from_m2_;) {
            const SwathQuad& quad = swath_.quads[q];
            const double both_m2 = std::min(to_m2_, quad.to_m2) - std::max(from_m2_, quad.from_m2);
            if (both_m2 <= 0.0) continue;
            const double part = both_m2 / drum_.area_m2;
            for (std::size_t s = quad.first_share; s < quad.first_share + quad.shares; ++s) {
                const CellShare& share = swath_.shares[s];
                const auto same = std::find_if(touched_.begin(), touched_.end(),
                                               [&share](const CellShare& t) { return t.cell == share.cell; });
                if (same == touched_.end()) {
                    touched_.push_back({share.cell, part * share.share});
                } else {
                    same->share += part * share.share;
                }
                if (share.cell >= cells.size()) cells.resize(share.cell + 1);
            }
        }
    }

    static constexpr std::size_t kNone = ~std::size_t{0};
    const MachineResult& machine_;
    const SwathQuads& swath_;
    AreaByTime area_;
    LossByRate loss_;
    BeliefSmoother smoother_;
    DrumStep drum_;
    double patches_ = 1.0;  // their variance over what was told, and its root
    double hidden_ = 1.0;
    double from_m2_ = 0.0;
    double to_m2_ = 0.0;
    std::size_t quad_;  // one after the last that may still be touched
    std::vector<CellShare> touched_;
    std::vector<OpenCell> open_;
    double step_lost_kg_ = 0.0;
    double step_lost_sd_kg_ = 0.0;
    double lost_kg_ = 0.0;  // of all steps, placed or not
    double placed_kg_ = 0.0;
};

}  // namespace

PeasByCell peas_by_cell(const MachineResult& machine, const SwathQuads& swath) {
    PeasByCell peas;
    if (!machine.usable) return peas;
    BackwardSpread spread(machine, swath);
    spread.run();
    peas.cells = std::move(spread.cells);
    peas.unplaced_kg = static_cast<double>(machine.last.harvested_kg) - spread.placed_kg();
    // Told place by place, scaled to what is told of the whole run.
    const auto run_lost_kg = static_cast<double>(machine.lost.lost_kg);
    const double scale = spread.lost_kg() > 0.0 ? run_lost_kg / spread.lost_kg() : 0.0;
    peas.unplaced_lost_kg = run_lost_kg;
    for (CellPeas& cell : peas.cells) {
        cell.lost_kg *= scale;
        cell.lost_sd_kg *= scale;
        peas.unplaced_lost_kg -= cell.lost_kg;
    }
    // What all of the machine's cells share.
    const auto gain_sd = static_cast<double>(machine.parameters.weight_gain_sd_share);
    for (CellPeas& cell : peas.cells)
        cell.variance_kg2 = std::max(0.0, cell.variance_kg2) + gain_sd * gain_sd * cell.kg * cell.kg;
    return peas;
}

}  // namespace podrate::sim
