#include "podrate/bus/bus_decoder.hpp"

#include "podrate/bus/can_id.hpp"
#include "podrate/bus/machine_messages.hpp"
#include "podrate/bus/numbers.hpp"

namespace podrate::bus {
namespace {

bool is_frame(const CanFrame& frame) {
    const std::uint32_t ids = frame.extended ? 1U << 29 : 1U << 11;
    return !frame.remote && frame.id < ids && frame.length <= 8 && is_time(frame.time_us);
}

bool is_ours(std::uint32_t pgn) {
    switch (pgn) {
        case pgn::kProcessData:
        case pgn::kAddressClaim:
        case pgn::kSlope:
        case pgn::kWheelSpeed:
        case pgn::kGroundSpeed:
        case pgn::kVehicleDirection:
        case pgn::kSystemTime:
        case pgn::kAttitude:
        case pgn::kPositionRapid:
        case pgn::kCourseSpeed:
        case pgn::kGnssPosition:
        case pgn::kTimeDate:
        case pgn::kHits: return true;
        default: return false;
    }
}

}  // namespace

BusDecoder::BusDecoder(const BusSettings& settings) : settings_(settings), cells_(settings.cells) {
    const auto prefer = [this](Quantity quantity, std::uint8_t address) {
        if (address < kNobody) choices_[quantity].prefer(address);
    };
    prefer(speed, settings.speed_from);
    prefer(position, settings.position_from);
    prefer(utc, settings.position_from);
    prefer(heading, settings.heading_from);
    prefer(tilt, settings.tilt_from);
    prefer(weight, settings.weight_from);
    prefer(reel, settings.reel_from);
    prefer(hit, settings.hits_from);
}

bool BusDecoder::echoed(const CanFrame& frame) const {
    if (!any_ours_ || frame.id != last_.id || frame.time_us - last_.time_us > kRepeatUs) return false;
    bool same = true;
    for (int i = 0; i < 8; ++i) same = same && frame.data[i] == last_.data[i];
    return same;
}

FrameResult BusDecoder::take(const CanFrame& frame) {
    count_ = 0;
    if (!is_frame(frame)) return FrameResult::malformed;
    if (any_ && frame.time_us < now_us_) return FrameResult::time_back;
    any_ = true;
    now_us_ = frame.time_us;
    if (!frame.extended) return FrameResult::not_ours;
    const CanId id = split(frame.id);
    if (!is_ours(id.pgn)) return FrameResult::not_ours;
    const bool nobody = id.source == kNobody && id.pgn != pgn::kAddressClaim;
    if (frame.length < 8 || id.source == kEverybody || nobody) return FrameResult::malformed;
    if (echoed(frame)) return FrameResult::duplicate;
    last_ = frame;
    any_ours_ = true;
    sender_ = book_.sender_at(id.source);
    return take_message(id.pgn, id.source, frame.data);
}

FrameResult BusDecoder::take_message(std::uint32_t pgn, std::uint8_t source, const std::uint8_t (&data)[8]) {
    switch (pgn) {
        case pgn::kProcessData: return take_process_data(data);
        case pgn::kAddressClaim: return take_claim(source, data);
        case pgn::kSlope: return take_slope(data);
        case pgn::kWheelSpeed: return take_machine_speed(1, data);
        case pgn::kGroundSpeed: return take_machine_speed(0, data);
        case pgn::kVehicleDirection: return take_vehicle_direction(data);
        case pgn::kSystemTime: {
            const SystemTime time = system_time(data);
            return take_utc(time.source == TimeSource::reference ? 1 : 3, time.at);
        }
        case pgn::kAttitude: return take_attitude(data);
        case pgn::kPositionRapid: return take_position(data);
        case pgn::kCourseSpeed: return take_course(data);
        case pgn::kGnssPosition: return take_gnss(source, data);
        case pgn::kTimeDate: return take_utc(2, time_date(data));
        case pgn::kHits: return take_hits(data);
        default: return FrameResult::not_ours;
    }
}

FrameResult BusDecoder::take_claim(std::uint8_t source, const std::uint8_t (&data)[8]) {
    const AddressBook::Claim claim = book_.claim(bytes_at(data, 8), source);
    if (claim == AddressBook::Claim::known) return FrameResult::taken;
    fast_.forget(source);
    const SenderKey now = book_.sender_at(source);
    for (SenderChoice& choice : choices_) {
        // Who had no NAME so far is now known by it. An address preferred is whoever claims it first.
        if (claim == AddressBook::Claim::first) choice.rename(source, now);
        if (choice.preferred() == source) choice.prefer(now);
    }
    if (claim == AddressBook::Claim::first) cells_.rename(source, now);
    return FrameResult::taken;
}

FrameResult BusDecoder::give(Quantity quantity, int kind, const Sample& sample) {
    if (check(sample) != FeedResult::taken) return FrameResult::out_of_range;
    const auto heard = choices_[quantity].hear(now_us_, sender_, static_cast<std::uint8_t>(kind));
    if (heard == SenderChoice::Heard::other) return FrameResult::other_sender;
    samples_[count_] = sample;
    ++count_;
    return FrameResult::taken;
}

}  // namespace podrate::bus
