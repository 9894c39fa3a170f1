// The least of a function that takes a while and may have steps.
#pragma once

#include <functional>
#include <vector>

namespace podrate::sim {

struct SearchRange {
    double low = 0.0;
    double high = 1.0;
    double step = 0.0;  // values are whole multiples of it, ends apart; 0: any
};

using SearchFunction = std::function<double(const std::vector<double>& values)>;

// Asks for `most` different places at most, `function` never twice for one. First by halving boxes all over
// the ranges (DIRECT-L: Gablonsky & Kelley 2001, Journal of Global Optimization 21: 27-37), then by simplexes
// in subspaces from the best found (Sbplx, after Rowan 1990), both of NLopt. Draws nothing: the same
// function, the same places. Returns the best place; of several the first asked for.
std::vector<double> search_least(const std::vector<SearchRange>& ranges, int most,
                                 const SearchFunction& function);

}  // namespace podrate::sim
