#include "support/program.hpp"

#include <sys/wait.h>

#include <cstdlib>

#include "support/temp_folder.hpp"

namespace podrate::test {
namespace {

std::string quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text) {
        if (c == '\'') {
            out += "'\\''";
        } else {
            out += c;
        }
    }
    return out + "'";
}

}  // namespace

ProgramRun run_podrate(const std::vector<std::string>& arguments) {
    const TempFolder folder;
    // A sanitizer's finding must not pass for one of the program's own exit codes.
    std::string command = "ASAN_OPTIONS=exitcode=99 UBSAN_OPTIONS=exitcode=99 " + quoted(PODRATE_PROGRAM);
    for (const std::string& argument : arguments) command += ' ' + quoted(argument);
    command +=
        " </dev/null >" + quoted((folder / "out").string()) + " 2>" + quoted((folder / "err").string());
    const int status = std::system(command.c_str());
    ProgramRun run;
    if (WIFEXITED(status) && WEXITSTATUS(status) < 126) run.exit_code = WEXITSTATUS(status);
    run.out = text_of(folder / "out");
    run.err = text_of(folder / "err");
    return run;
}

}  // namespace podrate::test
