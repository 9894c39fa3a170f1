// What was wrong with an input, where, and how to mend it.
#pragma once

#include <cstdint>
#include <stdexcept>
#include <string>
#include <vector>

namespace podrate::sim {

struct Problem {
    std::string file;
    std::uint64_t line = 0;  // 1 is the first; 0: the file as a whole
    std::string reason;
    std::string mend;
    bool note = false;  // true: worth knowing, but nothing of the input was left out
};

// "file:line: reason; mend"
std::string to_text(const Problem& problem);

// Input that can't be used at all: the run is refused (exit 2).
class RefusedInput : public std::runtime_error {
  public:
    explicit RefusedInput(Problem problem);
    [[nodiscard]] const Problem& problem() const { return problem_; }

  private:
    Problem problem_;
};

// Problems that were worked around. Keeps the first ones in full and counts the rest.
class Problems {
  public:
    void add(Problem problem);
    [[nodiscard]] const std::vector<Problem>& kept() const { return kept_; }
    [[nodiscard]] std::uint64_t count() const { return count_; }
    // Things left out, notes not counted.
    [[nodiscard]] std::uint64_t faults() const { return faults_; }
    void append(const Problems& other);

  private:
    static constexpr std::size_t kMost = 50;
    std::vector<Problem> kept_;
    std::uint64_t count_ = 0;
    std::uint64_t faults_ = 0;
};

}  // namespace podrate::sim
