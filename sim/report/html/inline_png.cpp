#include "report/html/inline_png.hpp"

#include <stb_image_write.h>

namespace podrate::sim {

std::string base64(const std::string& bytes) {
    static constexpr char kDigits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        std::uint32_t three = 0;
        for (std::size_t j = 0; j < 3; ++j)
            three = three << 8 | (i + j < bytes.size() ? static_cast<std::uint8_t>(bytes[i + j]) : 0U);
        for (int shift = 18; shift >= 0; shift -= 6) text += kDigits[three >> shift & 63U];
        for (std::size_t j = bytes.size() - i; j < 3; ++j) text[text.size() - (3 - j)] = '=';
    }
    return text;
}

std::string inline_png(const std::vector<std::uint8_t>& rgba, int width, int height) {
    std::string bytes;
    stbi_write_png_to_func(
        [](void* to, void* data, int size) {
            static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                                  static_cast<std::size_t>(size));
        },
        &bytes, width, height, 4, rgba.data(), 4 * width);
    return "data:image/png;base64," + base64(bytes);
}

}  // namespace podrate::sim
