// Alarms answered: what the estimator then does, and what the view says of it.
#include "model/alarm_answers.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <thread>

#include "ui/live_machine.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr AlarmOrder kNoteSpeed = {AlarmAnswer::note, AlarmId::speed_fault};
constexpr AlarmOrder kPutOffSpeed = {AlarmAnswer::put_off, AlarmId::speed_fault};
constexpr AlarmOrder kBringBack = {AlarmAnswer::bring_back, AlarmId::loss_high};

void answer(LiveMachine& machine, const AlarmOrder& order) {
    machine.answer(order);
    machine.tick();
}

}  // namespace

TEST_CASE("An alarm that nobody answers stays, and says what to check") {
    LiveMachine machine;
    machine.hopper_kg = 0.0;
    lose_speed(machine);
    machine.run(3600.0);
    const DriverFigures shown = machine.shown();
    REQUIRE(shown.alarm.shown);
    CHECK(shown.alarm.alarm == AlarmId::speed_fault);
    CHECK(shown.alarm.check == "Check the speed sensor.");
    CHECK(shown.answers.note == "Noted");
    CHECK(shown.answers.put_off == "Put off 30 min");
    CHECK(shown.answers.noted.empty());
    CHECK(shown.answers.shelf.empty());
    CHECK(shown.answers.bring_back.empty());
}

TEST_CASE("A noted alarm stays and says since when, until it goes and comes anew") {
    LiveMachine machine;
    lose_speed(machine);
    answer(machine, kNoteSpeed);
    CHECK(machine.shown().alarm.alarm == AlarmId::speed_fault);
    CHECK(machine.shown().answers.note.empty());
    CHECK(machine.shown().answers.noted == "Noted just now");
    CHECK(machine.shown().answers.put_off == "Put off 30 min");
    CHECK(machine.alarms().alarm(AlarmId::speed_fault).state() == AlarmState::acknowledged);
    machine.run(60.0);
    CHECK(machine.shown().answers.noted == "Noted, 1 min ago");
    answer(machine, kNoteSpeed);  // once more: it was noted then, not now
    machine.run(60.0 * 11);
    CHECK(machine.shown().answers.noted == "Noted, 12 min ago");
    machine.speed_heard = true;
    machine.run(20.0);
    CHECK_FALSE(machine.shown().alarm.shown);
    CHECK(machine.shown().answers.noted.empty());
    machine.speed_heard = false;
    machine.run(20.0);
    CHECK(machine.shown().alarm.alarm == AlarmId::speed_fault);
    CHECK(machine.shown().answers.note == "Noted");
    CHECK(machine.shown().answers.noted.empty());
}

TEST_CASE("An alarm that is put off goes at once, is counted, and comes back by itself") {
    LiveMachine machine;
    lose_speed(machine);
    const TimeUs at_us = machine.now_us();  // 12:00:40
    answer(machine, kPutOffSpeed);
    CHECK_FALSE(machine.shown().alarm.shown);
    CHECK(machine.shown().answers.shelf == "1 put off until 12:30");
    CHECK(machine.shown().answers.bring_back == "Bring back");
    CHECK(machine.shown().answers.put_off.empty());
    machine.run(30.0 * 60.0 - 2.0);
    CHECK_FALSE(machine.shown().alarm.shown);
    CHECK(machine.shown().answers.shelf == "1 put off until 12:30");
    machine.run(3.0);
    REQUIRE(machine.now_us() == at_us + (30 * 60 + 1) * kSecondUs);
    CHECK(machine.shown().alarm.alarm == AlarmId::speed_fault);
    CHECK(machine.shown().answers.shelf.empty());
    CHECK(machine.shown().answers.bring_back.empty());
}

