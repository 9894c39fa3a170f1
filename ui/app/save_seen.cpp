#include "app/save_seen.hpp"

#include "day/save_table.hpp"
#include "report/output_file.hpp"

namespace podrate::ui {

void save_seen(DayDesk& desk, const std::filesystem::path& folder, const std::function<Image()>& picture) {
    const Saving saving = desk.take_saving();
    if (saving == Saving::none) return;
    const std::filesystem::path path = free_name(folder, desk, saving == Saving::picture ? ".png" : ".csv");
    try {
        if (saving == Saving::picture) {
            write_png(picture(), path.string());
        } else {
            sim::write_file(path, table_of(desk));
        }
        desk.tell(desk.speech()(Text::saved_as, {path.string()}));
    } catch (const std::exception& error) {
        desk.tell(desk.speech()(Text::not_saved, {error.what()}));
    }
}

}  // namespace podrate::ui
