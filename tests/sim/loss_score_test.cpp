#include "score/loss_score.hpp"

#include <catch2/catch.hpp>

#include "score/score.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

// Two minutes of cut: half at 4 %, half at 8 % with twice the crop, then a turn.
TruePlant plant() {
    TruePlant p;
    p.drum.dead_time_s = 6.0;
    p.drum_loss_known = true;
    for (int i = 0; i < 130; ++i) {
        TrueSecond s;
        s.unix_s = 1000.0 + i;
        s.standing_kgpm2 = i < 60 ? 0.5 : 1.0;
        s.area_rate_m2ps = i < 120 ? 2.5 : 0.0;
        s.loss_share = i < 60 ? 0.04 : 0.08;
        s.drum_loss_share = 0.25 * s.loss_share;
        p.seconds.push_back(s);
    }
    return p;
}

LossPart part(double true_share, double share, double low, double high) {
    LossPart p;
    p.known = true;
    p.true_share = true_share;
    p.share = share;
    p.low = low;
    p.high = high;
    return p;
}

}  // namespace

TEST_CASE("The true mean loss weighs each second by the peas that stood there") {
    const TrueLoss truth = true_loss(plant());
    CHECK(truth.mean_total == Approx((0.04 + 2 * 0.08) / 3.0));
    CHECK(truth.mean_drum == Approx(0.25 * (0.04 + 2 * 0.08) / 3.0));
    CHECK(truth.total[30] == Approx(0.04));
    CHECK(truth.total[125] < 0.0);
    // Five of eleven seconds lie beyond the step.
    CHECK(truth.total[59] == Approx((6 * 0.04 + 5 * 0.08) / 11.0));
    CHECK(truth.drum[59] == Approx(0.25 * truth.total[59]));
}

TEST_CASE("Shares are smoothed over the seconds of cut alone") {
    std::vector<double> shares = {0.1, -1.0, 0.3, 0.5, -1.0, -1.0, -1.0, -1.0, 0.9};
    smooth_shares(shares, 4);
    CHECK(shares[0] == Approx(0.2));
    CHECK(shares[1] == -1.0);
    CHECK(shares[2] == Approx(0.3));
    CHECK(shares[3] == Approx(0.4));
    CHECK(shares[8] == Approx(0.9));
    std::vector<double> none;
    smooth_shares(none, 10);
    CHECK(none.empty());
}

TEST_CASE("A truth that does not tell the drum apart gives no drum's loss") {
    TruePlant p = plant();
    p.drum_loss_known = false;
    const TrueLoss truth = true_loss(p);
    CHECK_FALSE(truth.drum_known);
    CHECK(truth.mean_drum == 0.0);
    for (const double share : truth.drum) CHECK(share < 0.0);
    CHECK(true_loss(TruePlant{}).mean_total == 0.0);
}

TEST_CASE("What is told of the drum is held against the crop cut a dead time before") {
    const test::TempFolder folder;
    const TruePlant p = plant();
    const TrueLoss truth = true_loss(p);
    std::string text = "unix_s,drum_loss_share\n";
    for (int i = 10; i < 120; ++i) {
        const double share = truth.drum[static_cast<std::size_t>(i - 6)] + (i % 2 == 0 ? 0.01 : -0.01);
        text += std::to_string(1000.0 + i) + ',' + std::to_string(share) + '\n';
    }
    (void)folder.file("losses_viner_1.csv", text);
    LossPart drum;
    score_drum_seconds(folder.path(), folder.path(), "viner_1", p, truth, drum);
    CHECK(drum.seconds.count == 110);
    CHECK(drum.seconds.value() == Approx(0.01).margin(1e-5));
}

TEST_CASE("An interval holds its ends and the error has its sign") {
    CHECK(part(0.05, 0.06, 0.05, 0.08).held());
    CHECK(part(0.08, 0.06, 0.05, 0.08).held());
    CHECK_FALSE(part(0.081, 0.06, 0.05, 0.08).held());
    CHECK(part(0.08, 0.06, 0.05, 0.08).error() == Approx(-0.02));
}

TEST_CASE("A gang's loss weighs its machines by what stood before them") {
    LossScore a;
    a.total = part(0.04, 0.05, 0.03, 0.08);
    a.drum = part(0.01, 0.02, 0.005, 0.04);
    LossScore b;
    b.total = part(0.1, 0.05, 0.03, 0.08);
    LossTotal total;
    total.add(a, 1000.0, 1000.0);
    total.add(b, 3000.0, 2000.0);
    const LossScore all = total.score();
    CHECK(all.total.true_share == Approx((0.04 + 3 * 0.1) / 4.0));
    CHECK(all.total.share == Approx(0.05));
    CHECK(all.machines == 2);
    CHECK(all.total_held == 1);
    CHECK_FALSE(all.drum.known);
    CHECK(all.drum_known == 1);
    CHECK(LossTotal{}.score().total.share == 0.0);
}
