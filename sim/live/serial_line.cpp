#include "live/serial_line.hpp"

#include <fcntl.h>
#include <termios.h>

#include <cerrno>
#include <cstring>
#include <utility>

#include "log/problem.hpp"

namespace podrate::sim {
namespace {

constexpr std::pair<int, speed_t> kSpeeds[] = {{4800, B4800},   {9600, B9600},   {19200, B19200},
                                               {38400, B38400}, {57600, B57600}, {115200, B115200}};

// Bytes as they come, nothing echoed or changed.
void set_raw(int line, speed_t speed, const std::string& path) {
    termios settings = {};
    if (tcgetattr(line, &settings) != 0) return;  // no terminal: a pipe or a file has no speed
    cfmakeraw(&settings);
    settings.c_cflag |= CLOCAL | CREAD;
    cfsetispeed(&settings, speed);
    cfsetospeed(&settings, speed);
    if (tcsetattr(line, TCSANOW, &settings) != 0) {
        throw RefusedInput({path, 0, std::string("can't be set to that speed: ") + std::strerror(errno),
                            "try another --baud"});
    }
}

}  // namespace

bool SerialLine::read(LiveTaker& to) {
    char chunk[4096];
    const ssize_t got = ::read(line_.number(), chunk, sizeof chunk);
    if (got < 0) return errno == EINTR || errno == EAGAIN;  // EIO: the other end of a pseudo-terminal is gone
    if (got == 0) return false;
    to.take_text({chunk, static_cast<std::size_t>(got)});
    return true;
}

std::unique_ptr<SerialLine> open_serial(const std::string& path, int baud) {
    const auto* speed = kSpeeds;
    while (speed != std::end(kSpeeds) && speed->first != baud) ++speed;
    if (speed == std::end(kSpeeds)) {
        throw RefusedInput({"--baud", 0, std::to_string(baud) + " is no usual speed",
                            "give 4800, 9600, 19200, 38400, 57600 or 115200"});
    }
    Descriptor line(open(path.c_str(), O_RDONLY | O_NOCTTY | O_NONBLOCK | O_CLOEXEC));
    if (line.number() < 0) {
        throw RefusedInput({path, 0, std::string("can't be opened: ") + std::strerror(errno),
                            "check the name, and that you may read it (group dialout)"});
    }
    set_raw(line.number(), speed->second, path);
    return std::make_unique<SerialLine>(std::move(line), path);
}

}  // namespace podrate::sim
