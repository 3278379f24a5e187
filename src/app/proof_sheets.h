#pragma once

#include <string>
#include <vector>

#include "limits/proof.h"

namespace fettle {

/// One file of limits, proof-read; or why it could not be read.
struct ProofedSheet {
  std::string file;
  LimitSheet sheet;
  std::vector<ProofFinding> findings;
  Problems problems;  ///< then the sheet is empty
};

/// Proof-reads files of limits, and every .csv and .toml of folders, by name. Problems of each stand with it: those of read_sheet_table and
/// read_sheet_file, app.no_file,
/// app.file_too_large; a folder without such a file is app.no_sheets.
[[nodiscard]] std::vector<ProofedSheet> proof_sheets(const std::vector<std::string>& paths);

}  // namespace fettle
