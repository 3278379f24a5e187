#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "limits/sheet_draft.h"

namespace fettle {

/// sheet-draft.schema.json. Strict: everything wrong is told at once, each with the key it stands under. Problems: those of read_event for texts that
/// are no JSON or of another shape.
[[nodiscard]] Result<SheetDraft> read_draft_body(std::string_view body);

/// What a version of a sheet would do to the job.
struct SheetEffectAsked {
  std::string sheet;
  SheetDraft draft;
};
/// sheet-effect-asked.schema.json; problems as of read_draft_body.
[[nodiscard]] Result<SheetEffectAsked> read_effect_body(std::string_view body);

}  // namespace fettle
