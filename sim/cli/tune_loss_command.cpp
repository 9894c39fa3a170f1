#include "cli/tune_loss_command.hpp"

#include <spdlog/spdlog.h>

#include <cstdio>

#include "cli/base_set.hpp"
#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "cli/tell_problems.hpp"
#include "log/problem.hpp"
#include "report/folder_lock.hpp"
#include "report/output_file.hpp"
#include "report/tuning/loss_prior_html.hpp"
#include "report/tuning/loss_prior_words.hpp"

namespace podrate::sim {
namespace {

ParameterSet prior_set(const TuneLossCall& call, const BaseSet& base, const LossOfDays& told,
                       const ParameterSet& learnt) {
    ParameterSet set = set_after(
        base.set(), entry_now(base, told.own_machine, mark_of(told.own), call.who, loss_prior_note(told)));
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        if (learnt.values[i]) set.values[i] = learnt.values[i];
    }
    return set;
}

// What these days do not teach, those of an earlier run did: it is no result of these.
std::string set_aside(const std::filesystem::path& file) {
    std::error_code unseen;
    if (!std::filesystem::exists(file, unseen)) return {};
    const std::filesystem::path aside = file.string() + ".earlier";
    std::filesystem::rename(file, aside, unseen);
    if (unseen) throw RefusedInput({file.string(), 0, "can't be moved aside", "check the permissions"});
    return "; that of an earlier run is now " + aside.string();
}

}  // namespace

int run_tune_loss(TuneLossCall& call) {
    const BaseSet base = read_base(call.parameters);
    call.days.base = base.set();
    const Descriptor held = hold_folder(call.out);
    LossOfDays told;
    {
        ProgressLine progress("replaying", call.quiet);
        call.days.progress = [&progress](double share) { progress.show(share); };
        told = loss_of_days(call.days);
    }
    const std::filesystem::path out(call.out);
    const ParameterSet learnt = set_between(told.own, with_prior(told.own, told.fit));
    const bool taught = learnt.named() > 0;
    const std::filesystem::path file = out / "loss_prior.toml";
    if (!taught)
        told.notes.push_back("the days teach too little of the loss: no loss_prior.toml made" +
                             set_aside(file));
    tell_problems(told.problems);
    for (const std::string& note : told.notes) spdlog::warn("{}", note);
    write_file(out / "loss_prior.csv", loss_prior_csv(told.fit));
    write_file(out / "loss_prior.html", loss_prior_html(told));
    if (taught) keep_parameter_set(file, prior_set(call, base, told, learnt));
    if (!call.quiet) {
        std::printf("%s\n", loss_prior_summary(told).c_str());
        for (const std::string& sentence : loss_prior_outliers(told.fit))
            std::printf("%s\n", sentence.c_str());
        std::printf("report: %s\n", (out / "loss_prior.html").c_str());
        if (taught) std::printf("parameter set: %s\n", file.c_str());
    }
    return told.notes.empty() && told.problems.faults() == 0 ? kDone : kPartly;
}

}  // namespace podrate::sim
