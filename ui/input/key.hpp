// Keys as views know them, whatever window they come from.
#pragma once

#include <cstdint>

namespace podrate::ui {

// Letters and digits as the keyboard's layout has them.
enum class Key : std::uint8_t {
    none,
    modifier,  // Shift, Ctrl, Alt by itself
    other,
    space,
    enter,
    escape,
    backspace,
    remove,
    tab,
    left,
    right,
    up,
    down,
    home,
    end,
    page_up,
    page_down,
    plus,
    minus,
    f1,
    f2,
    f3,
    f4,
    d0,
    d1,
    d2,
    d3,
    d4,
    d5,
    d6,
    d7,
    d8,
    d9,
    a,
    b,
    c,
    d,
    e,
    f,
    g,
    h,
    i,
    j,
    k,
    l,
    m,
    n,
    o,
    p,
    q,
    r,
    s,
    t,
    u,
    v,
    w,
    x,
    y,
    z,
};

struct KeyPress {
    Key key = Key::none;
    bool shift = false;
    bool ctrl = false;
    bool held = false;  // it was down already
};

// 'a' to 'z', 'A' to 'Z', '0' to '9', '+' and '-'; Key::other for the rest.
constexpr Key key_of(char letter) {
    if (letter >= 'a' && letter <= 'z') return static_cast<Key>(static_cast<int>(Key::a) + letter - 'a');
    if (letter >= 'A' && letter <= 'Z') return static_cast<Key>(static_cast<int>(Key::a) + letter - 'A');
    if (letter >= '0' && letter <= '9') return static_cast<Key>(static_cast<int>(Key::d0) + letter - '0');
    if (letter == '+') return Key::plus;
    if (letter == '-') return Key::minus;
    return Key::other;
}

// 0 to 9, or -1 where the key is no digit.
constexpr int digit_of(Key key) {
    return key >= Key::d0 && key <= Key::d9 ? static_cast<int>(key) - static_cast<int>(Key::d0) : -1;
}

}  // namespace podrate::ui
