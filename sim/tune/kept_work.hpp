// Work done so far, kept in a folder so that a run that was stopped goes on where it was.
#pragma once

#include <filesystem>
#include <mutex>
#include <optional>
#include <set>
#include <string>

namespace podrate::sim {

// A file for each piece of work, named by a hash of its key: all that the work rests on. A file that is
// damaged, cut short or of another key counts as none.
class KeptWork {
  public:
    // anew: nothing of an earlier run is taken.
    KeptWork(std::filesystem::path folder, bool anew);

    std::optional<std::string> take(const std::string& key);
    // Whole or not at all. Throws RefusedInput where it can't be written.
    void keep(const std::string& key, const std::string& work);
    // Takes away what this run neither took nor kept: of other sweeps, and drafts of one that was stopped.
    void drop_others();
    [[nodiscard]] std::size_t taken() const { return taken_; }

  private:
    std::filesystem::path folder_;
    bool anew_;
    std::mutex mutex_;
    std::set<std::string> used_;
    std::size_t taken_ = 0;
};

}  // namespace podrate::sim
