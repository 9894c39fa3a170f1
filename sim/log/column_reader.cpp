#include "log/column_reader.hpp"

#include "log/number.hpp"
#include "log/problem.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kMend = "make the file anew";

}  // namespace

ColumnReader::ColumnReader(const std::filesystem::path& path, const std::vector<std::string>& wanted)
    : file_(path.string()), wanted_(wanted), csv_(open_bytes(path)) {
    if (!csv_.next(record_)) throw RefusedInput({file_, 0, "is empty", kMend});
    columns_ = record_.cells.size();
    for (const std::string& name : wanted) {
        std::size_t at = 0;
        while (at < columns_ && trimmed(record_.cells[at]) != name) ++at;
        if (at == columns_) throw RefusedInput({file_, record_.line, "has no column " + name, kMend});
        where_.push_back(at);
    }
}

bool ColumnReader::next() {
    if (!csv_.next(record_)) return false;
    if (record_.fault != nullptr)
        throw RefusedInput({file_, record_.line, std::string("row can't be read: ") + record_.fault, kMend});
    if (record_.cells.size() != columns_)
        throw RefusedInput({file_, record_.line, "row has a wrong cell count", kMend});
    return true;
}

double ColumnReader::number(std::size_t index) const {
    const ParsedNumber number = parse_number(text(index));
    if (number.fault != NumberFault::none) {
        throw RefusedInput({file_, record_.line,
                            wanted_[index] + " is '" + std::string(text(index)) + "', not a number", kMend});
    }
    return number.value;
}

}  // namespace podrate::sim
