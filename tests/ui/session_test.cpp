#include "model/session.hpp"

#include <catch2/catch.hpp>
#include <filesystem>

#include "support/temp_folder.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate::ui;

TEST_CASE("The cautions come before everything") {
    Session session(shipped_day());
    CHECK(session.cautions_up());
    for (const Action action :
         {Action::on_5_min, Action::next_machine, Action::day_or_night, Action::faster}) {
        session.apply(action);
    }
    CHECK(session.playback().now_us() == session.recording().first_us);
    CHECK(session.machine() == 0);
    CHECK_FALSE(session.night());
    CHECK(session.title() == "Podrate: viner_1 15:00:00, cautions");
    session.apply(Action::play_or_pause);
    CHECK_FALSE(session.cautions_up());
    CHECK_FALSE(session.playback().playing());
}

TEST_CASE("Keys do what they say") {
    Session session(shipped_day());
    session.skip_cautions();
    session.apply(Action::on_5_min);
    session.apply(Action::on_30_s);
    CHECK(session.title() == "Podrate: viner_1 15:05:30, paused");
    session.apply(Action::back_5_min);
    session.apply(Action::back_30_s);
    CHECK(session.playback().now_us() == session.recording().first_us);
    session.apply(Action::to_end);
    CHECK(session.playback().now_us() == session.recording().last_us);
    session.apply(Action::to_start);
    session.apply(Action::faster);
    session.apply(Action::faster);
    session.apply(Action::slower);
    session.apply(Action::play_or_pause);
    CHECK(session.title() == "Podrate: viner_1 15:00:00, playing 2x");
    session.apply(Action::next_machine);
    session.apply(Action::next_machine);
    CHECK(session.machine() == 2);
    session.apply(Action::next_machine);
    CHECK(session.machine() == 0);
    session.apply(Action::day_or_night);
    CHECK(session.night());
    CHECK(&session.palette() == &kNightPalette);
    session.apply(Action::other_language);
    CHECK(session.title() == "Podrate: viner_1 15:00:00, läuft 2x");
    session.apply(Action::other_language);
    CHECK(session.speech().language == Language::english);
    session.apply(Action::other_units);
    CHECK(session.speech().units == Units::us);
    CHECK_FALSE(session.quit());
    session.apply(Action::quit);
    CHECK(session.quit());
}

TEST_CASE("A machine is chosen by its id") {
    Session session(shipped_day());
    CHECK(session.choose_machine("viner_3"));
    CHECK(session.machine() == 2);
    CHECK_FALSE(session.choose_machine("viner_4"));
    CHECK(session.machine() == 2);
}

TEST_CASE("By the hour it is night from 21 to 6 on the day's own clock") {
    constexpr podrate::TimeUs kHourUs = 3600 * podrate::kSecondUs;
    auto day = std::make_shared<OpenDay>(*shipped_day());
    Recording& recording = day->recording;
    recording.last_us = recording.first_us + 24 * kHourUs;  // from 15:00 in London
    Settings settings;
    settings.palette = PaletteChoice::by_hour;
    Session session(day, settings);
    session.skip_cautions();
    const auto at = [&](podrate::TimeUs after_us) {
        session.playback().seek(recording.first_us + after_us);
        return session.night();
    };
    CHECK_FALSE(at(0));
    CHECK_FALSE(at(6 * kHourUs - podrate::kSecondUs));
    CHECK(at(6 * kHourUs));
    CHECK(at(15 * kHourUs - podrate::kSecondUs));
    CHECK_FALSE(at(15 * kHourUs));
    session.apply(Action::day_or_night);
    CHECK(at(0));  // chosen by hand
}

TEST_CASE("What is not saved is asked about once before the window closes") {
    Session session(shipped_day());
    session.skip_cautions();
    CHECK(session.may_close());
    session.press({Key::f4});
    session.press({Key::q});
    CHECK(session.quit());

    Session other(shipped_day());
    other.skip_cautions();
    other.press({Key::f4});
    other.bench().put_value(4.0);
    other.press({Key::q});
    CHECK(other.asks_unsaved());
    CHECK_FALSE(other.quit());
    REQUIRE(other.unsaved().size() == 1);
    CHECK(other.unsaved().front() == "viner_1: values changed on the bench (1)");
    // A key that is held down answers nothing; another goes back and does nothing else.
    other.press({Key::q, false, false, true});
    CHECK(other.asks_unsaved());
    other.press({Key::r});
    other.type(U'?');
    CHECK_FALSE(other.asks_unsaved());
    CHECK_FALSE(other.help_up());
    CHECK(other.bench().edited().changes() == 1);
    // Another day asks as well, and is not opened unless told so.
    other.open_other("nowhere");
    REQUIRE(other.asks_unsaved() == UnsavedBefore::other_day);
    other.press({Key::r});
    CHECK_FALSE(other.asks_unsaved());
    CHECK(other.opening() == nullptr);
    other.open_other("nowhere");
    other.press({Key::q});
    CHECK_FALSE(other.quit());
    CHECK_FALSE(other.asks_unsaved());
    CHECK(other.opening() != nullptr);
    other.stop_opening();
    // The window's frame asks as the key does; in the driver's view, too.
    other.press({Key::f2});
    CHECK_FALSE(other.may_close());
    other.press({Key::escape});
    other.press({Key::q});
    REQUIRE(other.asks_unsaved());
    other.press({Key::q});
    CHECK(other.quit());
}

TEST_CASE("To write typed rows, which opens the day anew, asks for what the bench has not saved") {
    const podrate::test::TempFolder folder;
    const std::filesystem::path copy = folder.path() / "copy";
    std::filesystem::copy(std::string(PODRATE_SOURCE_DIR) + "/demo_logs/harrowmere", copy,
                          std::filesystem::copy_options::recursive);
    Session session(open_day(copy, {}, false));
    session.skip_cautions();
    session.press({Key::f4});
    session.bench().put_value(4.0);
    session.press({Key::f3});
    session.press({Key::r});
    session.type(U'r');
    for (const char32_t digit : {U'1', U'2', U'5'}) session.type(digit);
    session.press({Key::enter});
    REQUIRE(session.desk().typed().readings.size() == 1);
    const auto size = std::filesystem::file_size(copy / "maturity.csv");
    session.press({Key::w});
    REQUIRE(session.asks_unsaved() == UnsavedBefore::writing);
    // What is to be written is not told of as lost.
    CHECK(session.unsaved().size() == 1);
    session.press({Key::r});
    session.refresh();
    CHECK_FALSE(session.asks_unsaved());
    CHECK(session.unsaved().size() == 2);
    CHECK(std::filesystem::file_size(copy / "maturity.csv") == size);
    CHECK(session.opening() == nullptr);
    session.press({Key::w});
    session.press({Key::q});
    session.refresh();
    CHECK(std::filesystem::file_size(copy / "maturity.csv") > size);
    CHECK(session.opening() != nullptr);
    CHECK_FALSE(session.quit());
    session.stop_opening();
}
