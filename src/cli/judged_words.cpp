#include "cli/judged_words.h"

#include <algorithm>
#include <cmath>

#include "app/limit_origin.h"
#include "catalogue/catalogue.h"
#include "form/shape_group.h"
#include "form/shape_said.h"
#include "units/print.h"

namespace fettle {

std::string JudgedWords::say(const Message& message) const { return sentence(message, look_.language); }

std::string JudgedWords::number(std::string digits) const { return with_decimal_mark(std::move(digits), look_.language); }

std::string JudgedWords::symbol() const { return std::string(unit_definition(unit_).symbol); }

std::string JudgedWords::step(const Step& step) const {
  if (step.offset) return step.offset->text;
  return word_for("step." + std::string(step_kind_name(step.kind)), look_.language);
}

const Limit& JudgedWords::limit_of(const std::string& id) const {
  return std::find_if(judged_.job.limits.begin(), judged_.job.limits.end(),
                      [&](const auto& each) { return each.value.id == id; })->value;
}

std::string JudgedWords::side_sign(const Limit& limit) {
  switch (limit.side) {
    case LimitSide::at_most: return "≤";
    case LimitSide::at_least: return "≥";
  }
  return "";
}

std::string JudgedWords::typed_bound(const Limit& limit) const {
  if (!limit.per) return limit.bound.text;
  return say({"limit.per", {verbatim("bound", limit.bound.text), verbatim("per", limit.per->text)}});
}

ResultDimension JudgedWords::dimension_of(const Limit& limit) { return catalogue().definition(limit.definition)->dimension; }

bool JudgedWords::is_length(const Limit& limit) { return dimension_of(limit) == ResultDimension::length; }

FigureStyle JudgedWords::style_of(const Limit& limit) const {
  return style_as_typed(dimension_of(limit), unit_, limit.bound.quantity.unit);
}

std::string JudgedWords::unit_of(const Limit& limit) const {
  const std::string unit = style_of(limit).unit;
  return unit == "1" ? "" : " " + unit;
}

std::string JudgedWords::bound_text(const Verdict& verdict, const Limit& limit) const {
  return number(shown(verdict.bound, style_of(limit)));
}

std::string JudgedWords::figure_of(const Verdict& verdict, const Limit& limit) const {
  if (!verdict.as_measured) return "–";
  return number(shown(*verdict.as_measured, style_of(limit)));
}

std::string JudgedWords::place(const Where& where, const Layout& layout) const {
  std::string out;
  for (std::size_t index : where.stations) {
    const Station& station = layout.stations[index];
    if (!station.member.empty()) out += (out.empty() ? "" : ", ") + word_for("member." + station.member, look_.language);
    out += (out.empty() ? "" : station.member.empty() ? "–" : " ") + say({"cell", {station_argument("word", station.id)}});
  }
  std::string directions;
  for (std::size_t index : where.directions) {
    directions += (directions.empty() ? "" : "/") + say({"cell", {direction_argument("word", layout.directions[index].id)}});
  }
  // Directions of several members would not say whose they are.
  const bool borrowed = std::any_of(where.stations.begin(), where.stations.end(), [&](std::size_t each) { return !layout.stations[each].member.empty(); });
  return directions.empty() || borrowed ? out : out + ", " + directions;
}

std::string JudgedWords::title(const Limit& limit, Feature feature) const {
  return word_for("definition." + limit.definition + "." + std::string(feature_name(feature)), look_.language);
}

const GroupEstimate* JudgedWords::group_of(const PartOnBench& part) const {
  for (const GroupEstimate& group : judged_.groups) {
    if (group.shape && block_of(*group.shape, part.part.id)) return &group;
  }
  return nullptr;
}

bool JudgedWords::judged_by_shape(const PartOnBench& part) const { return group_of(part) != nullptr; }

std::string JudgedWords::estimate(double value, const Limit& limit) const {
  return is_length(limit) ? print_length(value, unit_) : shown(value, style_of(limit));
}

std::string JudgedWords::uncertainty(const Doubt& doubt, const Limit& limit) const {
  return number(estimate(doubt.standard_uncertainty, limit));
}

std::string JudgedWords::origin_of(const Limit& limit) const {
  return say(origin_message(limit));
}

std::string JudgedWords::percent_digits(const Ratio& share) {
  constexpr int kMostDecimals = 4;
  const Ratio percent = share * Ratio(100);
  int decimals = 0;
  while (decimals < kMostDecimals && !(percent * Ratio::power_of_ten(decimals)).is_whole()) ++decimals;
  return percent.decimal(decimals);
}

std::string JudgedWords::rule() const {
  const Rule& rule = judged_.judgement.rule;
  const Argument level = decimal("level", percent_digits(rule.level), "%");
  std::string out = say({"rule." + std::string(rule_kind_name(rule.kind)), {level}}) + " " +
                    say({"rule." + std::string(tie_rule_name(rule.tie)), {}}) + "\n";
  const bool shapes = std::any_of(judged_.groups.begin(), judged_.groups.end(), [](const auto& each) { return each.shape != nullptr; });
  if (shapes && rule.kind == RuleKind::probability) out += say({"rule.chance", {level, decimal("rest", percent_digits(Ratio(1) - rule.level), "%")}}) + "\n";
  for (const GroupEstimate& group : judged_.groups) out += estimated(group);
  return out + say({"rule.who_decides", {}}) + "\n";
}

std::string JudgedWords::estimated(const GroupEstimate& group) const {
  std::vector<std::string> ids;
  for (const PartEstimate& part : group.parts) {
    const auto read = [](const auto& place) { return place.has_value(); };
    if (std::any_of(part.places.begin(), part.places.end(), read)) ids.push_back(part.part);
  }
  if (ids.empty()) return "";
  std::string out = joined(ids) + ": " + say(group.why) + "\n";
  for (const Message& said : group.said) out += "    " + say(said) + "\n";
  if (!group.shape) return out;
  const Layout& layout = layout_of(group.parts.front().part);
  for (const Message& said : shape_said(*group.shape, layout, unit_)) out += "    " + say(said) + "\n";
  return out;
}

const Layout& JudgedWords::layout_of(const std::string& part) const {
  return find_part(judged_.parts, part)->layout;
}

}  // namespace fettle
