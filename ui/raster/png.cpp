#include <stb_image_write.h>

#include "raster/rasteriser.hpp"

namespace podrate::ui {

bool write_png(const Image& image, const std::string& path) {
    return stbi_write_png(path.c_str(), image.width, image.height, 4, image.rgba.data(), image.width * 4) !=
           0;
}

}  // namespace podrate::ui
