#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "limits/proof.h"
#include "limits/sheet_draft.h"
#include "limits/sheet_limits.h"

namespace fettle {

/// A key that puts a figure right: what the decision says of it.
struct PutRightChoice {
  FigureSpot spot;      ///< `row` is the id of the draft
  std::string what;     ///< the book's own words for its row
  std::string printed;  ///< there
  std::string to;       ///< with every unit that is printed there
  std::string shown;    ///< the likeliest figure alone
};

/// A finding about a page that is being typed; rows are those of the draft.
struct DraftFinding {
  ProofFinding finding;
  std::vector<std::string> whats;  ///< the book's own words for the row of each spot
  std::vector<PutRightChoice> choices;
  std::optional<std::int64_t> decided;  ///< number of the decision that answers it
};

struct DraftProof {
  SheetDraftRead read;
  std::vector<DraftFinding> findings;
  SheetLimits limits;  ///< `row` is the id of the draft
  std::vector<bool> hold;  ///< of each decision of the draft
};

/// Reads a page as far as it is typed, proof-reads what can be read, and says what limits it gives as it stands.
[[nodiscard]] DraftProof proof_draft(const SheetDraft& draft, const Catalogue& known);

}  // namespace fettle
