#include "limits/proof_reckoner.h"

#include <algorithm>
#include <cmath>

namespace fettle {
namespace {

using Span = SheetExpression::Span;

double plain_half(const TypedQuantity& figure, UnitFamily family) { return half_a_step(figure).to_double() / scale_of(figure.quantity.dimension(), family); }

Span span_of(const Ends& ends, UnitFamily family, double more) {
  const double shift = more * plain_half(*ends.from, family);
  return {plain(*ends.from, family) + shift, plain(*ends.to, family) + more * plain_half(*ends.to, family), length_power(ends.from->quantity.dimension())};
}

bool is_within(double apart, double room) { return std::abs(apart) <= room * (1 + 1e-9) + 1e-12; }

}  // namespace

double scale_of(Dimension dimension, UnitFamily family) {
  const bool inch = family == UnitFamily::inch;
  if (dimension == Dimension::length) return static_cast<double>(Length::kCountsPerMillimetre) * (inch ? 25.4 : 1.0);
  if (dimension == Dimension::volume) return inch ? 16387.064 : 1.0;
  return 1.0;
}

double plain(const TypedQuantity& figure, UnitFamily family) { return figure.quantity.in_base().to_double() / scale_of(figure.quantity.dimension(), family); }

Ratio to_base(double value, UnitFamily family, Dimension dimension) {
  return Ratio::of(static_cast<Int128>(std::llround(value * scale_of(dimension, family) * 1e4)), 10000);
}

std::optional<Ends> ends_of(const SheetRow& row, UnitFamily family) {
  const auto pick = [&](const Printed& own, const Printed& other) { return own.empty() ? other.preferring(family) : own.preferring(family); };
  const Ends out{pick(row.fresh.from, row.fresh.to), pick(row.fresh.to, row.fresh.from)};
  return out.from == nullptr ? std::nullopt : std::optional(out);
}

Reckoner::Reckoner(const ProofDesk& desk, const SheetExpression& expression, UnitFamily family, const SheetRow* instead) : expression_(expression), family_(family) {
  for (const std::string& name : expression.names()) {
    const SheetRow* row = instead != nullptr && instead->id == name ? instead : desk.row(name);
    auto part = row == nullptr ? std::nullopt : part_of(*row);
    known_ = known_ && part;
    if (part) parts_.push_back(std::move(*part));
  }
}

std::optional<Reckoner::Part> Reckoner::part_of(const SheetRow& row) const {
  const auto ends = ends_of(row, family_);
  if (!ends) return std::nullopt;
  return Part{row.id, span_of(*ends, family_, 0.0), span_of(*ends, family_, 1.0)};
}

std::optional<Span> Reckoner::value_as(const SheetRow& as) const {
  const auto part = part_of(as);
  return part ? value_with(as.id, &part->span) : std::nullopt;
}

std::optional<Span> Reckoner::value_with(const std::string& name, const Span* instead) const {
  if (!known_) return std::nullopt;
  const Span out = expression_.value([&](const std::string& each) -> Span {
    if (instead != nullptr && each == name) return *instead;
    return std::find_if(parts_.begin(), parts_.end(), [&](const Part& part) { return part.name == each; })->span;
  });
  const bool finite = std::isfinite(out.low) && std::isfinite(out.high);
  return finite ? std::optional(out) : std::nullopt;
}

Span Reckoner::slack(const Span& exact) const {
  Span out{0.0, 0.0, 0};
  for (const Part& part : parts_) {
    const auto up = value_with(part.name, &part.rounded);
    if (!up) continue;
    out.low += std::abs(up->low - exact.low);
    out.high += std::abs(up->high - exact.high);
  }
  return out;
}

bool EndCheck::exact() const { return is_within(apart, half); }
bool EndCheck::within_slack() const { return is_within(apart, half + slack); }

std::vector<EndCheck> end_checks(const SheetRow& row, const Reckoner& reckoner, UnitFamily family) {
  std::vector<EndCheck> out;
  const auto exact = reckoner.value();
  if (!exact) return out;
  const Span slack = reckoner.slack(*exact);
  const auto add = [&](SheetField field, double value, double room) {
    const auto& printed = figure(row, field).in(family);
    if (printed) out.push_back({field, &*printed, value, room, plain(*printed, family) - value, plain_half(*printed, family)});
  };
  const bool single = row.fresh.from == row.fresh.to;
  // One figure for all of it: it has to lie in what the parts give.
  if (single && exact->high > exact->low) {
    const auto& printed = row.fresh.from.in(family);
    if (!printed) return out;
    const double figure = plain(*printed, family);
    const double nearest = std::clamp(figure, exact->low, exact->high);
    add(SheetField::fresh_from, nearest, nearest == exact->low ? slack.low : slack.high);
    return out;
  }
  add(SheetField::fresh_from, exact->low, slack.low);
  if (!single) add(SheetField::fresh_to, exact->high, slack.high);
  return out;
}

bool may_be_converted(const ProofDesk& desk, const SheetRow& row, const SheetExpression& expression, UnitFamily family) {
  if (desk.sheet.original == family) return false;
  const auto converted = [&](const SheetRow& each) { return !each.fresh.from.in(family) || each.fresh.from.in_both() || each.fresh.to.in_both(); };
  const std::vector<std::string> names = expression.names();
  return converted(row) || std::any_of(names.begin(), names.end(), [&](const std::string& each) {
           const SheetRow* part = desk.row(each);
           return part != nullptr && converted(*part);
         });
}

EndJudged judge_end(const ProofDesk& desk, const SheetRow& row, const SheetExpression& expression, SheetField field, const SheetRow* instead) {
  EndJudged out{{}, 0};
  for (const UnitFamily family : kUnitFamilies) {
    if (desk.sheet.original && *desk.sheet.original != family && figure(row, field).in(*desk.sheet.original)) continue;
    for (const EndCheck& end : end_checks(row, Reckoner(desk, expression, family, instead), family)) {
      if (end.field != field) continue;
      ++out.families;
      if (end.exact()) return {{}, out.families};
      if (!may_be_converted(desk, row, expression, family) || !end.within_slack()) out.failed.push_back({family, end});
    }
  }
  return out;
}

}  // namespace fettle
