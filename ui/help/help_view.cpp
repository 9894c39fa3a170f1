#include "help/help_view.hpp"

#include <algorithm>
#include <span>

#include "model/words.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

struct HelpKey {
    Text key;
    Text does;
};

constexpr HelpKey kPlayerKeys[] = {{Text::key_space, Text::does_space},
                                   {Text::key_arrows, Text::does_arrows},
                                   {Text::key_shift_arrows, Text::does_shift_arrows},
                                   {Text::key_up_down, Text::does_up_down},
                                   {Text::key_home_end, Text::does_home_end},
                                   {Text::key_tab, Text::does_tab},
                                   {Text::day_key_views, Text::day_does_views},
                                   {Text::key_n, Text::does_n},
                                   {Text::key_l, Text::does_l},
                                   {Text::key_u, Text::does_u},
                                   {Text::key_help, Text::does_help},
                                   {Text::key_quit, Text::does_quit}};

constexpr HelpKey kSimulatorKeys[] = {
    {Text::key_up_down, Text::does_up_down},       {Text::key_arrows, Text::sim_does_arrows},
    {Text::key_space, Text::sim_does_space},       {Text::sim_key_tip, Text::sim_does_tip},
    {Text::sim_key_digits, Text::sim_does_digits}, {Text::sim_key_pace, Text::sim_does_pace},
    {Text::sim_key_p, Text::sim_does_p},           {Text::sim_key_save, Text::sim_does_save},
    {Text::sim_key_tab, Text::sim_does_tab},       {Text::key_alarms, Text::sim_does_alarms},
    {Text::sim_key_view, Text::sim_does_view},     {Text::key_quit, Text::does_quit}};

constexpr HelpKey kLiveKeys[] = {{Text::key_alarms, Text::does_alarms}, {Text::key_n, Text::does_n},
                                 {Text::key_l, Text::does_l},           {Text::key_u, Text::does_u},
                                 {Text::key_help, Text::does_help},     {Text::key_quit, Text::does_quit}};

constexpr HelpKey kDayKeys[] = {
    {Text::day_key_views, Text::day_does_views},     {Text::day_key_pane, Text::day_does_pane},
    {Text::day_key_arrows, Text::day_does_arrows},   {Text::day_key_mouse, Text::day_does_mouse},
    {Text::day_key_cursor, Text::day_does_cursor},   {Text::day_key_all, Text::day_does_all},
    {Text::day_key_machine, Text::day_does_machine}, {Text::day_key_page, Text::day_does_page},
    {Text::day_key_kinds, Text::day_does_kinds},     {Text::day_key_type, Text::day_does_type},
    {Text::day_key_write, Text::day_does_write},     {Text::day_key_save, Text::day_does_save},
    {Text::sim_key_view, Text::sim_does_view},       {Text::key_quit_q, Text::does_quit}};

constexpr HelpKey kBenchKeys[] = {{Text::day_key_views, Text::day_does_views},
                                  {Text::bench_key_choose, Text::bench_does_choose},
                                  {Text::bench_key_type, Text::bench_does_type},
                                  {Text::day_key_mouse, Text::bench_does_mouse},
                                  {Text::bench_key_undo, Text::bench_does_undo},
                                  {Text::bench_key_reset, Text::bench_does_reset},
                                  {Text::bench_key_sift, Text::bench_does_sift},
                                  {Text::bench_key_look, Text::bench_does_look},
                                  {Text::bench_key_sets, Text::bench_does_sets},
                                  {Text::bench_key_before, Text::bench_does_before},
                                  {Text::bench_key_mark, Text::bench_does_mark},
                                  {Text::bench_key_surprise, Text::bench_does_surprise},
                                  {Text::day_key_save, Text::day_does_save},
                                  {Text::sim_key_view, Text::sim_does_view},
                                  {Text::key_quit_q, Text::does_quit}};

// An example of an interval: 1.36 to 1.64 kg/s.
constexpr double kExampleLowKgps = 1.36;
constexpr double kExampleHighKgps = 1.64;

struct HelpRow {
    std::string key;  // or empty: words over the whole width
    std::string words;
};

struct HelpPart {
    std::string head;
    std::vector<HelpRow> rows;
};

std::span<const HelpKey> keys_of(HelpKeys which) {
    switch (which) {
        case HelpKeys::player: break;
        case HelpKeys::live: return kLiveKeys;
        case HelpKeys::day: return kDayKeys;
        case HelpKeys::bench: return kBenchKeys;
        case HelpKeys::simulator: return kSimulatorKeys;
    }
    return kPlayerKeys;
}

HelpPart keys_part(const Speech& say, HelpKeys which) {
    HelpPart part = {say(Text::help_keys), {}};
    for (const HelpKey& key : keys_of(which)) part.rows.push_back({say(key.key), say(key.does)});
    return part;
}

