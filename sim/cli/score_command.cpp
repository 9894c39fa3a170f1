#include <cstdio>
#include <memory>

#include "cli/commands.hpp"
#include "score/score.hpp"

namespace podrate::sim {
namespace {

struct ScoreCall {
    std::string results;
    std::string day;
    bool json = false;
};

}  // namespace

Run add_score(CLI::App& app) {
    auto options = std::make_shared<ScoreCall>();
    CLI::App* command =
        app.add_subcommand("score", "Hold a replay (with --estimates) against a synthetic day's truth");
    command->add_option("results", options->results, "Folder that `podrate replay` wrote")->required();
    command->add_option("day", options->day, "The synthetic day's folder")->required();
    command->add_flag("--json", options->json, "As JSON");
    return [options] {
        const DayScore score = score_day(options->results, options->day);
        std::fputs((options->json ? score_json(score) : score_text(score)).c_str(), stdout);
        return static_cast<int>(kDone);
    };
}

}  // namespace podrate::sim
