#include "bench/alarm_book.hpp"

#include <algorithm>
#include <future>
#include <limits>
#include <utility>

#include "bench/edited_parameters.hpp"
#include "tune/day_truth.hpp"
#include "tune/marked_episodes.hpp"
#include "tune/sweep.hpp"

namespace podrate::ui {
namespace {

constexpr std::size_t kMostKnown = 4;  // runs of a machine: its own, before, after and the one before that

std::vector<sim::Episode> episodes_of(const OpenDay& day, std::vector<std::string>& refusals) {
    sim::Problems problems;
    std::vector<sim::Episode> marked;
    try {
        marked = sim::read_marked_episodes(day.folder, day.day, problems);
    } catch (const sim::RefusedInput& refused) {
        refusals.emplace_back(refused.what());
    }
    for (const sim::Problem& problem : problems.kept()) refusals.push_back(sim::to_text(problem));
    return marked;
}

}  // namespace

AlarmBook::AlarmBook(std::shared_ptr<const OpenDay> day, const std::function<void()>& wake)
    : day_(std::move(day)),
      machines_(day_->day.machines.size()),
      rerun_(wake),
      truth_aside_(wake),
      curve_aside_(wake) {
    for (std::size_t i = 0; i < machines_.size(); ++i)
        machines_[i].refused = !day_->result.machines[i].usable;
}

std::shared_ptr<const AlarmBook::DayTruth> AlarmBook::read_truth(const OpenDay& day,
                                                                 const std::atomic<bool>& cancel) {
    struct CalledOff {};
    auto truth = std::make_shared<DayTruth>();
    truth->marked = episodes_of(day, truth->refusals);
    for (const sim::Machine& machine : day.day.machines) {
        const auto replayed = [&] {
            return sim::replay_machine(machine, {}, [&](std::uint64_t) {
                if (cancel.load(std::memory_order_relaxed)) throw CalledOff{};
            });
        };
        try {
            truth->unmarked.push_back(sim::unmarked_truth(day.folder, machine, replayed));
        } catch (const CalledOff&) {
            return nullptr;
        } catch (const std::exception& error) {
            truth->unmarked.emplace_back();
            truth->refusals.emplace_back(error.what());
        }
        if (cancel.load(std::memory_order_relaxed)) return nullptr;
    }
    return truth;
}

void AlarmBook::know(std::size_t machine, const RerunResult& run) {
    if (run.trace == nullptr || !run.machine.usable) return;
    std::vector<Known>& known = machines_[machine].known;
    std::erase_if(known, [&](const Known& one) {
        return one.trace == run.trace || same_but_for_alarms(one.parameters, run.machine.parameters);
    });
    known.insert(known.begin(), {run.machine.parameters, run.trace, run.times});
    // What others hold is held once; the machine's own run serves again and again.
    if (known.size() > kMostKnown) {
        const Parameters& own = day_->day.machines[machine].parameters;
        const bool last_is_own = same_but_for_alarms(known.back().parameters, own);
        known.erase(known.end() - (last_is_own ? 2 : 1));
    }
}

void AlarmBook::look(const BookPage& page) {
    page_ = page;
    looked_ = true;
    update();
}

bool AlarmBook::refresh() {
    bool news = false;
    if (const auto truth = truth_aside_.take()) {
        for (std::size_t i = 0; i < machines_.size(); ++i) machines_[i].unmarked = truth->unmarked[i];
        in_file_ = truth->marked;
        refusals_ = truth->refusals;
        read_ = true;
        lay_marks();
        news = true;
    }
    if (const auto run = rerun_.take()) {
        const std::size_t machine = asked_run_->first;
        if (!run->machine.usable) machines_[machine].refused = true;
        know(machine, *run);
        asked_run_.reset();
        news = true;
    }
    if (news) update();
    if (auto curve = curve_aside_.take()) {
        curve_ = std::move(curve);
        news = true;
    }
    return news;
}

bool AlarmBook::busy() const {
    return truth_aside_.running() || rerun_.running() || curve_aside_.running();
}

void AlarmBook::mark(TypedEpisode episode) {
    marks_.push_back(std::move(episode));
    lay_marks();
    update();
}

bool AlarmBook::take_back() {
    if (marks_.empty()) return false;
    marks_.pop_back();
    lay_marks();
    update();
    return true;
}

void AlarmBook::take_over(std::vector<TypedEpisode> marks) {
    marks_ = std::move(marks);
    lay_marks();
    update();
}

std::filesystem::path AlarmBook::write() {
    std::filesystem::path path = write_episodes(day_->folder, marks_);
    marks_.clear();
    refusals_.clear();
    in_file_ = episodes_of(*day_, refusals_);
    lay_marks();
    update();
    return path;
}

// Before the truth was read there is nothing to lay them over.
void AlarmBook::lay_marks() {
    if (!read_) return;
    std::vector<sim::Episode> all = in_file_;
    for (const TypedEpisode& mark : marks_) all.push_back(mark.episode);
    auto truths = std::make_shared<std::vector<sim::MachineTruth>>();
    for (std::size_t i = 0; i < machines_.size(); ++i) {
        truths->push_back(machines_[i].unmarked);
        sim::lay_marked_over(all, day_->day.machines[i].id, truths->back());
    }
    truths_ = std::move(truths);
}

const sim::AlarmTruth& AlarmBook::truth(std::size_t machine, AlarmId alarm) const {
    return (*truths_)[machine][static_cast<std::size_t>(alarm)];
}

std::vector<std::size_t> AlarmBook::places() const {
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < machines_.size(); ++i) {
        if (!machines_[i].refused && (page_.together || i == page_.machine)) places.push_back(i);
    }
    return places;
}