TEST_CASE("What is put off is counted while its condition has gone, and all come back together") {
    LiveMachine machine;
    lose_speed(machine);
    answer(machine, kPutOffSpeed);
    machine.hopper_kg = 2100.0;
    machine.run(120.0);
    machine.speed_heard = true;
    machine.run(20.0);
    CHECK(machine.shown().answers.shelf == "1 put off until 12:30");
    machine.speed_heard = false;
    machine.run(20.0);
    CHECK_FALSE((machine.alarms().shown() & (1U << static_cast<unsigned>(AlarmId::speed_fault))) != 0);
    answer(machine, kBringBack);
    CHECK((machine.alarms().shown() & (1U << static_cast<unsigned>(AlarmId::speed_fault))) != 0);
    CHECK(machine.shown().answers.shelf.empty());
}

TEST_CASE("An alarm of the highest priority is put off for ten minutes only") {
    Parameters parameters;
    parameters.speed_fault_priority = Real(2);
    LiveMachine machine(parameters);
    lose_speed(machine);
    CHECK(machine.shown().answers.put_off == "Put off 10 min");
    answer(machine, kPutOffSpeed);
    CHECK(machine.shown().answers.shelf == "1 put off until 12:10");
}

TEST_CASE("An answer to an alarm that is not shown any more does nothing") {
    LiveMachine machine;
    lose_speed(machine);
    machine.speed_heard = true;
    machine.run(20.0);
    answer(machine, kNoteSpeed);
    answer(machine, kPutOffSpeed);
    CHECK(machine.shown().answers.shelf.empty());
    machine.speed_heard = false;
    machine.run(20.0);
    CHECK(machine.shown().alarm.alarm == AlarmId::speed_fault);
    CHECK(machine.shown().answers.note == "Noted");
}

TEST_CASE("A latched alarm that was noted goes when its condition has gone") {
    Parameters parameters;
    parameters.alarms_latched = Real(1);
    LiveMachine machine(parameters);
    lose_speed(machine);
    machine.speed_heard = true;
    machine.run(60.0);
    CHECK(machine.shown().alarm.alarm == AlarmId::speed_fault);  // latched
    answer(machine, kNoteSpeed);
    CHECK_FALSE(machine.shown().alarm.shown);
}

TEST_CASE("The count of what is put off names the first to come back, in both languages") {
    AlarmAnswers answers;
    answers.put_off_until_us[3] = LiveMachine::kNoonUs + 40 * 60 * kSecondUs;
    answers.put_off_until_us[7] = LiveMachine::kNoonUs + 20 * 60 * kSecondUs;
    const auto shelf = [&](Language language) {
        return answer_words(answers, {}, LiveMachine::kNoonUs, "Etc/UTC", {language, Units::metric}).shelf;
    };
    CHECK(shelf(Language::english) == "2 put off, next 12:20");
    CHECK(shelf(Language::german) == "2 aufgeschoben, ab 12:20");
}

TEST_CASE("Answers posted from another thread are all carried out by the estimator's own, in their order") {
    Parameters parameters;
    Estimator estimator(parameters);
    TimeUs now_us = LiveMachine::kNoonUs;
    const auto run = [&](int seconds, bool speed) {
        for (int i = 0; i < 10 * seconds; ++i) {
            now_us += kSecondUs / 10;
            if (speed) estimator.feed(speed_sample(now_us, 0.0F));
            estimator.feed(weight_sample(now_us, 500.0F));
        }
    };
    run(20, true);
    run(20, false);
    AlarmDesk desk;
    std::atomic<bool> done{false};
    std::thread driver([&] {
        for (int i = 0; i < 2000; ++i) {
            desk.post(kPutOffSpeed);
            desk.post(kBringBack);
        }
        desk.post(kNoteSpeed);
        done = true;
    });
    while (!done) desk.carry_out(estimator);
    driver.join();
    desk.carry_out(estimator);
    CHECK_FALSE(desk.carry_out(estimator));
    const AlarmAnswers answers = desk.look(estimator);
    CHECK(answers.noted_us[static_cast<std::size_t>(AlarmId::speed_fault)] == now_us);
    CHECK(answers.put_off_until_us[static_cast<std::size_t>(AlarmId::speed_fault)] == 0);
    CHECK((answers.shown & (1U << static_cast<unsigned>(AlarmId::speed_fault))) != 0);
}
