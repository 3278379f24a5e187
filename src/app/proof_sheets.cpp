#include "app/proof_sheets.h"

#include <algorithm>
#include <filesystem>

#include "app/text_files.h"
#include "catalogue/catalogue.h"
#include "limits/sheet_file.h"
#include "limits/sheet_table.h"

namespace fettle {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> files_of(const std::string& path) {
  std::error_code error;
  if (!fs::is_directory(path, error)) return {path};
  std::vector<std::string> out;
  for (const auto& each : fs::directory_iterator(path, error)) {
    if (each.path().extension() == ".csv" || each.path().extension() == ".toml") out.push_back(each.path().string());
  }
  std::sort(out.begin(), out.end());
  return out;
}

ProofedSheet proofed(const std::string& file) {
  ProofedSheet out{file, {}, {}, {}};
  auto sheet = read_sheet(file, out.problems);
  if (!sheet) return out;
  out.sheet = std::move(*sheet);
  out.findings = proof_read(out.sheet, catalogue());
  return out;
}

}  // namespace

std::optional<LimitSheet> read_sheet(const std::string& file, Problems& problems) {
  const auto text = read_text_file(file, problems);
  if (!text) return std::nullopt;
  const bool table = fs::path(file).extension() == ".csv";
  return take(table ? read_sheet_table(*text, file, catalogue()) : read_sheet_file(*text, file, catalogue()), problems);
}

std::string sheet_id(const std::string& given, const std::string& file) {
  if (!given.empty()) return given;
  const std::string exported = "limits-";
  const std::string stem = fs::path(file).stem().string();
  return stem.starts_with(exported) ? stem.substr(exported.size()) : stem;
}

std::vector<ProofedSheet> proof_sheets(const std::vector<std::string>& paths) {
  std::vector<ProofedSheet> out;
  for (const std::string& path : paths) {
    const std::vector<std::string> files = files_of(path);
    if (files.empty()) out.push_back({path, {}, {}, {Problem{"app.no_sheets", {path, {}, {}}, {verbatim("folder", path)}}}});
    for (const std::string& each : files) out.push_back(proofed(each));
  }
  return out;
}

}  // namespace fettle