Parameters AlarmBook::laid_over(std::size_t machine, const Parameters& of_page) const {
    if (machine == page_.machine) return of_page;
    const Parameters& own = day_->day.machines[page_.machine].parameters;
    Parameters laid = day_->day.machines[machine].parameters;
    for (const ParameterInfo& info : kParameterTable) {
        if (of_page.*info.member != own.*info.member) laid.*info.member = of_page.*info.member;
    }
    return laid;
}

const AlarmBook::Known* AlarmBook::find(std::size_t machine, const Parameters& parameters) const {
    for (const Known& one : machines_[machine].known) {
        if (same_but_for_alarms(one.parameters, parameters)) return &one;
    }
    return nullptr;
}

// False where a run is not known yet. Those of the page's machine are the bench's to ask for.
bool AlarmBook::ask_missing(const std::vector<std::size_t>& places) {
    bool all = true;
    std::optional<std::pair<std::size_t, Parameters>> missing;
    for (const std::size_t machine : places) {
        for (const Parameters* of_page : {&page_.before, &page_.after}) {
            const Parameters parameters = laid_over(machine, *of_page);
            if (find(machine, parameters) != nullptr) continue;
            all = false;
            if (!missing && machine != page_.machine) missing.emplace(machine, parameters);
        }
    }
    const bool under_way = missing && asked_run_ && asked_run_->first == missing->first &&
                           same_but_for_alarms(asked_run_->second, missing->second);
    if (!missing && asked_run_) {
        rerun_.call_off();
        asked_run_.reset();
    }
    if (missing && !under_way) {
        sim::Machine machine = day_->day.machines[missing->first];
        machine.parameters = missing->second;
        rerun_.ask(std::move(machine), day_->series.origin_us);
        asked_run_ = missing;
    }
    return all;
}

void AlarmBook::update() {
    if (!looked_) return;
    if (!read_ && !truth_aside_.running())
        truth_aside_.ask([day = day_](const std::atomic<bool>& cancel) { return read_truth(*day, cancel); });
    const std::vector<std::size_t> at = places();
    const bool runs_known = ask_missing(at);
    counted_ = truth_known() && runs_known && !at.empty();
    if (!counted_) return;
    count(at);
    ask_curve(at);
}

void AlarmBook::judge(std::size_t machine, bool after) {
    const Parameters parameters = laid_over(machine, after ? page_.after : page_.before);
    const Known& run = *find(machine, parameters);
    Judged& judged = machines_[machine].judged[after ? 1 : 0];
    const auto fits = [&](const Judged& one) {
        return one.trace == run.trace && same_values(one.parameters, parameters);
    };
    if (fits(judged)) return;
    const RerunResult* whole = after && machine == page_.machine ? page_.after_run.get() : nullptr;
    if (whole != nullptr && same_values(whole->machine.parameters, parameters)) {
        judged.events = whole->machine.alarms;
    } else if (after && fits(machines_[machine].judged[0])) {
        judged.events = machines_[machine].judged[0].events;
    } else {
        judged.events = sim::alarms_of(*run.trace, parameters);
    }
    judged.trace = run.trace;
    judged.parameters = parameters;
}

