// A shape for each kind of row in the ledger, as on the map, told apart without colour.
#pragma once

#include "day/ledger.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// `full`: seen; else its outline alone.
void paint_ledger_mark(Canvas& canvas, ImVec2 middle, LedgerKind kind, bool full);

}  // namespace podrate::ui
