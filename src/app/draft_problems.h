#pragma once

#include "limits/sheet_draft.h"

namespace fettle {

/// Everything that keeps a page from being entered, each with its row and field in words: acts.sheet_cell, acts.sheet_row; what is wrong with the page
/// as a whole comes first, as it is. Empty: it is whole.
[[nodiscard]] Problems draft_problems(const SheetDraftRead& read);

}  // namespace fettle
