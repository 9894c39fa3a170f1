// What a live machine says now, wherever it comes from.
#pragma once

#include <string>

#include "model/driver_figures.hpp"

namespace podrate::ui {

class LiveSource {
  public:
    virtual ~LiveSource() = default;
    [[nodiscard]] virtual DriverFigures figures() const = 0;
    // For the window's title.
    [[nodiscard]] virtual std::string title() const = 0;
};

}  // namespace podrate::ui
