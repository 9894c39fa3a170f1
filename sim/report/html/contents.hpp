// A line of links to the parts of a long page.
#pragma once

#include <string>

namespace podrate::sim {

// `body` with an anchor before each <h2> and, in the place of `mark`, links to them all. On paper the links
// stay away.
std::string with_contents(std::string body, const std::string& mark);

}  // namespace podrate::sim
