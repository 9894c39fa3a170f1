// Saving and opening parameter sets.
#include "bench/bench.hpp"
#include "log/problem.hpp"
#include "parameters/parameter_file.hpp"

namespace podrate::ui {
namespace {

constexpr std::size_t kMostNote = 200;

NamedSet read_named(const std::filesystem::path& path) {
    sim::KeptSet kept = sim::read_parameter_set(path);
    return {path.stem().string(), std::move(kept.mark), std::move(kept.set)};
}

}  // namespace

std::string Bench::own_name() const {
    return day_->day.machines[machine_].id + ", " + day_->day.label;
}

std::filesystem::path Bench::path_of(const std::string& name) const {
    return sim::parameter_path(keeping_.folder, name);
}

void Bench::begin_saving() {
    if (keeping_.folder.empty()) {
        note_ = say_(Text::bench_no_folder);
        return;
    }
    if (!edited().unsaved()) {
        note_ = say_(Text::bench_nothing_changed);
        return;
    }
    words_ = TypedLine(sim::kMostSetName);
    words_.begin(edited().from() ? edited().from()->name : day_->day.machines[machine_].id);
    typing_ = BenchTyping::name;
    swallow_ = true;
}

void Bench::take_name() {
    const std::string& name = words_.text();
    if (!sim::is_set_name(name)) {
        note_ = say_(Text::bench_name_bad);
        return;
    }
    const bool goes_on = edited().from() && edited().from()->name == name;
    std::error_code unseen;
    if (!goes_on && std::filesystem::exists(path_of(name), unseen)) {
        note_ = say_(Text::bench_name_taken, {name});
        return;
    }
    set_name_ = name;
    words_ = TypedLine(kMostNote);
    typing_ = BenchTyping::note;
}

void Bench::save() {
    if (words_.text().empty()) {
        note_ = say_(Text::bench_note_empty);
        return;
    }
    end_typing();
    const std::filesystem::path path = path_of(set_name_);
    try {
        std::error_code told_below;
        std::filesystem::create_directories(keeping_.folder, told_below);
        sim::keep_parameter_set(
            path, edited().to_save({words_.text(), keeping_.who, keeping_.unix_s(), "", ""}, own_name()));
        stands_[machine_].edited.go_on_from(std::make_shared<NamedSet>(read_named(path)));
        note_ = say_(Text::saved_as, {path.string()});
    } catch (const sim::RefusedInput& refused) {
        note_ = say_(Text::not_saved, {refused.what()});
    }
}

void Bench::open_file(const std::filesystem::path& path) {
    EditedParameters& edited = stands_[machine_].edited;
    edited.open(std::make_shared<NamedSet>(read_named(path)));
    note_ = say_(Text::bench_opened, {edited.from()->name, edited.from()->set.made.note});
    changed();
}

// One after the other, and the machine's own once behind the last.
void Bench::open_next(bool back) {
    const std::vector<std::filesystem::path> files = sim::parameter_files(keeping_.folder);
    if (files.empty()) {
        note_ = say_(Text::bench_no_sets, {keeping_.folder.string()});
        return;
    }
    const std::size_t count = files.size() + 1;
    open_at_ = (open_at_ + (back ? count - 1 : 1)) % count;
    EditedParameters& edited = stands_[machine_].edited;
    if (open_at_ == 0) {
        edited.reset_all();
        note_ = say_(Text::bench_own_again, {own_name()});
        return changed();
    }
    try {
        open_file(files[open_at_ - 1]);
    } catch (const sim::RefusedInput& refused) {
        note_ = say_(Text::bench_not_opened, {refused.what()});
    }
}

}  // namespace podrate::ui
