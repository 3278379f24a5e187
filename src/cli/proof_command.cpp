#include "cli/proof_command.h"

#include <algorithm>
#include <set>

#include "app/proof_sheets.h"
#include "cli/exit_code.h"
#include "cli/paragraph.h"
#include "wire/sheet_proof_json.h"

namespace fettle {
namespace {

struct Counts {
  std::size_t sheets = 0;
  std::size_t rows = 0;
  std::size_t rows_asked = 0;
  std::size_t findings = 0;
};

class ProofText {
 public:
  explicit ProofText(Language language) : language_(language) {}

  std::string run(const std::vector<ProofedSheet>& sheets) {
    for (const ProofedSheet& each : sheets) sheet(each);
    out_ += say({"proof.total", {number("sheets", counts_.sheets), number("rows", counts_.rows), number("findings", counts_.findings), number("asked", counts_.rows_asked)}});
    return std::move(out_);
  }

 private:
  static Argument number(const char* name, std::size_t value) { return count(name, static_cast<std::int64_t>(value)); }
  [[nodiscard]] std::string say(const Message& message) const { return sentence(message, language_) + "\n"; }

  void sheet(const ProofedSheet& proofed) {
    ++counts_.sheets;
    out_ += say({"proof.sheet", {verbatim("file", proofed.file), number("rows", proofed.sheet.rows.size()), number("findings", proofed.findings.size())}});
    for (const Problem& each : proofed.problems) out_ += paragraph("  ", sentence(each, language_));
    std::set<std::string> asked;
    for (const ProofFinding& each : proofed.findings) {
      finding(proofed.sheet, each);
      asked.insert(each.spots.front().row);
    }
    counts_.rows += proofed.sheet.rows.size();
    counts_.rows_asked += asked.size();
    counts_.findings += proofed.findings.size();
    out_ += "\n";
  }

  void finding(const LimitSheet& sheet, const ProofFinding& found) {
    const FigureSpot& spot = found.spots.front();
    const SheetRow* row = sheet.row(spot.row);
    const int line = row == nullptr ? 0 : row->place.line.value_or(0);
    out_ += "  " + say({"proof.spot", {count("line", line), verbatim("row", spot.row), word("field", "proof.field." + std::string(field_name(spot.field))),
                                       word("sure", "proof.sure." + std::string(how_sure_name(found.sure)))}});
    out_ += paragraph("    ", sentence(found.arithmetic, language_));
    if (found.likeliest.empty()) return;
    std::vector<Message> likeliest;
    for (const Likeliest& each : found.likeliest) {
      likeliest.push_back({each.spot.row == spot.row ? "proof.figure" : "proof.figure_of", {verbatim("row", each.spot.row), figures("text", each.text)}});
    }
    out_ += paragraph("    ", sentence(Message{"proof.likeliest", {list("figures", likeliest)}}, language_));
  }

  Language language_;
  std::string out_;
  Counts counts_;
};

}  // namespace

RunResult run_proof(const ProofAsked& asked, Language language) {
  const std::vector<ProofedSheet> sheets = proof_sheets(asked.paths);
  const bool unread = std::any_of(sheets.begin(), sheets.end(), [](const ProofedSheet& each) { return !each.problems.empty(); });
  const bool found = std::any_of(sheets.begin(), sheets.end(), [](const ProofedSheet& each) { return !each.findings.empty(); });
  const int code = unread ? kInput : found ? kNotAllWithin : kFine;
  if (!asked.json) return {code, ProofText(language).run(sheets), {}};
  std::vector<SheetProofEntry> entries;
  for (const ProofedSheet& each : sheets) entries.push_back({each.file, each.sheet, each.findings, each.problems});
  return {code, sheet_proof_json(entries), {}};
}

}  // namespace fettle
