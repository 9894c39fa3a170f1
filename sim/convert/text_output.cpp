#include "convert/text_output.hpp"

#include <zstd.h>

#include <stdexcept>
#include <vector>

namespace podrate::sim {
namespace {

constexpr std::size_t kFlushBytes = std::size_t{1} << 16;
constexpr int kLevel = 19;

struct FreeStream {
    void operator()(ZSTD_CCtx* stream) const { ZSTD_freeCCtx(stream); }
};

}  // namespace

struct TextOutput::Packer {
    std::unique_ptr<ZSTD_CCtx, FreeStream> stream{ZSTD_createCCtx()};
    std::vector<char> packed = std::vector<char>(ZSTD_CStreamOutSize());
};

TextOutput::TextOutput(const std::filesystem::path& path) : file_(path) {
    if (path.extension() != ".zst") return;
    packer_ = std::make_unique<Packer>();
    ZSTD_CCtx_setParameter(packer_->stream.get(), ZSTD_c_compressionLevel, kLevel);
    ZSTD_CCtx_setParameter(packer_->stream.get(), ZSTD_c_checksumFlag, 1);
}

TextOutput::~TextOutput() = default;

void TextOutput::pack(bool last) {
    ZSTD_inBuffer input = {pending_.data(), pending_.size(), 0};
    while (true) {
        ZSTD_outBuffer output = {packer_->packed.data(), packer_->packed.size(), 0};
        const std::size_t left =
            ZSTD_compressStream2(packer_->stream.get(), &output, &input, last ? ZSTD_e_end : ZSTD_e_continue);
        if (ZSTD_isError(left) != 0)
            throw std::runtime_error(std::string("zstd: ") + ZSTD_getErrorName(left));
        file_.write({packer_->packed.data(), output.pos});
        if (last ? left == 0 : input.pos == input.size) return;
    }
}

void TextOutput::write(std::string_view text) {
    pending_ += text;
    if (pending_.size() < kFlushBytes) return;
    if (packer_) {
        pack(false);
    } else {
        file_.write(pending_);
    }
    pending_.clear();
}

void TextOutput::commit() {
    if (packer_) {
        pack(true);
    } else {
        file_.write(pending_);
    }
    pending_.clear();
    file_.commit();
}

}  // namespace podrate::sim
