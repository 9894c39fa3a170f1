// While the trap is set, any use of the heap ends the program with exit code 3.
#pragma once

namespace podrate::test {

void set_trap(bool on);

}  // namespace podrate::test
