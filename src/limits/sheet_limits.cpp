#include "limits/sheet_limits.h"

#include <algorithm>
#include <set>

#include "catalogue/kind_definitions.h"
#include "limits/sheet_cells.h"
#include "limits/sheet_fit.h"

namespace fettle {
namespace {

/// What a size means where nothing is said: the largest of a bore, the smallest of a shaft, at the counted stations.
constexpr std::string_view kSize = "size-1";
/// The end of a part's sizes where wear does not show.
constexpr std::string_view kOtherEnd = "size-3";

/// One that was put right is asked about no more: where it still is, what it was put right to could not be read.
bool is_open(const ProofFinding& finding) { return !finding.decided || finding.decided->decided != Decided::as_printed; }

/// Rows that say one thing of parts of several grades.
bool are_grades(const SheetRow& a, const SheetRow& b) {
  return !a.grade.empty() && !b.grade.empty() && a.kind == b.kind && a.characteristic == b.characteristic && a.definition == b.definition && a.step == b.step && a.per == b.per;
}

class LimitsOf {
 public:
  LimitsOf(const LimitSheet& sheet, const std::vector<ProofFinding>& findings, const Catalogue& known) : sheet_(sheet), known_(known) {
    for (const ProofFinding& each : findings) {
      if (is_open(each)) open_.insert(each.spots.begin(), each.spots.end());
    }
  }

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
  static std::optional<RowUnused> unusable(const SheetRow& row) {
    if (!row.choose.empty()) return RowUnused::bands;
    if (row.fresh.empty() && row.wear.empty() && row.fit.empty()) return RowUnused::assembly;
    if (row.kind.empty()) return RowUnused::no_kind;
    return row.step.empty() ? std::nullopt : std::optional(RowUnused::step);
  }

  struct Meant {
    std::vector<const Definition*> definitions;
    std::optional<RowUnused> why;  ///< there are none
  };

  /// The book's own, or all that the row can mean.
  Meant meant_by(const SheetRow& row, const Kind& kind) const {
    if (!row.definition.empty()) return {{known_.definition(row.definition)}, {}};
    const std::vector<const Definition*> usual = definitions_for(kind, known_.definitions).usual;
    std::set<Family> families;
    for (const Definition* each : usual) families.insert(each->family);
    if (!row.characteristic && families.size() != 1) return {{}, RowUnused::no_characteristic};
    const Family family = row.characteristic.value_or(*families.begin());
    if (family == Family::size && families.contains(family)) return {{known_.definition(kSize)}, {}};
    Meant out;
    for (const Definition* each : usual) {
      const bool by_length = is_per_length(each->dimension);
      if (each->family == family && by_length == !row.per.empty()) out.definitions.push_back(each);
    }
    // Each figure of such a kind is another thing.
    if (out.definitions.empty() || (family == Family::figure && out.definitions.size() > 1)) return {{}, RowUnused::no_definition};
    return out;
  }

  /// The side to which a size wears.
  static LimitSide worn_side(const Kind& kind) { return kind.feature == Feature::outside ? LimitSide::at_least : LimitSide::at_most; }

  /// The side to which a thing wears. A spring loses force and a cylinder pressure, a gap grows: of single figures and shapes only where the wear limit lies says it.
  std::optional<LimitSide> worn_side(const SheetRow& row, const PrintedRange& fresh, const Definition& definition, const Kind& kind) const {
    if (definition.family == Family::size) return worn_side(kind);
    if (definition.family != Family::figure && definition.family != Family::shape) return LimitSide::at_most;
    if (row.wear.empty()) return LimitSide::at_most;
    const Ratio wear = original(row.wear).quantity.in_base();
    if (!fresh.from.empty() && wear < original(fresh.from).quantity.in_base()) return LimitSide::at_least;
    if (!fresh.to.empty() && wear > original(fresh.to).quantity.in_base()) return LimitSide::at_most;
    return fresh.empty() ? row.worn : std::nullopt;
  }

  void take_row(const SheetRow& row) {
    const Kind& kind = *known_.kind(row.kind);
    const Meant meant = meant_by(row, kind);
    if (meant.why) return out_.unused.push_back({row.id, *meant.why, {}});
    UnusedRow refused{row.id, RowUnused::refused, {}};
    const PrintedRange fresh = fresh_of(row, kind, refused.problems);
    const std::size_t before = out_.limits.size();
    bool outdone = false;
    for (const Definition* each : meant.definitions) {
      const bool two_ends = each->family == Family::size || each->family == Family::clearance || each->family == Family::figure;
      const bool single = fresh.from == fresh.to;
      const auto side = worn_side(row, fresh, *each, kind);
      if (!side) {
        refused.problems.push_back({"limits.wear_side_unknown", row.place, {verbatim("row", row.id)}});
        continue;
      }
      if (row.worn.value_or(*side) != *side) {
        refused.problems.push_back({"limits.wear_side_other", row.place, {verbatim("row", row.id), verbatim("text", cell_text(row, SheetColumn::wear))}});
        continue;
      }
      const LimitSide worn = *side;
      const std::string under = meant.definitions.size() > 1 ? each->id : "";
      const auto add_end = [&](const Printed& printed, const End& end) {
        if (printed.empty()) return;
        if (reaches_furthest(row, kind, end)) {
          add(row, *each, kind, printed, end, under, refused);
        } else {
          outdone = true;
        }
      };
      if (two_ends && !single) add_end(fresh.from, {SheetField::fresh_from, LimitRole::fresh, LimitSide::at_least, "new-min"});
      add_end(fresh.to, {SheetField::fresh_to, LimitRole::fresh, single ? worn : LimitSide::at_most, "new-max"});
      add_end(row.wear, {SheetField::wear, LimitRole::service, worn, "wear"});
    }
    // Where the book does not say which, what holds under some of them says nothing.
    if (!refused.problems.empty() && meant.definitions.size() > 1) out_.limits.erase(out_.limits.begin() + static_cast<std::ptrdiff_t>(before), out_.limits.end());
    if (!refused.problems.empty() || (out_.limits.size() == before && !outdone)) {
      out_.unused.push_back(std::move(refused));
    } else if (out_.limits.size() == before) {
      out_.unused.push_back({row.id, RowUnused::grade, {}});
    }
  }

