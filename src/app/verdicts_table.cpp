#include "app/verdicts_table.h"

#include "app/table_cells.h"
#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"
#include "units/exact_decimal.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr int kChanceDecimals = 4;

const std::vector<DataColumn> kVerdictsColumns = {
    {"part", ColumnSort::text},          {"kind", ColumnSort::text},           {"position", ColumnSort::text},
    {"limit", ColumnSort::text},         {"definition", ColumnSort::text},     {"role", ColumnSort::word},
    {"side", ColumnSort::word},          {"bound_as_typed", ColumnSort::typed}, {"per_as_typed", ColumnSort::typed},
    {"bound_mm", ColumnSort::decimal},   {"book", ColumnSort::text},           {"edition", ColumnSort::text},
    {"page", ColumnSort::text},          {"decision", ColumnSort::text},       {"rule_of_thumb", ColumnSort::word},
    {"as_measured_mm", ColumnSort::decimal}, {"estimate_mm", ColumnSort::decimal}, {"uncertainty_mm", ColumnSort::decimal},
    {"best_mm", ColumnSort::decimal},    {"other_bound", ColumnSort::decimal}, {"other_as_measured", ColumnSort::decimal},
    {"other_estimate", ColumnSort::decimal}, {"other_uncertainty", ColumnSort::decimal}, {"other_best", ColumnSort::decimal},
    {"other_unit", ColumnSort::word},    {"word", ColumnSort::word},           {"chance", ColumnSort::decimal},
    {"rule", ColumnSort::word},          {"level", ColumnSort::decimal},       {"stations", ColumnSort::text},
    {"directions", ColumnSort::text},    {"reasons", ColumnSort::word},
};

/// "top mid", "bore/top piston/skirt"
std::string stations_of(const Where& where, const Layout& layout) {
  std::string out;
  for (const std::size_t index : where.stations) {
    const Station& station = layout.stations[index];
    out += (out.empty() ? "" : " ") + (station.member.empty() ? station.id : station.member + "/" + station.id);
  }
  return out;
}

std::string directions_of(const Where& where, const Layout& layout) {
  std::string out;
  for (const std::size_t index : where.directions) out += (out.empty() ? "" : " ") + layout.directions[index].id;
  return out;
}

std::string codes_of(const Problems& problems) {
  std::string out;
  for (const Problem& each : problems) out += (out.empty() ? "" : " ") + each.code;
  return out;
}

class VerdictRow {
 public:
  VerdictRow(const JudgedJob& judged, const Verdict& verdict) : judged_(judged), verdict_(verdict), cells_(kVerdictsColumns) {}

  std::vector<std::optional<std::string>> make() && {
    const PartOnBench* part = find_part(judged_.parts, verdict_.part);
    FETTLE_ASSERT(part != nullptr, verdict_.part);
    cells_.put("part", verdict_.part);
    cells_.put("kind", part->part.kind);
    cells_.put_if("position", part->part.position);
    const Limit& limit = limit_of(verdict_.limit);
    limit_cells(limit);
    figures(catalogue().definition(limit.definition)->dimension);
    if (verdict_.as_measured) {
      cells_.put_if("stations", stations_of(verdict_.measured_where, part->layout));
      cells_.put_if("directions", directions_of(verdict_.measured_where, part->layout));
    }
    cells_.put("word", std::string(verdict_word_name(verdict_.word)));
    if (verdict_.chance) cells_.put("chance", print_fixed(verdict_.chance->value, kChanceDecimals));
    rule_cells(judged_.judgement.rule);
    cells_.put_if("reasons", codes_of(verdict_.reasons));
    return std::move(cells_).take();
  }

 private:
  [[nodiscard]] const Limit& limit_of(const std::string& id) const {
    const auto& limits = judged_.job.limits;
    const auto found = std::find_if(limits.begin(), limits.end(), [&](const auto& each) { return each.value.id == id; });
    FETTLE_ASSERT(found != limits.end(), id);
    return found->value;
  }

  void limit_cells(const Limit& limit) {
    cells_.put("limit", limit.id);
    cells_.put("definition", limit.definition);
    cells_.put("role", std::string(role_name(limit.role)));
    cells_.put("side", std::string(side_name(limit.side)));
    cells_.put("bound_as_typed", limit.bound.text);
    if (limit.per) cells_.put("per_as_typed", limit.per->text);
    cells_.put_if("book", limit.origin.book);
    cells_.put_if("edition", limit.origin.edition);
    cells_.put_if("page", limit.origin.page);
    cells_.put_if("decision", limit.origin.decision);
    cells_.put("rule_of_thumb", std::string(limit.origin.rule_of_thumb ? "yes" : "no"));
  }

  void figures(ResultDimension dimension) {
    if (dimension == ResultDimension::length) return lengths();
    const FigureStyle style = usual_style(dimension, UnitId::millimetre);
    cells_.put("other_bound", shown(verdict_.bound, style));
    cells_.put("other_unit", style.unit);
    if (verdict_.as_measured) cells_.put("other_as_measured", shown(*verdict_.as_measured, style));
    if (verdict_.doubt) {
      cells_.put("other_estimate", shown(verdict_.doubt->estimate, style));
      cells_.put("other_uncertainty", shown(verdict_.doubt->standard_uncertainty, style));
    }
    if (verdict_.best) cells_.put("other_best", shown(verdict_.best->median, style));
  }

  void lengths() {
    const Ratio counts_per_mm(static_cast<Int128>(Length::kCountsPerMillimetre));
    cells_.put("bound_mm", exact_decimal(verdict_.bound / counts_per_mm));
    if (verdict_.as_measured) cells_.put("as_measured_mm", in_unit(*verdict_.as_measured, UnitId::millimetre, kExactDecimals));
    if (verdict_.doubt) {
      cells_.put("estimate_mm", print_fixed(verdict_.doubt->estimate, kEstimateDecimals));
      cells_.put("uncertainty_mm", print_fixed(verdict_.doubt->standard_uncertainty, kEstimateDecimals));
    }
    if (verdict_.best) cells_.put("best_mm", print_fixed(verdict_.best->median, kEstimateDecimals));
  }

  void rule_cells(const Rule& rule) {
    cells_.put("rule", std::string(rule_kind_name(rule.kind)));
    if (rule.kind == RuleKind::probability) cells_.put("level", exact_decimal(rule.level));
  }

  const JudgedJob& judged_;
  const Verdict& verdict_;
  TableCells cells_;
};

}  // namespace

DataTable verdicts_table(const JudgedJob& judged) {
  DataTable out{kVerdictsColumns, {}};
  for (const Verdict& verdict : judged.judgement.verdicts) out.rows.push_back(VerdictRow(judged, verdict).make());
  return out;
}

}  // namespace fettle
