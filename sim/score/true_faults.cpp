#include "score/true_faults.hpp"

#include <optional>

#include "log/column_reader.hpp"
#include "log/problem.hpp"

namespace podrate::sim {

std::vector<TrueFault> read_true_faults(const std::filesystem::path& day_folder, const std::string& machine) {
    std::vector<TrueFault> faults;
    const std::filesystem::path file = day_folder / "truth" / "faults.csv";
    if (!std::filesystem::exists(file)) return faults;
    ColumnReader truth(file, {"machine", "kind", "start_unix_s", "end_unix_s", "size"});
    while (truth.next()) {
        if (truth.text(0) != machine) continue;
        const std::optional<FaultKind> kind = fault_named(truth.text(1));
        if (!kind) {
            throw RefusedInput({file.string(), 0, "unknown fault '" + std::string(truth.text(1)) + "'",
                                "make the file anew"});
        }
        faults.push_back({*kind, truth.number(2), truth.number(3), truth.number(4)});
    }
    return faults;
}

}  // namespace podrate::sim
