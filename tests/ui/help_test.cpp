// The page of help: opened and closed by keys, and locked while the machine moves.
#include "app/picture.hpp"
#include "model/reading_lock.hpp"
#include "model/session.hpp"

#include <catch2/catch.hpp>

#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

// A live machine of which only the newest estimate counts.
struct FakeMachine : LiveSource {
    Estimate estimate;
    bool known = true;
    std::string zone = "Etc/UTC";
    [[nodiscard]] DriverFigures figures(const Speech&) const override { return {}; }
    [[nodiscard]] std::string title(const Speech&) const override { return "machine"; }
    [[nodiscard]] std::optional<Estimate> newest() const override {
        return known ? std::optional<Estimate>(estimate) : std::nullopt;
    }
    [[nodiscard]] TimeUs now_us() const override { return 0; }
    [[nodiscard]] const std::string& time_zone() const override { return zone; }
};

}  // namespace

TEST_CASE("Any key closes the help and does nothing else") {
    Session session(shipped_day());
    session.apply(Action::help);
    CHECK_FALSE(session.help_up());  // the cautions come first
    session.skip_cautions();
    for (const Action action : {Action::help, Action::other_key, Action::play_or_pause, Action::quit,
                                Action::on_5_min, Action::other_language}) {
        session.apply(Action::help);
        CHECK(session.help_up());
        CHECK(session.title() == "Podrate: viner_1 15:00:00, help");
        session.apply(Action::none);  // a shift key alone
        CHECK(session.help_up());
        session.apply(action);
        CHECK_FALSE(session.help_up());
        CHECK_FALSE(session.quit());
        CHECK_FALSE(session.playback().playing());
        CHECK(session.playback().now_us() == session.recording().first_us);
        CHECK(session.speech().language == Language::english);
    }
}

TEST_CASE("What wants reading opens at the wheel only while the machine is known to stand") {
    Estimate e;
    CHECK(may_read(&e));
    e.speed_mps = Real(0.5);
    CHECK_FALSE(may_read(&e));
    e.speed_mps = Real(0);
    e.faults = kSpeedMissing;
    CHECK_FALSE(may_read(&e));
    CHECK_FALSE(may_read(nullptr));
}

TEST_CASE("At the wheel the help closes as the machine moves off, and stays closed") {
    FakeMachine machine;
    Session session(machine);
    session.skip_cautions();
    machine.estimate.speed_mps = Real(1);
    session.apply(Action::help);
    CHECK_FALSE(session.help_up());
    machine.estimate.speed_mps = Real(0);
    session.apply(Action::help);
    CHECK(session.help_up());
    machine.estimate.speed_mps = Real(1);
    session.refresh();
    CHECK_FALSE(session.help_up());
    machine.estimate.speed_mps = Real(0);
    session.refresh();
    CHECK_FALSE(session.help_up());
    machine.known = false;
    session.apply(Action::help);
    CHECK_FALSE(session.help_up());
}

TEST_CASE("The page of help is drawn instead of the view, in both languages") {
    Session session(shipped_day());
    session.skip_cautions();
    const Image view = picture_of(session, 800, 480);
    session.apply(Action::help);
    const Image english = picture_of(session, 800, 480);
    session.apply(Action::other_key);
    session.apply(Action::other_language);
    session.apply(Action::help);
    CHECK(english.rgba != view.rgba);
    CHECK(picture_of(session, 800, 480).rgba != english.rgba);
}
