#pragma once

#include "limits/sheet_draft.h"
#include "wire/event_reader.h"

// Inside `wire` only: a page of a book as it is typed, wherever it comes in.
namespace fettle::json {

inline constexpr WordTable<UnitFamily, 2> kOriginalWords{{{"mm", UnitFamily::metric}, {"in", UnitFamily::inch}}};
inline constexpr WordTable<PageUnit, 3> kPageUnitWords{{{"mm", PageUnit::millimetre}, {"in", PageUnit::inch}, {"both", PageUnit::both}}};

/// Every member, strictly; a column that is not known is a problem.
void read_value(const Read& node, const Spot& spot, SheetDraft& draft);

}  // namespace fettle::json
