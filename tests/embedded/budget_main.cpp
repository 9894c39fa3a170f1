// budget SAMPLES: instructions in each 10 Hz step (all samples of one 100 ms, and one read()), counted by the
// board's ticks; RAM and stack. Prints `name value` lines.
#include "embedded/run_samples.hpp"

namespace podrate::test {
namespace {

Memory memory;

constexpr TimeUs kStepUs = kSecondUs / 10;
constexpr int kChannels = 8;
const char* const kNames[kChannels + 1] = {"weight", "speed", "tilt", "position", "heading",
                                           "reel",   "hits",  "tray", "read"};
constexpr int kRead = kChannels;

std::uint32_t since(std::uint32_t begun) {
    return (board::ticks() - begun) & board::kTickMask;
}

std::uint64_t instructions(std::uint64_t ticks) {
    return (ticks * 100 + board::kTicksPer100 / 2) / board::kTicksPer100;
}

#ifdef __arm__
// 2 instructions a round.
[[gnu::noinline]] void loop_of(std::uint32_t rounds) {
    asm volatile("1: subs %0, #1\n bne 1b\n" : "+r"(rounds) : : "cc");
}
#else
void loop_of(std::uint32_t) {}
#endif

std::uint32_t ticks_of_loop(std::uint32_t rounds) {
    const std::uint32_t begun = board::ticks();
    loop_of(rounds);
    return since(begun);
}

struct Cost {
    std::uint64_t sum = 0;
    std::uint32_t count = 0;
    std::uint32_t most = 0;
    void add(std::uint32_t ticks) {
        sum += ticks;
        ++count;
        if (ticks > most) most = ticks;
    }
    void tell(const char* what, const char* name) const {
        if (count == 0) return;
        Line()
            .text(what)
            .text(name)
            .text(" mean ")
            .number(instructions(sum / count))
            .text(" most ")
            .number(instructions(most))
            .text(" count ")
            .number(count)
            .print();
    }
};

// What one step consisted of.
struct Step {
    TimeUs slot = 0;
    std::uint32_t ticks = 0;
    std::uint32_t part[kChannels + 1] = {};
    WorkState state = WorkState::stopped;
};

class Budget {
  public:
    Budget() {
        const std::uint32_t begun = board::ticks();
        overhead_ = since(begun);
    }

    void operator()(Estimator& estimator, const Sample& sample) {
        const TimeUs slot = sample.time_us / kStepUs;
        if (slot != now_.slot) {
            close(estimator);
            now_ = Step();
            now_.slot = slot;
        }
        const std::uint32_t begun = board::ticks();
        estimator.feed(sample);
        add(static_cast<int>(sample.channel), since(begun) - overhead_);
    }

    void finish(Estimator& estimator) {
        close(estimator);
        const std::uint32_t begun = board::ticks();
        const LossSoFar lost = estimator.loss_so_far();
        const std::uint32_t page = since(begun) - overhead_;
        Line().text("lost_kg ").bits(lost.lost_kg).print();
        Line().text("loop_10000 ").number(instructions(ticks_of_loop(20000) - ticks_of_loop(10000))).print();
        all_.tell("", "step");
        for (int i = 0; i <= kChannels; ++i) parts_[i].tell("part ", kNames[i]);
        Line().text("loss_so_far ").number(instructions(page)).print();
        Line().text("steps_over_30000 ").number(over_).print();
        tell_most("most", most_);
        tell_most("most_without_tray", most_without_tray_);
        Line().text("estimator_bytes ").number(sizeof(Estimator)).print();
        Line().text("stack_used ").number(board::stack_used()).print();
    }

  private:
    void add(int part, std::uint32_t ticks) {
        now_.part[part] += ticks;
        now_.ticks += ticks;
        parts_[part].add(ticks);
    }

    void close(const Estimator& estimator) {
        if (now_.slot == 0) return;
        const std::uint32_t begun = board::ticks();
        const Estimate e = estimator.read();
        add(kRead, since(begun) - overhead_);
        now_.state = e.state;
        all_.add(now_.ticks);
        if (instructions(now_.ticks) > 30000) ++over_;
        if (now_.ticks > most_.ticks) most_ = now_;
        if (now_.part[static_cast<int>(Channel::tray)] == 0 && now_.ticks > most_without_tray_.ticks)
            most_without_tray_ = now_;
    }

    static void tell_most(const char* name, const Step& step) {
        Line line;
        line.text(name).text(" ").number(instructions(step.ticks)).text(" at_s ");
        line.number(static_cast<std::uint64_t>(step.slot / 10)).text(" ").text(name_of(step.state));
        for (int i = 0; i <= kChannels; ++i) {
            if (step.part[i] > 0) line.text(" ").text(kNames[i]).text(" ").number(instructions(step.part[i]));
        }
        line.print();
    }

    std::uint32_t overhead_ = 0;
    std::uint32_t over_ = 0;
    Step now_;
    Step most_;
    Step most_without_tray_;
    Cost all_;
    Cost parts_[kChannels + 1];
};

}  // namespace

int work(int count, const char* const* words) {
    Budget budget;
    return run_samples(count > 1 ? words[1] : nullptr, memory, budget);
}

}  // namespace podrate::test
