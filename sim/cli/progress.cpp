#include "cli/progress.hpp"

#include <unistd.h>

#include <cstdio>

namespace podrate::sim {
namespace {

constexpr std::chrono::milliseconds kBetween{100};

}  // namespace

ProgressLine::ProgressLine(std::string what, bool quiet)
    : what_(std::move(what)),
      shown_(!quiet && isatty(STDERR_FILENO) == 1),
      begun_(std::chrono::steady_clock::now()),
      last_(begun_) {}

ProgressLine::~ProgressLine() {
    if (drawn_) std::fputs("\r\x1b[K", stderr);
}

void ProgressLine::show(double share) {
    const auto now = std::chrono::steady_clock::now();
    if (!shown_ || now - last_ < kBetween) return;
    last_ = now;
    drawn_ = true;
    const double elapsed_s = std::chrono::duration<double>(now - begun_).count();
    const double left_s = share > 0.01 ? elapsed_s * (1.0 - share) / share : 0.0;
    std::fprintf(stderr, "\r\x1b[K%s %3.0f %%, %.0f s left", what_.c_str(), 100.0 * share, left_s);
    std::fflush(stderr);
}

}  // namespace podrate::sim
