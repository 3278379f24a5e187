#include "wire/sheet_proof_json.h"

#include <set>

#include "wire/event_words.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

Json finding_json(const ProofFinding& finding) {
  Json out = {{"rule", std::string(finding.rule)}, {"sure", std::string(how_sure_name(finding.sure))}, {"spots", Json::array()}, {"printed", finding.printed}};
  for (const FigureSpot& each : finding.spots) out["spots"].push_back({{"row", each.row}, {"field", std::string(field_name(each.field))}});
  out["arithmetic"] = json::message(finding.arithmetic);
  out["likeliest"] = Json::array();
  for (const Likeliest& each : finding.likeliest) out["likeliest"].push_back({{"row", each.spot.row}, {"field", std::string(field_name(each.spot.field))}, {"text", each.text}});
  if (finding.decided) {
    out["decided"] = {{"decided", std::string(word_of(json::kDecidedWords, finding.decided->decided).value_or(""))}, {"who", finding.decided->who}, {"when", finding.decided->when}};
    if (!finding.decided->to.empty()) out["decided"]["to"] = finding.decided->to;
  }
  return out;
}

}  // namespace

std::string sheet_proof_json(const std::vector<SheetProofEntry>& sheets) {
  Json out = {{"format", "fettle-sheet-proof"}, {"version", 1}, {"sheets", Json::array()}};
  for (const SheetProofEntry& each : sheets) {
    std::set<std::string> asked;
    Json findings = Json::array();
    for (const ProofFinding& finding : each.findings) {
      asked.insert(finding.spots.front().row);
      findings.push_back(finding_json(finding));
    }
    out["sheets"].push_back({{"file", each.file}, {"rows", each.sheet.rows.size()}, {"rows_with_findings", asked.size()}, {"findings", std::move(findings)}, {"problems", json::problems(each.problems)}});
  }
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
