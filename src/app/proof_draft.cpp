#include "app/proof_draft.h"

#include <algorithm>

#include "limits/proof_desk.h"
#include "limits/put_right.h"

namespace fettle {
namespace {

std::string draft_row(const SheetDraftRead& read, const std::string& name) {
  const DraftRowRead* row = read.named(name);
  return row == nullptr ? name : row->draft;
}

std::optional<std::int64_t> number_of(const std::vector<SheetDecision>& decisions, const std::optional<SheetDecision>& decided) {
  if (!decided) return std::nullopt;
  for (std::size_t i = decisions.size(); i > 0; --i) {
    if (decisions[i - 1] == *decided) return static_cast<std::int64_t>(i - 1);
  }
  return std::nullopt;
}

DraftFinding of_draft(ProofFinding finding, const SheetDraftRead& read, const LimitSheet& decided) {
  DraftFinding out{std::move(finding), {}, {}, {}};
  out.decided = number_of(read.sheet.decisions, out.finding.decided);
  for (const Likeliest& each : out.finding.likeliest) {
    const SheetRow* row = decided.row(each.spot.row);
    if (row == nullptr) continue;
    const bool whole = each.spot.field == SheetField::stages || each.spot.field == SheetField::sequence;
    std::string to = whole ? each.text : put_right_text(figure(*row, each.spot.field), each.text);
    if (!to.empty()) out.choices.push_back({{draft_row(read, each.spot.row), each.spot.field}, row->what, shown_at(*row, each.spot.field), std::move(to), each.text});
  }
  for (FigureSpot& each : out.finding.spots) {
    const SheetRow* row = decided.row(each.row);
    out.whats.push_back(row == nullptr ? each.row : row->what);
    each.row = draft_row(read, each.row);
  }
  return out;
}

}  // namespace

DraftProof proof_draft(const SheetDraft& draft, const Catalogue& known) {
  DraftProof out{read_sheet_draft(draft, known), {}, {}, {}};
  const LimitSheet& sheet = out.read.sheet;
  const LimitSheet decided = as_decided(sheet);
  std::vector<ProofFinding> findings = proof_read(sheet, known);
  out.hold = decisions_that_hold(sheet, findings);
  out.limits = limits_of(sheet, findings, known);
  for (SheetLimit& each : out.limits.limits) each.row = draft_row(out.read, each.row);
  for (UnusedRow& each : out.limits.unused) each.row = draft_row(out.read, each.row);
  for (ProofFinding& each : findings) out.findings.push_back(of_draft(std::move(each), out.read, decided));
  return out;
}

}  // namespace fettle
