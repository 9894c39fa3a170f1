#include "report/output_file.hpp"

#include <cerrno>
#include <cstring>

#include "log/problem.hpp"

namespace podrate::sim {

OutputFile::OutputFile(const std::filesystem::path& path) : path_(path), draft_(path.string() + ".part") {
    file_ = std::fopen(draft_.c_str(), "wb");
    if (file_ == nullptr) fail("can't be written");
}

OutputFile::~OutputFile() {
    if (file_ == nullptr) return;
    std::fclose(file_);
    std::error_code ignored;
    std::filesystem::remove(draft_, ignored);
}

void OutputFile::fail(const std::string& what) const {
    throw RefusedInput({path_.string(), 0, what + ": " + std::strerror(errno),
                        "check the folder, its permissions and the space left"});
}

void OutputFile::write(std::string_view text) {
    if (std::fwrite(text.data(), 1, text.size(), file_) != text.size()) fail("can't be written in full");
}

void OutputFile::commit() {
    const int closed = std::fclose(file_);
    file_ = nullptr;
    if (closed != 0) {
        std::error_code ignored;
        std::filesystem::remove(draft_, ignored);
        fail("can't be written in full");
    }
    std::error_code error;
    std::filesystem::rename(draft_, path_, error);
    if (!error) return;
    std::error_code ignored;
    std::filesystem::remove(draft_, ignored);
    throw RefusedInput({path_.string(), 0, "can't be put in place: " + error.message(),
                        "check what stands there and the permissions"});
}

void write_file(const std::filesystem::path& path, std::string_view text) {
    OutputFile file(path);
    file.write(text);
    file.commit();
}

void make_folder(const std::filesystem::path& path) {
    std::error_code error;
    std::filesystem::create_directories(path, error);
    std::error_code unseen;
    if (!std::filesystem::is_directory(path, unseen)) {
        throw RefusedInput({path.string(), 0,
                            "can't be made a folder" + (error ? ": " + error.message() : std::string()),
                            "give another folder with --out"});
    }
}

}  // namespace podrate::sim
