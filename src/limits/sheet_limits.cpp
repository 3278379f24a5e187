#include "limits/sheet_limits.h"

#include <algorithm>

#include "catalogue/kind_definitions.h"

namespace fettle {
namespace {

/// What a size means where nothing is said: the largest of a bore, the smallest of a shaft, at the counted stations.
constexpr std::string_view kSize = "size-1";
/// The end of a part's sizes where wear does not show.
constexpr std::string_view kOtherEnd = "size-3";

bool is_open(const ProofFinding& finding) { return !finding.decided || finding.decided->decided == Decided::ask; }

class LimitsOf {
 public:
  LimitsOf(const LimitSheet& sheet, const std::vector<ProofFinding>& findings, const Catalogue& known) : sheet_(sheet), findings_(findings), known_(known) {}

  SheetLimits run() {
    for (const SheetRow& row : sheet_.rows) {
      if (const auto why = unusable(row)) {
        out_.unused.push_back({row.id, *why, {}});
      } else {
        take_row(row);
      }
    }
    return std::move(out_);
  }

 private:
  std::optional<RowUnused> unusable(const SheetRow& row) const {
    if (!row.choose.empty()) return RowUnused::bands;
    if (row.kind.empty()) return RowUnused::no_kind;
    if (!row.step.empty()) return RowUnused::step;
    return definition_of(row) == nullptr ? std::optional(RowUnused::no_definition) : std::nullopt;
  }

  /// The book's, or the only one that the row can mean.
  const Definition* definition_of(const SheetRow& row) const {
    if (!row.definition.empty()) return known_.definition(row.definition);
    const Kind* kind = known_.kind(row.kind);
    if (kind == nullptr) return nullptr;
    if (kind->feature != Feature::figure) return known_.definition(kSize);
    const KindDefinitions all = definitions_for(*kind, known_.definitions);
    return all.usual.size() == 1 ? all.usual.front() : nullptr;
  }

  /// The side to which a thing wears.
  static LimitSide worn_side(const Definition& definition, const Kind& kind) {
    const bool shaft = definition.family == Family::size && kind.feature == Feature::outside;
    return shaft ? LimitSide::at_least : LimitSide::at_most;
  }

  void take_row(const SheetRow& row) {
    const Definition& definition = *definition_of(row);
    const Kind& kind = *known_.kind(row.kind);
    const bool two_ends = definition.family == Family::size || definition.family == Family::clearance || definition.family == Family::figure;
    UnusedRow refused{row.id, RowUnused::refused, {}};
    const std::size_t before = out_.limits.size();
    const bool single = row.fresh.from == row.fresh.to;
    if (!row.fresh.from.empty() && two_ends && !single) add(row, definition, kind, {SheetField::fresh_from, LimitRole::fresh, LimitSide::at_least, "new-min"}, refused);
    if (!row.fresh.to.empty()) add(row, definition, kind, {SheetField::fresh_to, LimitRole::fresh, single ? worn_side(definition, kind) : LimitSide::at_most, "new-max"}, refused);
    if (!row.wear.empty()) add(row, definition, kind, {SheetField::wear, LimitRole::service, worn_side(definition, kind), "wear"}, refused);
    if (out_.limits.size() == before || !refused.problems.empty()) out_.unused.push_back(std::move(refused));
  }

  struct End {
    SheetField field;
    LimitRole role;
    LimitSide side;
    const char* name;
  };

  void add(const SheetRow& row, const Definition& definition, const Kind& kind, const End& end, UnusedRow& refused) {
    const TypedQuantity& bound = original(figure(row, end.field));
    const bool other_end = definition.id == kSize && end.side != worn_side(definition, kind);
    const Definition& meant = other_end ? *known_.definition(kOtherEnd) : definition;
    Limit limit{row.id + "-" + end.name, row.kind, meant.id, end.role, end.side, bound, {}, {}, {sheet_.book, sheet_.edition, row.page, decision(row, end.field), false, false}};
    if (!row.per.empty()) limit.per = *row.per.preferring(family_of(bound.quantity.unit));
    Problems found = limit_problems(limit, &meant, kind.feature);
    if (!found.empty()) {
      refused.problems.insert(refused.problems.end(), found.begin(), found.end());
      return;
    }
    out_.limits.push_back({std::move(limit), asked_about(row, end.field), row.definition.empty()});
  }

  [[nodiscard]] const TypedQuantity& original(const Printed& printed) const {
    if (sheet_.original || !printed.in_both()) return *printed.preferring(sheet_.original.value_or(UnitFamily::metric));
    return half_a_step(*printed.inch) < half_a_step(*printed.metric) ? *printed.inch : *printed.metric;
  }

  [[nodiscard]] bool asked_about(const SheetRow& row, SheetField field) const {
    return std::any_of(findings_.begin(), findings_.end(), [&](const ProofFinding& each) {
      return is_open(each) && std::find(each.spots.begin(), each.spots.end(), FigureSpot{row.id, field}) != each.spots.end();
    });
  }

  /// "put right from 62.422 mm, JB 2026-01-05", for whoever reads the verdict.
  [[nodiscard]] std::string decision(const SheetRow& row, SheetField field) const {
    std::string out;
    for (const SheetDecision& each : sheet_.decisions) {
      if (each.row != row.id || each.field != field_name(field)) continue;
      const char* word = each.decided == Decided::put_right ? "put right from " : each.decided == Decided::as_printed ? "as printed: " : "asked: ";
      out += (out.empty() ? "" : "; ") + (word + each.printed) + ", " + each.who + " " + each.when;
    }
    return out;
  }

  const LimitSheet& sheet_;
  const std::vector<ProofFinding>& findings_;
  const Catalogue& known_;
  SheetLimits out_;
};

}  // namespace

std::string_view row_unused_name(RowUnused why) {
  switch (why) {
    case RowUnused::no_kind: return "no-kind";
    case RowUnused::step: return "step";
    case RowUnused::bands: return "bands";
    case RowUnused::no_definition: return "no-definition";
    case RowUnused::refused: return "refused";
  }
  return "";
}

SheetLimits limits_of(const LimitSheet& sheet, const std::vector<ProofFinding>& findings, const Catalogue& known) {
  return LimitsOf(as_decided(sheet), findings, known).run();
}

}  // namespace fettle