HelpPart figures_part(const Speech& say) {
    const std::string example = figures(say, Quantity::rate, kExampleLowKgps, kExampleHighKgps);
    HelpPart part = {say(Text::help_figures),
                     {{"", say(Text::means_rate)}, {"", say(Text::means_range, {example})}}};
    for (const Text text : {Text::means_yield, Text::means_speed, Text::means_lost, Text::means_parts,
                            Text::means_hopper, Text::means_since})
        part.rows.push_back({"", say(text)});
    if (say.units == Units::us) part.rows.push_back({"", say(Text::means_ton)});
    return part;
}

HelpPart day_part(const Speech& say) {
    HelpPart part = {say(Text::help_day), {}};
    for (const Text text : {Text::means_strip, Text::means_shade, Text::means_map, Text::means_ledger,
                            Text::means_forgone, Text::means_typed, Text::means_again, Text::means_drop})
        part.rows.push_back({"", say(text)});
    return part;
}

HelpPart bench_part(const Speech& say) {
    HelpPart part = {say(Text::help_bench), {}};
    for (const Text text :
         {Text::means_after, Text::means_lanes, Text::means_due, Text::means_stood, Text::means_nothing,
          Text::means_curve, Text::means_at_once, Text::means_again, Text::means_set, Text::means_taken})
        part.rows.push_back({"", say(text)});
    return part;
}

HelpPart meanings_part(const Speech& say, HelpKeys which) {
    if (which == HelpKeys::day) return day_part(say);
    return which == HelpKeys::bench ? bench_part(say) : figures_part(say);
}

HelpPart cautions_part(const Speech& say) {
    HelpPart part = {say(Text::help_cautions), {}};
    for (const Text text : kStartCautions) part.rows.push_back({"", say(text)});
    return part;
}

// Sets parts in one size of type.
class HelpSetter {
  public:
    HelpSetter(Canvas& canvas, ImFont* font)
        : canvas_(canvas), font_(font), line_(Canvas::line_of(font)), gap_(14 * canvas.unit()) {}

    [[nodiscard]] float height(const HelpPart& part, float width) const {
        float height = line_;
        for (const HelpRow& row : part.rows)
            height += line_ * Canvas::lines_of(font_, row.words, width - indent(part));
        return height;
    }

    void draw(Box area, const HelpPart& part) const {
        const Palette& palette = canvas_.palette();
        canvas_.text(area.take_top(line_), font_, palette.rate, part.head);
        const float in = indent(part);
        for (const HelpRow& row : part.rows) {
            Box box = area.take_top(line_ * Canvas::lines_of(font_, row.words, area.w - in));
            if (in > 0.0F) canvas_.text({box.x, box.y, in, line_}, font_, palette.text, row.key);
            box.take_left(in);
            canvas_.lines(box, font_, in > 0.0F ? palette.quiet : palette.text, row.words);
        }
    }

    [[nodiscard]] float gap() const { return gap_; }

  private:
    [[nodiscard]] float indent(const HelpPart& part) const {
        float widest = 0.0F;
        for (const HelpRow& row : part.rows) widest = std::max(widest, Canvas::width_of(font_, row.key));
        return widest > 0.0F ? widest + gap_ : 0.0F;
    }

    Canvas& canvas_;
    ImFont* font_;
    float line_;
    float gap_;
};

// Two columns and the cautions below; upright all below one another. False, and nothing drawn, where it
// finds no room.
bool set_page(Canvas& canvas, Box area, ImFont* font, const Speech& say, HelpKeys which, bool last) {
    const HelpSetter setter(canvas, font);
    const float gap = setter.gap();
    const HelpPart keys = keys_part(say, which);
    const HelpPart meanings = meanings_part(say, which);
    const HelpPart cautions = cautions_part(say);
    const bool columns = !upright(area.w, area.h);
    const float left = columns ? area.w * 0.43F : area.w;
    const float right = columns ? area.w - left - 2 * gap : area.w;
    const float keys_high = setter.height(keys, left);
    const float meanings_high = setter.height(meanings, right);
    const float upper = columns ? std::max(keys_high, meanings_high) : keys_high + gap + meanings_high;
    const float needed = upper + gap + setter.height(cautions, area.w);
    if (needed > area.h && !last) return false;
    const float air = std::max(0.0F, std::min((area.h - needed) / 3, 2 * gap));
    Box top = area.take_top(upper, gap + air);
    if (columns) {
        setter.draw(top.take_left(left, 2 * gap), keys);
    } else {
        setter.draw(top.take_top(keys_high, gap), keys);
    }
    setter.draw(top, meanings);
    setter.draw(area, cautions);
    return true;
}

}  // namespace

void draw_help_view(Canvas& canvas, const Box& whole, const Speech& say, HelpKeys which) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.fill(whole, palette.ground);
    Box area = whole.inset(20 * unit);
    Box head = area.take_top(Canvas::line_of(fonts.strong), 8 * unit);
    const std::string back = say(Text::help_back);
    canvas.text(head.take_right(Canvas::width_of(fonts.text, back), 20 * unit), fonts.text, palette.quiet,
                back, Align::right);
    canvas.text(head, fonts.strong, palette.text, say(Text::help_title));
    for (ImFont* font : {fonts.text, fonts.label}) {
        if (set_page(canvas, area, font, say, which, font == fonts.label)) return;
    }
}

}  // namespace podrate::ui
