// Prints how well the estimator does, from the true plant on.
// usage: podrate_accuracy [--seeds N] [--hours H] [--faults SCENARIO] [--losses SCENARIO] [--gang SCENARIO]
// [--plan SCENARIO] [--check] [SCENARIO...]
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <exception>

#include "accuracy_table/table.hpp"

int main(int argc, char** argv) {
    CLI::App app("Accuracy over many seeds of synthetic days");
    std::uint64_t seeds = 20;
    std::uint64_t fault_seeds = 3;
    std::uint64_t loss_seeds = 20;
    double hours = 0.0;
    bool check = false;
    std::vector<std::string> scenarios;
    std::string faults;
    std::string losses;
    std::string gang;
    std::uint64_t plan_seeds = 20;
    std::string plan;
    app.add_option("--seeds", seeds, "How many seeds, from 1")->check(CLI::Range(1, 1000));
    app.add_option("--fault-seeds", fault_seeds, "The same for the faults")->check(CLI::Range(1, 1000));
    app.add_option("--loss-seeds", loss_seeds, "The same for the losses")->check(CLI::Range(1, 1000));
    app.add_option("--hours", hours, "Hours of each day instead of the scenario's");
    app.add_option("--faults", faults, "Scenario in which each fault happens alone");
    app.add_option("--losses", losses, "Scenario whose loss is to be found");
    app.add_option("--gang", gang, "Scenario of a gang whose loss is to be found");
    app.add_option("--plan", plan, "Scenario of a gang whose day is forecast");
    app.add_option("--plan-seeds", plan_seeds, "How many of its days")->check(CLI::Range(1, 1000));
    app.add_flag("--check", check, "Fail where something misses what is aimed at");
    app.add_option("scenarios", scenarios, "Scenario files");
    CLI11_PARSE(app, argc, argv);
    bool good = true;
    try {
        for (const std::string& scenario : scenarios)
            good = podrate::accuracy::print_seeds(scenario, seeds, hours) && good;
        if (!faults.empty()) good = podrate::accuracy::print_faults(faults, fault_seeds) && good;
        if (!losses.empty()) podrate::accuracy::print_losses(losses, loss_seeds, hours);
        if (!plan.empty()) good = podrate::accuracy::print_plan(plan, plan_seeds, hours) && good;
        if (!gang.empty()) podrate::accuracy::print_gang_losses(gang, loss_seeds, hours);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 2;
    }
    return good || !check ? 0 : 1;
}
