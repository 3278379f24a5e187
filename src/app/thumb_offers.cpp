#include "app/thumb_offers.h"

#include <algorithm>

#include "base/assertion.h"
#include "catalogue/kind_definitions.h"
#include "units/exact_decimal.h"

namespace fettle {
namespace {

bool is_size(const Limit& limit) { return limit.definition == "size-1" || limit.definition == "size-3"; }

/// New sizes that books say of one kind.
class NewSizes {
 public:
  NewSizes(const Job& job, const Kind& kind) : job_(job), kind_(kind) {}

  /// The size that wear counts from: as a limit states it, else the new size on the side where nothing wears.
  [[nodiscard]] std::optional<ThumbSizeFrom> standard(ThumbSize size) const {
    for (const auto& kept : job_.limits) {
      if (is_ours(kept.value) && kept.value.standard) return said(size, *kept.value.standard, "thumb_from.standard", kept.value);
    }
    return on_side(size, kind_.feature == Feature::inside ? LimitSide::at_least : LimitSide::at_most);
  }
  /// Near enough for a share of it.
  [[nodiscard]] std::optional<ThumbSizeFrom> about(ThumbSize size) const {
    if (auto found = standard(size)) return found;
    return on_side(size, kind_.feature == Feature::inside ? LimitSide::at_most : LimitSide::at_least);
  }

 private:
  [[nodiscard]] bool is_ours(const Limit& limit) const { return limit.kind == kind_.id && !limit.origin.rule_of_thumb; }

  [[nodiscard]] std::optional<ThumbSizeFrom> on_side(ThumbSize size, LimitSide side) const {
    for (const auto& kept : job_.limits) {
      const Limit& limit = kept.value;
      const bool wanted = kind_.feature == Feature::figure ? limit.definition == "spring-free" : is_size(limit);
      if (is_ours(limit) && wanted && limit.role == LimitRole::fresh && limit.side == side) return said(size, limit.bound, "thumb_from.new", limit);
    }
    return std::nullopt;
  }

  static ThumbSizeFrom said(ThumbSize size, const TypedQuantity& value, const char* key, const Limit& limit) {
    return {size, value, {key, {word("size", "thumb.of." + std::string(thumb_size_name(size))), verbatim("value", value.text),
                                verbatim("limit", limit.id), word("kind", "kind." + limit.kind)}}};
  }

  const Job& job_;
  const Kind& kind_;
};

class Offers {
 public:
  Offers(const Job& job, const Catalogue& known) : job_(job), known_(known) {
    for (const auto& kept : job.parts) {
      const Kind* kind = known.kind(kept.value.kind);
      FETTLE_ASSERT(kind != nullptr, kept.value.kind);
      if (std::find(kinds_.begin(), kinds_.end(), kind) == kinds_.end()) kinds_.push_back(kind);
    }
  }

