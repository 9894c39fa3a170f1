// Measures `podrate replay` on a 24 h, 10 Hz log: seconds of processor time and peak memory of the process.
// usage: podrate_bench PODRATE SCENARIO FOLDER [RUNS]
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

extern char** environ;

namespace {

struct Usage {
    double wall_s = 0.0;
    double cpu_s = 0.0;
    double peak_mb = 0.0;
};

double seconds(const timeval& t) {
    return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_usec) / 1e6;
}

Usage run(const std::vector<std::string>& words) {
    std::vector<char*> argv;
    for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
    argv.push_back(nullptr);
    const auto begun = std::chrono::steady_clock::now();
    pid_t child = 0;
    if (posix_spawn(&child, argv[0], nullptr, nullptr, argv.data(), environ) != 0) {
        std::perror(argv[0]);
        std::exit(2);
    }
    int status = 0;
    rusage usage = {};
    wait4(child, &status, 0, &usage);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
        std::fprintf(stderr, "%s failed\n", argv[0]);
        std::exit(1);
    }
    const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
    return {wall_s, seconds(usage.ru_utime) + seconds(usage.ru_stime),
            static_cast<double>(usage.ru_maxrss) / 1024.0};
}

void report(const char* name, std::vector<Usage> runs) {
    std::sort(runs.begin(), runs.end(), [](const Usage& a, const Usage& b) { return a.cpu_s < b.cpu_s; });
    const Usage& median = runs[runs.size() / 2];
    std::printf("%-28s median of %zu: %.2f s wall, %.2f s processor, peak %.0f MB\n", name, runs.size(),
                median.wall_s, median.cpu_s, median.peak_mb);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 4) {
        std::fprintf(stderr, "usage: %s PODRATE SCENARIO FOLDER [RUNS]\n", argv[0]);
        return 2;
    }
    const std::string podrate = argv[1];
    const std::string folder = argv[3];
    const int runs = argc > 4 ? std::max(1, std::atoi(argv[4])) : 5;
    if (!std::filesystem::exists(folder + "/day/day.toml")) {
        run({podrate, "synth", argv[2], "--out", folder + "/day", "--quiet"});
    }
    std::vector<Usage> plain;
    std::vector<Usage> with_estimates;
    for (int i = 0; i < runs; ++i) {
        plain.push_back(run({podrate, "replay", folder + "/day", "--out", folder + "/out", "--quiet"}));
        with_estimates.push_back(
            run({podrate, "replay", folder + "/day", "--out", folder + "/out", "--quiet", "--estimates"}));
    }
    report("replay, 24 h at 10 Hz", plain);
    report("the same with --estimates", with_estimates);
    return 0;
}
