// The score's lines on loss.
#pragma once

#include <string>

#include "score/loss_score.hpp"

namespace podrate::sim {

std::string loss_text(const LossScore& loss);

}  // namespace podrate::sim
