// bits SAMPLES [EVERY]: the estimates after each weight, as a hash that is printed every EVERY steps, and the
// totals to the last bit.
#include "embedded/estimate_hash.hpp"
#include "embedded/run_samples.hpp"

namespace podrate::test {
namespace {

Memory memory;

class Bits {
  public:
    explicit Bits(std::uint32_t every) : every_(every) {}

    void operator()(Estimator& estimator, const Sample& sample) {
        refused_ += estimator.feed(sample) == FeedResult::taken ? 0 : 1;
        if (sample.channel != Channel::weight) return;
        fold(hash_, estimator.read());
        const Load& load = estimator.last_load();
        if (load.number != load_ || load.revision != revision_) {
            load_ = load.number;
            revision_ = load.revision;
            fold(hash_, load);
        }
        if (++step_ % every_ == 0) tell();
    }

    void finish(const Estimator& estimator) {
        const LossSoFar lost = estimator.loss_so_far();
        const Estimate e = estimator.read();
        hash_.reals(lost.collected_kg, lost.lost_kg, lost.drum_kg, lost.shares.total.share,
                    lost.shares.total.low, lost.shares.total.high);
        tell();
        Line().text("refused ").number(refused_).print();
        Line().text("loads ").number(load_).print();
        Line().text("harvested_kg ").bits(e.harvested_kg).print();
        Line().text("area_m2 ").bits(e.area_m2).print();
        Line().text("lost_kg ").bits(lost.lost_kg).print();
        Line().text("loss_share ").bits(lost.shares.total.share).print();
    }

  private:
    void tell() { Line().text("step ").number(step_).text(" ").hex(hash_.value(), 16).print(); }

    Hash hash_;
    std::uint32_t every_;
    std::uint32_t step_ = 0;
    std::uint32_t load_ = 0;
    std::uint32_t revision_ = 0;
    std::uint32_t refused_ = 0;
};

}  // namespace

int work(int count, const char* const* words) {
    const std::uint32_t every = count > 2 ? number_of(words[2]) : 0;
    Bits bits(every > 0 ? every : 1000);
    return run_samples(count > 1 ? words[1] : nullptr, memory, bits);
}

}  // namespace podrate::test
