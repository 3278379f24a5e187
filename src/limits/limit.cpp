#include "limits/limit.h"

#include "base/assertion.h"

namespace fettle {
namespace {

/// The end of a part's sizes where wear does not show.
constexpr std::string_view kOtherEnd = "size-3";

class LimitCheck {
 public:
  explicit LimitCheck(const Limit& limit) : limit_(limit) {}

  void add(std::string code, std::vector<Argument> arguments = {}) {
    arguments.push_back(verbatim("limit", limit_.id));
    problems_.push_back({std::move(code), limit_.bound.place, std::move(arguments)});
  }

  void check_definition(const Definition& definition, Feature feature) {
    if (!definition.judged()) {
      std::vector<Message> needs;
      for (const std::string& need : definition.needs) needs.push_back({"need." + need, {}});
      add("limits.needs_other", {verbatim("definition", definition.id), list("needs", std::move(needs))});
      return;
    }
    if (!definition.applies(feature)) {
      add("limits.not_for_feature", {verbatim("definition", definition.id)});
    } else if (!definition.is_for(limit_.kind)) {
      add("limits.not_for_kind", {verbatim("definition", definition.id), word("kind", "kind." + limit_.kind)});
    }
    check_bound(definition);
    // The smallest size of a bore that must not be too large looks at its best place only, whatever the rest is.
    const LimitSide worn_side = feature == Feature::inside ? LimitSide::at_most : LimitSide::at_least;
    if (definition.id == kOtherEnd && limit_.side == worn_side) add("limits.wrong_end", {verbatim("definition", definition.id)});
    if (definition.uses(Input::standard) && !limit_.standard) add("limits.standard_missing", {verbatim("definition", definition.id)});
  }

  void check_bound(const Definition& definition) {
    const auto length = exact_length(limit_.bound.quantity);
    const Dimension wanted = typed_dimension(definition.dimension);
    if (limit_.bound.quantity.dimension() != wanted || (wanted == Dimension::length && !length)) {
      add("limits.wrong_dimension", {verbatim("text", limit_.bound.text), dimension_word(wanted)});
    }
    // A size is above nothing and an out-of-round not below it; tapers and shapes may have a sign.
    const bool size = definition.family == Family::size && length && length->counts() <= 0;
    const bool out_of_round = definition.family == Family::out_of_round && length && length->counts() < 0;
    if (size || out_of_round) add("limits.not_positive", {verbatim("text", limit_.bound.text)});
    if (!is_per_length(definition.dimension)) {
      if (limit_.per) add("limits.per_not_wanted", {verbatim("definition", definition.id)});
    } else if (!limit_.per) {
      add("limits.per_missing", {verbatim("definition", definition.id)});
    } else if (const auto per = exact_length(limit_.per->quantity); !per || per->counts() <= 0) {
      add("limits.wrong_dimension", {verbatim("text", limit_.per->text), dimension_word(Dimension::length)});
    }
  }

  static Argument dimension_word(Dimension dimension) { return word("wanted", "dimension." + std::string(dimension_name(dimension))); }

  void check_origin() {
    const LimitOrigin& origin = limit_.origin;
    if (origin.rule_of_thumb) {
      if (!origin.accepted) add("limits.thumb_not_accepted");
    } else if (origin.book.empty() || origin.page.empty()) {
      add("limits.origin_missing");
    }
  }

  Problems take() && { return std::move(problems_); }

 private:
  const Limit& limit_;
  Problems problems_;
};

}  // namespace

Ratio bound_of(const Limit& limit) {
  const Ratio counts = limit.bound.quantity.in_base();
  return limit.per ? counts / limit.per->quantity.in_base() : counts;
}

Problems limit_problems(const Limit& limit, const Definition* definition, Feature feature) {
  LimitCheck check(limit);
  if (definition == nullptr) {
    check.add("limits.unknown_definition", {verbatim("definition", limit.definition)});
  } else {
    check.check_definition(*definition, feature);
  }
  check.check_origin();
  return std::move(check).take();
}

std::string_view role_name(LimitRole role) {
  switch (role) {
    case LimitRole::fresh: return "new";
    case LimitRole::service: return "service";
  }
  return "";
}

std::string_view side_name(LimitSide side) {
  switch (side) {
    case LimitSide::at_most: return "at-most";
    case LimitSide::at_least: return "at-least";
  }
  return "";
}

}  // namespace fettle
