#include "limits/proof_witness.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "limits/proof_reckoner.h"
#include "limits/proof_series.h"
#include "limits/proof_units.h"
#include "limits/proof_wear.h"

namespace fettle {
namespace {

constexpr std::array kBothEnds{SheetField::fresh_from, SheetField::fresh_to};
constexpr std::array kAllEnds{SheetField::fresh_from, SheetField::fresh_to, SheetField::wear};
/// A long series or a part of many fits says no more than this many of its rows do.
constexpr std::size_t kMostRows = 24;

class Hearing {
 public:
  Hearing(const ProofDesk& desk, const SheetRow& as) : desk_(desk), as_(as) {}

  Heard run() {
    for (const UnitFamily family : kUnitFamilies) range(family);
    for (const SheetField field : kAllEnds) {
      const Printed& each = figure(as_, field);
      if (each.in_both() && as_.per.empty()) say(units_agree(*each.metric, *each.inch));
    }
    if (const SheetExpression* own = desk_.expression(as_.id)) fit(as_, *own, nullptr);
    std::size_t heard = 0;
    for (const SheetRow* each : desk_.followers(as_.id)) {
      if (++heard <= kMostRows) fit(*each, *desk_.expression(each->id), &as_);
    }
    for (const UnitFamily family : kUnitFamilies) beside(family);
    return out_;
  }

 private:
  void say(bool yes) { ++(yes ? out_.with : out_.against); }

  void range(UnitFamily family) {
    const auto width = width_of(as_, family);
    if (!width) return;
    if (*width < 0.0) out_.against += Heard::kImpossible;
    const auto& wear = as_.wear.in(family);
    if (!wear || *width <= 0.0) return;
    say(is_sane_wear(*as_.fresh.from.in(family), *as_.fresh.to.in(family), *wear));
  }

  void fit(const SheetRow& row, const SheetExpression& expression, const SheetRow* instead) {
    for (const SheetField field : kBothEnds) {
      const EndJudged judged = judge_end(desk_, row, expression, field, instead);
      if (judged.families > 0) say(judged.failed.empty());
    }
  }

  /// The rows beside it have one width, and step by their step.
  void beside(UnitFamily family) {
    const ProofDesk::Rows& rows = desk_.series(as_.id);
    if (rows.size() < 3) return;
    const auto own = width_of(as_, family);
    std::size_t alike = 0;
    std::size_t others = 0;
    std::array<std::size_t, kAllEnds.size()> on_line{};
    std::array<std::size_t, kAllEnds.size()> seen{};
    for (std::size_t i = 0; i < rows.size(); i += 1 + rows.size() / kMostRows) {
      const SheetRow& other = *rows[i];
      if (other.id == as_.id) continue;
      const auto width = width_of(other, family);
      if (own && width) {
        ++others;
        alike += std::abs(*own - *width) <= room(other, family) ? 1U : 0U;
      }
      for (std::size_t at = 0; at < kAllEnds.size(); ++at) {
        const auto steps = steps_with(as_, other, kAllEnds[at], family);
        seen[at] += steps ? 1U : 0U;
        on_line[at] += steps && *steps ? 1U : 0U;
      }
    }
    if (others >= 2) say(alike * 2 > others);
    for (std::size_t at = 0; at < kAllEnds.size(); ++at) {
      if (seen[at] >= 2) say(on_line[at] * 2 > seen[at]);
    }
  }

  static double room(const SheetRow& row, UnitFamily family) {
    const TypedQuantity& to = *row.fresh.to.in(family);
    return 2.0 * half_a_step(to).to_double() / scale_of(to.quantity.dimension(), family) + 1e-9;
  }

  const ProofDesk& desk_;
  const SheetRow& as_;
  Heard out_{0, 0};
};

}  // namespace

std::optional<double> width_of(const SheetRow& row, UnitFamily family) {
  const auto& from = row.fresh.from.in(family);
  const auto& to = row.fresh.to.in(family);
  if (!from || !to || row.fresh.from == row.fresh.to) return std::nullopt;
  return plain(*to, family) - plain(*from, family);
}

Heard hear(const ProofDesk& desk, const SheetRow& as) { return Hearing(desk, as).run(); }

}  // namespace fettle
