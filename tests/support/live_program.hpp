// The podrate program while it runs: fed, listened to, stopped.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace podrate::test {

class LiveProgram {
  public:
    explicit LiveProgram(const std::vector<std::string>& arguments);
    ~LiveProgram();
    LiveProgram(const LiveProgram&) = delete;
    LiveProgram& operator=(const LiveProgram&) = delete;

    // To its standard input.
    void write(const std::string& text) const;
    void end_input();
    // Its next line on standard output, without its end; nothing where none comes in time.
    std::optional<std::string> line(std::chrono::milliseconds within);
    void end_output();
    void signal(int number) const;
    // Its exit code; -1 where a signal ended it, -2 where it does not end in time.
    int wait(std::chrono::milliseconds within);

  private:
    pid_t pid_ = -1;
    int input_ = -1;
    int output_ = -1;
    std::string pending_;
};

}  // namespace podrate::test
