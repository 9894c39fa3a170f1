// What a live machine says now, wherever it comes from.
#pragma once

#include <optional>
#include <string>

#include "model/driver_figures.hpp"

namespace podrate::ui {

class LiveSource {
  public:
    virtual ~LiveSource() = default;
    [[nodiscard]] virtual DriverFigures figures(const Speech& say) const = 0;
    // For the window's title.
    [[nodiscard]] virtual std::string title(const Speech& say) const = 0;
    // What is known now; nothing where it is not.
    [[nodiscard]] virtual std::optional<Estimate> newest() const = 0;
    // What the driver answers to an alarm; carried out soon. Does nothing where nobody listens to it.
    virtual void answer(const AlarmOrder& order) { (void)order; }
    // The host's time, and the machine's zone.
    [[nodiscard]] virtual TimeUs now_us() const = 0;
    [[nodiscard]] virtual const std::string& time_zone() const = 0;
};

}  // namespace podrate::ui
