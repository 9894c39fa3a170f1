// Whether a filter's innovations are as unlike one another as they should be.
#pragma once

#include "podrate/filter/innovation_block.hpp"
#include "podrate/real.hpp"

namespace podrate {

// The innovations of a filter whose model has the right spread are white. Where the model is too stiff they
// run on in one direction, where it is too loose they swing back (Mehra 1970, IEEE Trans. Autom. Control 15:
// 175-184). Means over two seconds are compared with those before, since a drum's tone at a few hertz must
// not count.
class Whiteness {
  public:
    // One innovation; variance: of the state's share and of the reading's noise, apart. Returns true where a
    // second is full and `score` holds its word: 0 on average for a white sequence, above for one that runs
    // on; variance about 1.
    bool add(Real dt_s, Real residual, Real state_variance, Real noise_variance, Real& score);

    // Forgets the seconds before (a tip, a jump, a pause).
    void restart();

  private:
    InnovationBlock block_;
    Real past_ = Real(0);  // leaky sum of the means before
    Real past_variance_ = Real(0);
};

}  // namespace podrate
