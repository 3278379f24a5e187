#include "wire/verdict_lines.h"

#include <algorithm>

#include "units/print.h"
#include "wire/json_line.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

constexpr int kChanceDecimals = 4;
constexpr std::size_t kFields = 5;

std::string chance_text(const std::optional<Chance>& chance) { return chance ? print_fixed(chance->value, kChanceDecimals) : ""; }

VerdictLine line_of(const Verdict& verdict) {
  VerdictLine out{verdict.part, verdict.limit, std::string(verdict_word_name(verdict.word)), chance_text(verdict.chance), ""};
  if (verdict.as_measured) out.measured = to_text(verdict.as_measured->numerator()) + "/" + to_text(verdict.as_measured->denominator());
  return out;
}

std::optional<VerdictLine> read_line_of(const json::Read& node) {
  if (!node.is_array() || node.size() != kFields) return std::nullopt;
  for (const auto& each : node) {
    if (!each.is_string()) return std::nullopt;
  }
  const auto text = [&](std::size_t i) { return node[i].get<std::string>(); };
  return VerdictLine{text(0), text(1), text(2), text(3), text(4)};
}

}  // namespace

std::vector<VerdictLine> lines_of(const Judgement& judgement) {
  std::vector<VerdictLine> out = {{"", "", std::string(verdict_word_name(judgement.joint.word)), chance_text(judgement.joint.chance), ""}};
  for (const Verdict& each : judgement.verdicts) out.push_back(line_of(each));
  return out;
}

std::string verdict_lines_json(const std::vector<VerdictLine>& lines) {
  std::string out;
  for (const VerdictLine& each : lines) out += json::Json({each.part, each.limit, each.word, each.chance, each.measured}).dump() + "\n";
  return out;
}

Result<std::vector<VerdictLine>> read_verdict_lines(std::string_view text, const Place& place) {
  std::vector<VerdictLine> out;
  Problems problems;
  Place at = place;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    at.line = ++number;
    const auto node = json::read_line(text.substr(0, end), at, problems);
    if (!node) return problems;
    auto line = read_line_of(*node);
    if (!line) return Problem{"wire.wrong_kind", at, {verbatim("key", "verdict"), word("wanted", "wire.a_list")}};
    out.push_back(std::move(*line));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

}  // namespace fettle
