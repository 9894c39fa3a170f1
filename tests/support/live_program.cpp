#include "support/live_program.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <stdexcept>
#include <thread>

namespace podrate::test {
namespace {

using Clock = std::chrono::steady_clock;

int left_ms(Clock::time_point end) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Clock::now()).count();
    return left > 0 ? static_cast<int>(left) : 0;
}

}  // namespace

LiveProgram::LiveProgram(const std::vector<std::string>& arguments) {
    int to[2];
    int from[2];
    if (pipe2(to, O_CLOEXEC) != 0 || pipe2(from, O_CLOEXEC) != 0) throw std::runtime_error("pipe");
    std::vector<char*> words;
    std::string program = PODRATE_PROGRAM;
    std::vector<std::string> kept = arguments;
    words.push_back(program.data());
    for (std::string& word : kept) words.push_back(word.data());
    words.push_back(nullptr);
    std::signal(SIGPIPE, SIG_IGN);
    pid_ = fork();
    if (pid_ < 0) throw std::runtime_error("fork");
    if (pid_ == 0) {
        dup2(to[0], STDIN_FILENO);
        dup2(from[1], STDOUT_FILENO);
        execv(words[0], words.data());
        _exit(127);
    }
    close(to[0]);
    close(from[1]);
    input_ = to[1];
    output_ = from[0];
}

LiveProgram::~LiveProgram() {
    end_input();
    end_output();
    if (pid_ < 0) return;
    kill(pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
}

void LiveProgram::write(const std::string& text) const {
    std::size_t done = 0;
    while (done < text.size()) {
        const ssize_t wrote = ::write(input_, text.data() + done, text.size() - done);
        if (wrote <= 0) return;
        done += static_cast<std::size_t>(wrote);
    }
}

void LiveProgram::end_input() {
    if (input_ >= 0) close(input_);
    input_ = -1;
}

void LiveProgram::end_output() {
    if (output_ >= 0) close(output_);
    output_ = -1;
}

std::optional<std::string> LiveProgram::line(std::chrono::milliseconds within) {
    const Clock::time_point end = Clock::now() + within;
    while (true) {
        const std::size_t at = pending_.find('\n');
        if (at != std::string::npos) {
            std::string first = pending_.substr(0, at);
            pending_.erase(0, at + 1);
            return first;
        }
        pollfd waiting = {output_, POLLIN, 0};
        if (poll(&waiting, 1, left_ms(end)) <= 0) return std::nullopt;
        char chunk[4096];
        const ssize_t got = read(output_, chunk, sizeof chunk);
        if (got <= 0) return std::nullopt;
        pending_.append(chunk, static_cast<std::size_t>(got));
    }
}

void LiveProgram::signal(int number) const {
    kill(pid_, number);
}

int LiveProgram::wait(std::chrono::milliseconds within) {
    const Clock::time_point end = Clock::now() + within;
    while (true) {
        int status = 0;
        if (waitpid(pid_, &status, WNOHANG) == pid_) {
            pid_ = -1;
            return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        }
        if (left_ms(end) == 0) return -2;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
}

}  // namespace podrate::test
