#include "log/byte_source.hpp"

#include <zstd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <vector>

#include "log/problem.hpp"

namespace podrate::sim {
namespace {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using File = std::unique_ptr<std::FILE, CloseFile>;

class PlainSource : public ByteSource {
  public:
    explicit PlainSource(File file) : file_(std::move(file)) {}

    std::size_t read(char* to, std::size_t size) override {
        const std::size_t got = std::fread(to, 1, size, file_.get());
        position_ += got;
        if (got == 0 && std::ferror(file_.get()) != 0) trouble_ = "the file can't be read to its end";
        return got;
    }
    [[nodiscard]] std::string trouble() const override { return trouble_; }
    [[nodiscard]] std::uint64_t position() const override { return position_; }

  private:
    File file_;
    std::uint64_t position_ = 0;
    std::string trouble_;
};

struct FreeStream {
    void operator()(ZSTD_DStream* stream) const { ZSTD_freeDStream(stream); }
};

class ZstdSource : public ByteSource {
  public:
    explicit ZstdSource(File file)
        : plain_(std::move(file)), stream_(ZSTD_createDStream()), packed_(ZSTD_DStreamInSize()) {
        input_ = {packed_.data(), 0, 0};
    }

    std::size_t read(char* to, std::size_t size) override {
        ZSTD_outBuffer output = {to, size, 0};
        while (output.pos == 0 && trouble_.empty()) {
            if (input_.pos == input_.size) {
                input_ = {packed_.data(), plain_.read(packed_.data(), packed_.size()), 0};
                if (input_.size == 0) {
                    if (in_frame_) trouble_ = "the compressed file ends early";
                    break;
                }
            }
            const std::size_t left = ZSTD_decompressStream(stream_.get(), &output, &input_);
            if (ZSTD_isError(left) != 0) {
                trouble_ = std::string("the compressed file is damaged (") + ZSTD_getErrorName(left) + ")";
                break;
            }
            in_frame_ = left != 0;
        }
        return output.pos;
    }
    [[nodiscard]] std::string trouble() const override {
        return trouble_.empty() ? plain_.trouble() : trouble_;
    }
    [[nodiscard]] std::uint64_t position() const override { return plain_.position(); }

  private:
    PlainSource plain_;
    std::unique_ptr<ZSTD_DStream, FreeStream> stream_;
    std::vector<char> packed_;
    ZSTD_inBuffer input_ = {};
    bool in_frame_ = false;
    std::string trouble_;
};

}  // namespace

std::unique_ptr<ByteSource> open_bytes(const std::filesystem::path& path) {
    std::error_code ignored;
    if (std::filesystem::is_directory(path, ignored)) {
        throw RefusedInput({path.string(), 0, "is a folder, not a log", "give the log file itself"});
    }
    File file(std::fopen(path.c_str(), "rb"));
    if (!file) {
        throw RefusedInput({path.string(), 0, std::string("can't be opened: ") + std::strerror(errno),
                            "check the name and the permissions"});
    }
    if (path.extension() == ".zst") return std::make_unique<ZstdSource>(std::move(file));
    return std::make_unique<PlainSource>(std::move(file));
}

}  // namespace podrate::sim
