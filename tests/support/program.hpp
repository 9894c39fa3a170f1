// Runs the podrate program as a user would.
#pragma once

#include <string>
#include <vector>

namespace podrate::test {

struct ProgramRun {
    int exit_code = -1;  // -1: it ended by a signal
    std::string out;
    std::string err;
};

// Standard input is empty, standard output and error are no terminals.
ProgramRun run_podrate(const std::vector<std::string>& arguments);

}  // namespace podrate::test
