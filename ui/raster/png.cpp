#include <stb_image_write.h>

#include "raster/rasteriser.hpp"
#include "report/output_file.hpp"

namespace podrate::ui {

void write_png(const Image& image, const std::string& path) {
    std::string bytes;
    stbi_write_png_to_func(
        [](void* to, void* data, int size) {
            static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                                  static_cast<std::size_t>(size));
        },
        &bytes, image.width, image.height, 4, image.rgba.data(), image.width * 4);
    sim::write_file(path, bytes);
}

}  // namespace podrate::ui
