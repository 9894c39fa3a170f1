#include "cli/tune_loss_command.hpp"

#include <spdlog/spdlog.h>

#include <cstdio>

#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "cli/tell_problems.hpp"
#include "live/host_clock.hpp"
#include "parameters/parameter_file.hpp"
#include "report/output_file.hpp"
#include "report/tuning/loss_prior_html.hpp"
#include "report/tuning/loss_prior_words.hpp"

namespace podrate::sim {
namespace {

ParameterSet prior_set(const TuneLossCall& call, const std::optional<KeptSet>& base, const LossOfDays& told) {
    ParameterSet set;
    if (base) {
        set = base->set;
        set.history.push_back(base->set.made);
    }
    const ParameterSet learnt = set_between(told.own, with_prior(told.own, told.fit));
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        if (learnt.values[i]) set.values[i] = learnt.values[i];
    }
    set.made.note = loss_prior_note(told);
    set.made.who = call.who;
    set.made.unix_s = HostClock().now_us() / kSecondUs;
    set.made.made_from = base ? std::filesystem::path(call.parameters).stem().string() : told.own_machine;
    set.made.made_from_mark = base ? base->mark : mark_of(told.own);
    return set;
}

}  // namespace

int run_tune_loss(TuneLossCall& call) {
    std::optional<KeptSet> base;
    if (!call.parameters.empty()) base = read_parameter_set(call.parameters);
    if (base) call.days.base = base->set;
    make_folder(call.out);
    LossOfDays told;
    {
        ProgressLine progress("replaying", call.quiet);
        call.days.progress = [&progress](double share) { progress.show(share); };
        told = loss_of_days(call.days);
    }
    const std::filesystem::path out(call.out);
    const ParameterSet set = prior_set(call, base, told);
    const bool taught = set_between(told.own, with_prior(told.own, told.fit)).named() > 0;
    if (!taught) told.notes.emplace_back("the days teach too little of the loss: no loss_prior.toml made");
    tell_problems(told.problems);
    for (const std::string& note : told.notes) spdlog::warn("{}", note);
    write_file(out / "loss_prior.csv", loss_prior_csv(told.fit));
    write_file(out / "loss_prior.html", loss_prior_html(told));
    if (taught) keep_parameter_set(out / "loss_prior.toml", set);
    if (!call.quiet) {
        std::printf("%s\n", loss_prior_summary(told).c_str());
        for (const std::string& sentence : loss_prior_outliers(told.fit))
            std::printf("%s\n", sentence.c_str());
        std::printf("report: %s\n", (out / "loss_prior.html").c_str());
        if (taught) std::printf("parameter set: %s\n", (out / "loss_prior.toml").c_str());
    }
    return told.notes.empty() && told.problems.faults() == 0 ? kDone : kPartly;
}

}  // namespace podrate::sim
