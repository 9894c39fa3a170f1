// The page of help: opened and closed by keys, and locked while the machine moves.
#include "app/picture.hpp"
#include "model/reading_lock.hpp"
#include "model/session.hpp"

#include <catch2/catch.hpp>

#include "ui/shipped_recording.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

// The first moment, from `from_us` on, at which the first machine stands, or moves.
TimeUs moment_when(bool stands, TimeUs from_us) {
    const Recording& recording = shipped_recording();
    for (TimeUs t = from_us; t <= recording.last_us; t += kSecondUs) {
        if (may_read(true, recording.machines[0].at(t)) == stands) return t;
    }
    FAIL("no such moment on the shipped day");
    return 0;
}

}  // namespace

TEST_CASE("Any key closes the help and does nothing else") {
    Session session(shipped_recording());
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
    CHECK(may_read(true, &e));
    e.speed_mps = Real(0.5);
    CHECK_FALSE(may_read(true, &e));
    CHECK(may_read(false, &e));
    e.speed_mps = Real(0);
    e.faults = kSpeedMissing;
    CHECK_FALSE(may_read(true, &e));
    CHECK_FALSE(may_read(true, nullptr));
    CHECK(may_read(false, nullptr));
}

TEST_CASE("At the wheel the help closes as the machine moves off, and stays closed") {
    Session session(shipped_recording());
    session.skip_cautions();
    session.set_live(true);
    const TimeUs moves = moment_when(false, shipped_recording().first_us);
    const TimeUs stands = moment_when(true, moves);
    const TimeUs moves_off = moment_when(false, stands);
    session.playback().seek(moves);
    session.apply(Action::help);
    CHECK_FALSE(session.help_up());
    session.playback().seek(stands);
    session.apply(Action::help);
    CHECK(session.help_up());
    session.playback().seek(moves_off);
    session.keep_lock();
    CHECK_FALSE(session.help_up());
    session.playback().seek(stands);
    session.keep_lock();
    CHECK_FALSE(session.help_up());
}

TEST_CASE("The page of help is drawn instead of the view, in both languages") {
    Session session(shipped_recording());
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
