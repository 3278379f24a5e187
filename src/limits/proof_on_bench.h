#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "catalogue/catalogue.h"
#include "limits/proof.h"
#include "limits/sheet_table.h"

namespace fettle {

/// A table of limits as the tests type it; a refusal ends the test.
inline LimitSheet typed_sheet(const std::string& text) {
  auto read = read_sheet_table(text, "sheet.csv", catalogue());
  if (!read.ok()) throw std::invalid_argument(read.problems().front().code);
  return std::move(read).value();
}

/// A file of tests/sheets.
inline std::string sheet_text(const std::filesystem::path& path) {
  std::ifstream in(std::filesystem::path(FETTLE_SOURCE_DIR) / "tests/sheets" / path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace fettle
