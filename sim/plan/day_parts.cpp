#include "plan/day_parts.hpp"

#include <algorithm>

#include "geo/geodesy.hpp"

namespace podrate::sim {
namespace {

enum class PartKind { work, drive, wait, tip, stand };

struct Part {
    PartKind kind = PartKind::work;
    TimeUs start_us = 0;
    TimeUs end_us = 0;
    bool harvest = false;
    bool place_known = false;
    LatLon place;  // where it began

    [[nodiscard]] double seconds() const { return static_cast<double>(end_us - start_us) / 1e6; }
};

PartKind part_kind(TimeKind kind) {
    switch (kind) {
        case TimeKind::harvesting:
        case TimeKind::turning: return PartKind::work;
        case TimeKind::travelling: return PartKind::drive;
        case TimeKind::waiting: return PartKind::wait;
        case TimeKind::tipping: return PartKind::tip;
        case TimeKind::paused_in_crop:
        case TimeKind::stopped:
        case TimeKind::no_log: break;
    }
    return PartKind::stand;
}

// Halts of different names that follow one another are one halt.
std::vector<Part> joined(const std::vector<Stretch>& stretches) {
    std::vector<Part> parts;
    for (const Stretch& s : stretches) {
        const PartKind kind = part_kind(s.kind);
        if (kind == PartKind::stand && !parts.empty() && parts.back().kind == kind) {
            parts.back().end_us = s.end_us;
            continue;
        }
        parts.push_back({kind, s.start_us, s.end_us, s.kind == TimeKind::harvesting, s.place_known, s.place});
    }
    return parts;
}

bool is_move(const std::vector<Part>& parts, std::size_t i) {
    if (parts[i].seconds() < 0.25 * kMoveS) return false;
    const bool placed = parts[i].place_known && i + 1 < parts.size() && parts[i + 1].place_known;
    if (!placed) return parts[i].seconds() >= kMoveS;
    return distance_m(parts[i].place, parts[i + 1].place) > kMoveM;
}

class DayReader {
  public:
    DayReader(const MachineBooks& books, std::vector<Part> parts) : books_(books), parts_(std::move(parts)) {}

    DayParts read() {
        for (at_ = 0; at_ < parts_.size(); ++at_) take(parts_[at_]);
        return std::move(out_);
    }

  private:
    [[nodiscard]] bool last() const { return at_ + 1 == parts_.size(); }

    void take(const Part& p) {
        if (p.harvest) begun_ = true;
        switch (p.kind) {
            case PartKind::work: work(p); break;
            case PartKind::drive:
                if (begun_ && is_move(parts_, at_)) {
                    moved(p);
                } else {
                    work(p);
                }
                break;
            case PartKind::wait: wait(p); break;
            case PartKind::tip: tip(p); break;
            case PartKind::stand: stand(p); break;
        }
    }

    void now(Doing doing, double for_s) {
        out_.doing = doing;
        out_.doing_s = for_s;
    }

    void work(const Part& p) {
        waiting_ = false;
        if (!begun_) return now(Doing::stopped, p.seconds());
        out_.working_s += p.seconds();
        if (p.harvest) out_.harvesting_s += p.seconds();
        if (!out_.work.empty() && out_.work.back().end_us == p.start_us) {
            out_.work.back().end_us = p.end_us;
        } else {
            out_.work.push_back({p.start_us, p.end_us});
        }
        now(Doing::work, p.seconds());
    }

    void moved(const Part& p) {
        waiting_ = false;
        if (!last()) out_.moves.push_back({p.start_us, p.seconds()});
        now(Doing::moving, p.seconds());
    }

    void wait(const Part& p) {
        if (!waiting_) wait_from_us_ = p.start_us;
        waiting_ = true;
        now(Doing::waiting, static_cast<double>(p.end_us - wait_from_us_) / 1e6);
    }

    void tip(const Part& p) {
        Tip tip;
        tip.start_us = waiting_ ? wait_from_us_ : p.start_us;
        tip.wait_s = static_cast<double>(p.start_us - tip.start_us) / 1e6;
        tip.tip_s = p.seconds();
        waiting_ = false;
        now(Doing::tipping, p.seconds());
        // Its weight is known by the minute after it.
        const TimeUs told_us = p.end_us + 60 * kSecondUs;
        if (last() || told_us > parts_.back().end_us) return;
        tip.load_kg = delivered_kg_by(books_.minutes, told_us) - delivered_kg_by(books_.minutes, p.start_us);
        out_.tips.push_back(tip);
    }

    void stand(const Part& p) {
        const bool for_trailer = waiting_ && (last() || parts_[at_ + 1].kind == PartKind::tip ||
                                              parts_[at_ + 1].kind == PartKind::wait);
        if (for_trailer) return wait(p);
        waiting_ = false;
        if (begun_ && p.seconds() < kShortestStopS && !last()) return work(p);
        if (begun_ && !last()) out_.stops.push_back({p.start_us, p.seconds()});
        now(Doing::stopped, p.seconds());
    }

    const MachineBooks& books_;
    std::vector<Part> parts_;
    std::size_t at_ = 0;
    DayParts out_;
    bool begun_ = false;
    bool waiting_ = false;
    TimeUs wait_from_us_ = 0;
};

}  // namespace

double DayParts::working_s_between(TimeUs from_us, TimeUs to_us) const {
    TimeUs sum_us = 0;
    for (const Span& span : work)
        sum_us += std::max<TimeUs>(0, std::min(span.end_us, to_us) - std::max(span.start_us, from_us));
    return static_cast<double>(sum_us) / 1e6;
}

DayParts parts_of(const MachineBooks& books) {
    return DayReader(books, joined(books.stretches)).read();
}

}  // namespace podrate::sim