// A day of each machine takes some 15 ms: several at once.
void AlarmBook::judge_all(const std::vector<std::size_t>& places) {
    const auto both = [this](std::size_t machine) {
        judge(machine, false);
        judge(machine, true);
    };
    std::vector<std::future<void>> others;
    for (std::size_t i = 1; i < places.size(); ++i)
        others.push_back(std::async(std::launch::async, both, places[i]));
    both(places.front());
    for (std::future<void>& other : others) other.get();
}

void AlarmBook::count(const std::vector<std::size_t>& places) {
    table_ = {};
    table_.settings.resize(2);
    table_.tallies.resize(2);
    for (const std::size_t machine : places) {
        sim::TunedOn& on = table_.on.emplace_back();
        on.day = day_->day.label;
        on.machine = day_->day.machines[machine].id;
        for (std::size_t i = 0; i < on.known_from.size(); ++i) {
            const sim::AlarmTruth& truth = (*truths_)[machine][i];
            if (truth.known) on.known_from[i] = truth.source;
        }
    }
    for (const ParameterInfo& info : kParameterTable) {
        const auto value_of = [&](const Parameters& of_page) {
            std::optional<double> value;
            for (const std::size_t machine : places) {
                const double one = sim::decimal_of(laid_over(machine, of_page).*info.member);
                if (value && *value != one) return std::numeric_limits<double>::quiet_NaN();
                value = one;
            }
            return *value;
        };
        if (page_.before.*info.member == page_.after.*info.member) continue;
        table_.parameters.emplace_back(info.name);
        table_.settings[0].values.push_back(value_of(page_.before));
        table_.settings[1].values.push_back(value_of(page_.after));
    }
    judge_all(places);
    const sim::TuningOptions options;
    const sim::PlaceDraws draws(places.size(), places.size() > 1 ? options.draws : 0, options.seed);
    const std::vector<int> once(places.size(), 1);
    for (std::size_t side = 0; side < 2; ++side) {
        for (const std::size_t machine : places) {
            const Judged& judged = machines_[machine].judged[side];
            table_.tallies[side].push_back(
                sim::tally_of(judged.events, *find(machine, judged.parameters)->times, (*truths_)[machine]));
        }
        const sim::AlarmRow row(table_, side, static_cast<std::size_t>(page_.alarm));
        points_[side] = {row.figures(once), row.sum(once), sim::alarm_ranges(row, draws, options.level)};
    }
}

sim::AlarmOutcomes AlarmBook::outcomes(bool after) const {
    const Judged& judged = machines_[page_.machine].judged[after ? 1 : 0];
    return sim::outcomes_of(judged.events, page_.alarm, truth(page_.machine, page_.alarm),
                            *find(page_.machine, judged.parameters)->times);
}

void AlarmBook::ask_curve(const std::vector<std::size_t>& places) {
    if (!page_.parameter) return;
    CurveQuestion question;
    question.alarm = page_.alarm;
    question.parameter = *page_.parameter;
    question.truths = truths_;
    for (const std::size_t machine : places) {
        const Parameters parameters = laid_over(machine, page_.after);
        const Known& run = *find(machine, parameters);
        question.places.push_back({machine, parameters, run.trace, run.times});
    }
    if (asked_curve_ && same_question(*asked_curve_, question)) return;
    asked_curve_ = question;
    curve_aside_.ask([question = std::move(question)](const std::atomic<bool>& cancel) {
        return reckon_curve(question, cancel);
    });
}

const AlarmCurve* AlarmBook::curve() const {
    if (!counted_ || curve_ == nullptr || !page_.parameter || !asked_curve_) return nullptr;
    return same_question(curve_->question, *asked_curve_) && asked_curve_->parameter == *page_.parameter &&
                   asked_curve_->alarm == page_.alarm
               ? curve_.get()
               : nullptr;
}

}  // namespace podrate::ui
