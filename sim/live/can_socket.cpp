#include "live/can_socket.hpp"

#include <linux/can.h>
#include <linux/can/error.h>
#include <linux/can/raw.h>
#include <net/if.h>
#include <sys/socket.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

#include "live/can_error.hpp"
#include "log/problem.hpp"

namespace podrate::sim {
namespace {

[[noreturn]] void refuse(const std::string& interface, const std::string& what, const std::string& mend) {
    throw RefusedInput({interface, 0, what + ": " + std::strerror(errno), mend});
}

}  // namespace

bool CanSocket::read(LiveTaker& to) {
    while (true) {
        can_frame raw = {};
        const ssize_t got = recv(socket_.number(), &raw, sizeof raw, MSG_DONTWAIT);
        if (got < 0) {
            if (errno == EINTR) continue;
            // An interface that is down may come up again.
            return errno == EAGAIN || errno == EWOULDBLOCK || errno == ENETDOWN;
        }
        if (got == 0) return false;
        if (got != static_cast<ssize_t>(sizeof raw) || (raw.can_id & CAN_ERR_FLAG) != 0) {
            if (got == static_cast<ssize_t>(sizeof raw)) {
                if (const auto state = controller_told(raw.can_id, raw.data)) to.take_controller(*state);
            }
            continue;
        }
        bus::CanFrame frame;
        frame.extended = (raw.can_id & CAN_EFF_FLAG) != 0;
        frame.remote = (raw.can_id & CAN_RTR_FLAG) != 0;
        frame.id = raw.can_id & (frame.extended ? CAN_EFF_MASK : CAN_SFF_MASK);
        frame.length = std::min<std::uint8_t>(raw.can_dlc, CAN_MAX_DLEN);
        std::copy_n(raw.data, frame.length, frame.data);
        to.take_frame(frame, false);
    }
}

std::unique_ptr<CanSocket> open_can(const std::string& interface) {
    Descriptor socket_fd(socket(PF_CAN, SOCK_RAW | SOCK_CLOEXEC, CAN_RAW));
    if (socket_fd.number() < 0) {
        refuse(interface, "this kernel offers no CAN",
               "load its module can_raw, or pipe candump's text in: candump -L can0 | podrate listen -");
    }
    const unsigned index = if_nametoindex(interface.c_str());
    if (index == 0) refuse(interface, "no such interface", "`ip link` lists them");
    const can_err_mask_t told = CAN_ERR_BUSOFF | CAN_ERR_CRTL | CAN_ERR_RESTARTED;
    if (setsockopt(socket_fd.number(), SOL_CAN_RAW, CAN_RAW_ERR_FILTER, &told, sizeof told) != 0)
        refuse(interface, "its error frames can't be had", "use a newer kernel");
    sockaddr_can address = {};
    address.can_family = AF_CAN;
    address.can_ifindex = static_cast<int>(index);
    if (bind(socket_fd.number(), reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0)
        refuse(interface, "can't be listened to", "bring it up: ip link set can0 up type can bitrate 250000");
    return std::make_unique<CanSocket>(std::move(socket_fd), interface);
}

}  // namespace podrate::sim
