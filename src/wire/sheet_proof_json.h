#pragma once

#include <string>
#include <vector>

#include "limits/proof.h"

namespace fettle {

/// One sheet of many, as sheet_proof_json writes it.
struct SheetProofEntry {
  std::string file;
  const LimitSheet& sheet;
  const std::vector<ProofFinding>& findings;
  const Problems& problems;
};

/// sheet-proof.schema.json
[[nodiscard]] std::string sheet_proof_json(const std::vector<SheetProofEntry>& sheets);

}  // namespace fettle