  /// By its figures, else by its fit.
  static PrintedRange fresh_of(const SheetRow& row, const Kind& kind, Problems& problems) {
    if (!row.fresh.empty() || row.fit.empty()) return row.fresh;
    const auto fit = take(read_sheet_fit(row.fit, row.place), problems);
    if (!fit) return {};
    PrintedRange out = fresh_by_fit(*fit, kind.feature);
    if (out.empty()) problems.push_back({"limits.fit_not_of_this", row.place, {verbatim("text", row.fit), word("kind", "kind." + kind.id)}});
    return out;
  }

  struct End {
    SheetField field;
    LimitRole role;
    LimitSide side;
    const char* name;
  };

  [[nodiscard]] const Printed* end_of(const SheetRow& row, const Kind& kind, SheetField field, PrintedRange& keep) const {
    if (field == SheetField::wear) return &row.wear;
    Problems none;
    keep = fresh_of(row, kind, none);
    return field == SheetField::fresh_from ? &keep.from : &keep.to;
  }

  /// No other grade of the same thing allows more at this end; of two alike the first.
  [[nodiscard]] bool reaches_furthest(const SheetRow& row, const Kind& kind, const End& end) const {
    if (row.grade.empty()) return true;
    PrintedRange own_range;
    const Printed* own = end_of(row, kind, end.field, own_range);
    const Ratio bound = original(*own).quantity.in_base();
    bool before = true;
    for (const SheetRow& other : sheet_.rows) {
      if (&other == &row) {
        before = false;
        continue;
      }
      PrintedRange other_range;
      if (!are_grades(row, other)) continue;
      const Printed* its = end_of(other, kind, end.field, other_range);
      if (its->empty()) continue;
      const Ratio there = original(*its).quantity.in_base();
      const bool further = end.side == LimitSide::at_most ? there > bound : there < bound;
      if (further || (before && there == bound)) return false;
    }
    return true;
  }

  void add(const SheetRow& row, const Definition& definition, const Kind& kind, const Printed& printed, const End& end, const std::string& under, UnusedRow& refused) {
    const TypedQuantity& bound = original(printed);
    const bool other_end = definition.id == kSize && end.side != worn_side(kind);
    const Definition& meant = other_end ? *known_.definition(kOtherEnd) : definition;
    const std::string line = row.id + "-" + end.name;
    Limit limit{under.empty() ? line : line + "-" + under, row.kind, meant.id, end.role, end.side, bound, {}, {}, {sheet_.book, sheet_.edition, row.page, decision(row, end.field), false, false}};
    if (bound.quantity.dimension() != Dimension::count) limit.bound.text = figure_with_unit(bound);
    if (!row.per.empty()) limit.per = *row.per.preferring(family_of(bound.quantity.unit));
    if (meant.uses(Input::standard) && !row.standard.empty()) limit.standard = original(row.standard);
    Problems found = limit_problems(limit, &meant, kind.feature);
    if (!found.empty()) {
      refused.problems.insert(refused.problems.end(), found.begin(), found.end());
      return;
    }
    out_.limits.push_back({row.id, std::move(limit), open_.contains({row.id, end.field}), under.empty() ? "" : line});
  }

  [[nodiscard]] const TypedQuantity& original(const Printed& printed) const {
    if (sheet_.original || !printed.in_both()) return *printed.preferring(sheet_.original.value_or(UnitFamily::metric));
    return half_a_step(*printed.inch) < half_a_step(*printed.metric) ? *printed.inch : *printed.metric;
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
  const Catalogue& known_;
  std::set<FigureSpot> open_;
  SheetLimits out_;
};

}  // namespace

std::string_view row_unused_name(RowUnused why) {
  switch (why) {
    case RowUnused::no_kind: return "no-kind";
    case RowUnused::no_characteristic: return "no-characteristic";
    case RowUnused::no_definition: return "no-definition";
    case RowUnused::step: return "step";
    case RowUnused::grade: return "grade";
    case RowUnused::bands: return "bands";
    case RowUnused::assembly: return "assembly";
    case RowUnused::refused: return "refused";
  }
  return "";
}

SheetLimits limits_of(const LimitSheet& sheet, const std::vector<ProofFinding>& findings, const Catalogue& known) {
  return LimitsOf(as_decided(sheet), findings, known).run();
}

}  // namespace fettle
