// Tells one program from another, so that what an earlier one made is not taken for this one's.
#pragma once

namespace podrate::sim {

// 16 hexadecimal digits: a hash of the sources of core and host side, made when they are built.
const char* program_mark();

}  // namespace podrate::sim
