#pragma once

#include <optional>
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

/// A file of limits: a table where its name ends in .csv, else TOML. Nothing, and why, if it cannot be read: problems of read_sheet_table and
/// read_sheet_file, app.no_file, app.file_too_large.
[[nodiscard]] std::optional<LimitSheet> read_sheet(const std::string& file, Problems& problems);

/// The id of a sheet in a job: the one that was given, else the name of its file without what export put before it.
[[nodiscard]] std::string sheet_id(const std::string& given, const std::string& file);

/// Proof-reads files of limits, and every .csv and .toml of folders, by name. Problems of each stand with it: those of read_sheet_table and
/// read_sheet_file, app.no_file,
/// app.file_too_large; a folder without such a file is app.no_sheets.
[[nodiscard]] std::vector<ProofedSheet> proof_sheets(const std::vector<std::string>& paths);

}  // namespace fettle