  std::vector<ThumbOffer> run() {
    for (const Kind* kind : kinds_) {
      const auto rules = thumb_rules_about(kind->id);
      Kind as_read = *kind;
      as_read.layout = layout_of(*kind);
      if (rules.empty()) continue;
      for (const Definition* definition : definitions_for(as_read, known_.definitions).usual) {
        if (has_limit(kind->id, definition->id)) continue;
        for (const ThumbRule* rule : rules) {
          if (rule->side && rule->definition == definition->id) add(as_read, *definition, *rule);
        }
      }
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] const Layout& layout_of(const Kind& kind) const {
    const auto chosen = std::find_if(job_.layouts.begin(), job_.layouts.end(), [&](const auto& each) { return each.value.kind == kind.id; });
    return chosen == job_.layouts.end() ? kind.layout : chosen->value.layout;
  }

  [[nodiscard]] bool has_limit(const std::string& kind, const std::string& definition) const {
    return std::any_of(job_.limits.begin(), job_.limits.end(), [&](const auto& each) { return each.value.kind == kind && each.value.definition == definition; });
  }

  void add(const Kind& kind, const Definition& definition, const ThumbRule& rule) {
    ThumbOffer offer{rule.about.size() > 1 ? rule.id + "-" + kind.id : rule.id, &rule, kind.id, &definition, {}, {}, {}, sizes(kind, rule), beside(kind, definition, rule)};
    ThumbSizes sizes;
    for (const ThumbSizeFrom& each : offer.from) put(sizes, each);
    offer.missing = thumb_size_missing(rule, sizes);
    offer.figure = thumb_figure(rule, sizes);
    if (!offer.missing && !offer.figure) return;  // the rule is for other sizes
    if (offer.figure) offer.limit = limit_of(offer);
    out_.push_back(std::move(offer));
  }

  static void put(ThumbSizes& sizes, const ThumbSizeFrom& from) {
    switch (from.size) {
      case ThumbSize::diameter: sizes.diameter = from.value; break;
      case ThumbSize::length: sizes.length = from.value; break;
      case ThumbSize::radius: sizes.radius = from.value; break;
      case ThumbSize::growth: sizes.growth = from.value; break;
      case ThumbSize::new_size: sizes.new_size = from.value; break;
    }
  }

  /// As far as the job says them.
  [[nodiscard]] std::vector<ThumbSizeFrom> sizes(const Kind& kind, const ThumbRule& rule) const {
    std::vector<ThumbSizeFrom> out;
    for (const auto& wanted : {rule.of, rule.standard}) {
      if (!wanted || std::any_of(out.begin(), out.end(), [&](const ThumbSizeFrom& each) { return each.size == *wanted; })) continue;
      if (auto found = size(kind, *wanted, rule.standard == wanted)) out.push_back(std::move(*found));
    }
    return out;
  }

  [[nodiscard]] std::optional<ThumbSizeFrom> size(const Kind& kind, ThumbSize size, bool counts_from_it) const {
    switch (size) {
      case ThumbSize::diameter:
      case ThumbSize::new_size: {
        const NewSizes own(job_, kind);
        if (counts_from_it) return own.standard(size);
        if (auto found = own.about(size)) return found;
        const Kind* mate = only_mate(kind);
        auto found = mate == nullptr ? std::nullopt : NewSizes(job_, *mate).about(size);
        if (found) found->from.key = "thumb_from.mate";
        return found;
      }
      case ThumbSize::length: return travel(kind.layout);
      case ThumbSize::radius:
      case ThumbSize::growth: return std::nullopt;
    }
    return std::nullopt;
  }

  /// Of two that run in each other, the other. A bearing may run on main journals and on crankpins: where the job has both, its size is neither's.
  [[nodiscard]] const Kind* only_mate(const Kind& kind) const {
    const auto mates = mates_of(kind.id);
    if (mates.size() != 1) return nullptr;
    std::vector<std::string> back = mates_of(mates.front());
    back.erase(std::remove_if(back.begin(), back.end(), [&](const std::string& each) { return !in_job(each); }), back.end());
    return back.size() == 1 ? known_.kind(mates.front()) : nullptr;
  }

  [[nodiscard]] bool in_job(const std::string& kind) const {
    return std::any_of(kinds_.begin(), kinds_.end(), [&](const Kind* each) { return each->id == kind; });
  }

  [[nodiscard]] std::vector<std::string> mates_of(const std::string& kind) const {
    constexpr std::size_t kTwo = 2;
    std::vector<std::string> out;
    for (const Kind& pair : known_.kinds) {
      if (pair.members.size() != kTwo) continue;
      for (std::size_t i = 0; i < kTwo; ++i) {
        const auto& mine = pair.members[i].kinds;
        if (std::find(mine.begin(), mine.end(), kind) == mine.end()) continue;
        const auto& others = pair.members[1 - i].kinds;
        out.insert(out.end(), others.begin(), others.end());
      }
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
  }

  /// From the first counted height to the last.
  [[nodiscard]] std::optional<ThumbSizeFrom> travel(const Layout& layout) const {
    std::optional<Length> first;
    std::optional<Length> last;
    for (const Station& each : layout.stations) {
      if (each.counted && each.role == StationRole::first) first = each.depth;
      if (each.counted && each.role == StationRole::last) last = each.depth;
    }
    if (!first || !last || *last <= *first) return std::nullopt;
    const TypedQuantity typed = as_typed(*last - *first);
    return ThumbSizeFrom{ThumbSize::length, typed, {"thumb_from.travel", {word("size", "thumb.of.length"), verbatim("value", typed.text)}}};
  }

  /// In the job's unit where that is a decimal figure, else in mm.
  [[nodiscard]] TypedQuantity as_typed(const Length& length) const {
    const UnitId shown = job_.opened ? job_.opened->value.shown_unit : UnitId::millimetre;
    auto digits = exact_decimal(length.ratio() / unit_definition(shown).factor);
    const UnitId unit = digits ? shown : UnitId::millimetre;
    if (!digits) digits = exact_decimal(length.ratio() / unit_definition(unit).factor);
    return read_quantity(*digits + " " + std::string(unit_definition(unit).symbol), {unit, Dimension::length, DecimalMark::point, {}, false, {}}, {}).value();
  }

  [[nodiscard]] std::vector<std::string> beside(const Kind& kind, const Definition& definition, const ThumbRule& rule) const {
    std::vector<std::string> out;
    for (const auto& kept : job_.limits) {
      const Limit& limit = kept.value;
      const Definition* other = known_.definition(limit.definition);
      if (other == nullptr || limit.kind != kind.id || limit.role != rule.role) continue;
      const bool same_family = definition.family == other->family && definition.family != Family::figure;
      // How large a bore may be says how far it may be worn.
      const bool by_size = definition.family == Family::wear && other->family == Family::size;
      if (same_family || by_size) out.push_back(limit.id);
    }
    return out;
  }

  [[nodiscard]] Limit limit_of(const ThumbOffer& offer) const {
    Limit out{free_id("thumb-" + offer.id), offer.kind, offer.definition->id, offer.rule->role, *offer.rule->side, in_our_mark(offer.figure->bound), {},
              offer.figure->standard, LimitOrigin{}};
    out.origin.book = offer.rule->origin;
    out.origin.rule_of_thumb = true;
    if (offer.figure->per) out.per = in_our_mark(*offer.figure->per);
    return out;
  }

  [[nodiscard]] std::string free_id(const std::string& wanted) const {
    const auto taken = [&](const std::string& id) { return std::any_of(job_.limits.begin(), job_.limits.end(), [&](const auto& each) { return each.value.id == id; }); };
    std::string out = wanted;
    for (int more = 2; taken(out); ++more) out = wanted + "-" + std::to_string(more);
    return out;
  }

  /// As a person of this job would have typed it. Where no mark is stated, three places could be thousands: a fourth one says that they are not.
  [[nodiscard]] TypedQuantity in_our_mark(const TypedQuantity& typed) const {
    const std::optional<DecimalMark> mark = job_.opened ? job_.opened->value.decimal_mark : std::nullopt;
    std::string text = typed.text;
    if (mark == DecimalMark::comma) std::replace(text.begin(), text.end(), '.', ',');
    const TypingContext context{typed.quantity.unit, typed.quantity.dimension(), mark, {}, false, {}};
    auto read = read_quantity(text, context, {});
    if (!read.ok()) read = read_quantity(text.insert(std::min(text.find(' '), text.size()), "0"), context, {});
    FETTLE_ASSERT(read.ok() && read.value().quantity == typed.quantity, text);
    return std::move(read).value();
  }

  const Job& job_;
  const Catalogue& known_;
  std::vector<const Kind*> kinds_;
  std::vector<ThumbOffer> out_;
};

}  // namespace

std::vector<ThumbOffer> thumb_offers(const Job& job, const Catalogue& known) { return Offers(job, known).run(); }

Limit accepted_by(const ThumbOffer& offer, const std::string& who) {
  FETTLE_ASSERT(offer.limit.has_value(), offer.id);
  Limit out = *offer.limit;
  out.origin.decision = who;
  out.origin.accepted = true;
  return out;
}

std::vector<UnlimitedByBooks> unlimited(const std::vector<ThumbOffer>& offers, const std::string& kind) {
  std::vector<UnlimitedByBooks> out;
  for (const ThumbOffer& each : offers) {
    const bool there = std::any_of(out.begin(), out.end(), [&](const auto& one) { return one.kind == each.kind && one.definition == each.definition; });
    if (each.beside.empty() && !there && (kind.empty() || each.kind == kind)) out.push_back({each.kind, each.definition});
  }
  return out;
}

}  // namespace fettle
