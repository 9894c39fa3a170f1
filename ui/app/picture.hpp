// A frame drawn into a PNG file, without any display.
#pragma once

#include <string>

#include "model/session.hpp"
#include "raster/rasteriser.hpp"

namespace podrate::ui {

// The session's view at its moment, machine and palette.
Image picture_of(Session& session, int width_px, int height_px);

}  // namespace podrate::ui
