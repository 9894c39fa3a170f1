#include "log/problem.hpp"

#include <utility>

namespace podrate::sim {

std::string to_text(const Problem& problem) {
    std::string text = problem.file;
    if (problem.line > 0) text += ":" + std::to_string(problem.line);
    text += ": " + problem.reason;
    if (!problem.mend.empty()) text += "; " + problem.mend;
    return text;
}

RefusedInput::RefusedInput(Problem problem)
    : std::runtime_error(to_text(problem)), problem_(std::move(problem)) {}

void Problems::add(Problem problem) {
    ++count_;
    if (!problem.note) ++faults_;
    if (kept_.size() < kMost) kept_.push_back(std::move(problem));
}

void Problems::append(const Problems& other) {
    for (const Problem& problem : other.kept_) {
        if (kept_.size() < kMost) kept_.push_back(problem);
    }
    count_ += other.count_;
    faults_ += other.faults_;
}

}  // namespace podrate::sim
