// A copy of a machine's parameters that is being edited: plain data, every change undone and redone.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "parameters/parameter_set.hpp"

namespace podrate::ui {

// A set that was opened or saved; what is edited goes on from it.
struct NamedSet {
    std::string name;
    std::string mark;  // of its content
    sim::ParameterSet set;
};

bool same_values(const Parameters& a, const Parameters& b);

class EditedParameters {
  public:
    static constexpr std::size_t kMostUndo = 500;

    explicit EditedParameters(const Parameters& own) : own_(own), now_{own, nullptr} {}

    // The machine's own, as the day has them.
    [[nodiscard]] const Parameters& own() const { return own_; }
    [[nodiscard]] const Parameters& now() const { return now_.values; }
    // nullptr where they go on from the machine's own.
    [[nodiscard]] const std::shared_ptr<const NamedSet>& from() const { return now_.from; }
    // By their places in the table.
    [[nodiscard]] bool changed(std::size_t index) const;
    [[nodiscard]] std::size_t changes() const;
    // Something that saving would keep: values other than those of from(), or of own().
    [[nodiscard]] bool unsaved() const;

    // Inside its range. Nothing is changed, nor is there anything to undo, where it is that already.
    void put(std::size_t index, Real value);
    void reset(std::size_t index);
    void reset_all();
    // A set laid over the machine's own.
    void open(std::shared_ptr<const NamedSet> set);
    // What has just been saved: the values stay, and so does what can be undone.
    void go_on_from(std::shared_ptr<const NamedSet> set) { now_.from = std::move(set); }
    bool undo();
    bool redo();

    // What saving writes: all that differs from the machine's own, and what the set named that this goes on
    // from. Its history goes on from that set; `made_from` and mark of `made` are filled in, `own_name` for
    // the machine's own.
    [[nodiscard]] sim::ParameterSet to_save(sim::SetEntry made, const std::string& own_name) const;

  private:
    struct Stand {
        Parameters values;
        std::shared_ptr<const NamedSet> from;
    };
    void change(Stand to);
    [[nodiscard]] Parameters base() const;

    Parameters own_;
    Stand now_;
    std::vector<Stand> before_;  // newest last
    std::vector<Stand> undone_;  // newest last
};

// One step up or down: to the next multiple of a 1, 2 or 5 that suits the parameter, or of ten times that.
Real stepped(std::size_t index, Real value, bool up, bool coarse);

}  // namespace podrate::ui
