#pragma once

#include <optional>
#include <string>

#include "app/proof_draft.h"
#include "catalogue/catalogue.h"
#include "text/sentence.h"
#include "wire/sheet_draft_json.h"

namespace fettle {

/// A page of a book while it is typed, in words.
[[nodiscard]] SheetDraftPage sheet_draft_page(const SheetDraft& draft, const DraftProof& proof, Language language);

/// What a limit of a kind may be, with a small drawing of each definition.
[[nodiscard]] DefinitionListPage definition_list_page(const Catalogue& known, const Kind& kind, Language language);

}  // namespace fettle
