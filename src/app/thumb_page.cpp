#include "app/thumb_page.h"

#include "app/part_words.h"

namespace fettle {
namespace {

std::string bare_figure(const ThumbFigure& figure, Language language) {
  const std::string bound = with_decimal_mark(figure.bound.text, language);
  if (figure.per) return sentence({"thumb.per", {verbatim("figure", bound), verbatim("per", with_decimal_mark(figure.per->text, language))}}, language);
  const auto length = exact_length(figure.bound.quantity);
  if (!length) return bound;
  const UnitId other = figure.bound.quantity.unit == UnitId::inch ? UnitId::millimetre : UnitId::inch;
  const std::string rounded = in_unit(length->ratio(), other, fine_decimals(other)) + " " + std::string(unit_definition(other).symbol);
  return sentence({"thumb.in_both", {verbatim("figure", bound), verbatim("other", with_decimal_mark(rounded, language))}}, language);
}

/// The same definition has other words on a bore and on a journal.
std::string name_of(const Definition& definition, const std::string& kind, Language language) {
  return word_for("definition." + definition.id + "." + std::string(feature_name(catalogue().kind(kind)->feature)), language);
}

ThumbOffersPage::Offer offer_words(const ThumbOffer& offer, Language language) {
  const ThumbRule& rule = *offer.rule;
  ThumbOffersPage::Offer out{offer.id, rule.id, offer.definition->id, name_of(*offer.definition, offer.kind, language), word_for("thumb.rule." + rule.id, language),
                             std::string(role_name(rule.role)), std::string(side_name(*rule.side)), {}, {}, {}, {}, offer.beside,
                             thumb_source_words(rule, language), std::string(thumb_mark_name(rule.mark))};
  if (offer.limit) out.bound = offer.limit->bound.text;
  if (offer.figure) out.figure = thumb_figure_words(rule.side, *offer.figure, language);
  if (offer.missing) out.missing = word_for("thumb_offer.needs." + std::string(thumb_size_name(*offer.missing)), language);
  for (const ThumbSizeFrom& each : offer.from) out.from.push_back(sentence(each.from, language));
  return out;
}

}  // namespace

std::string thumb_figure_words(const std::optional<LimitSide>& side, const ThumbFigure& figure, Language language) {
  const std::string key = side ? std::string(side_name(*side)) : "around";
  return sentence({"thumb." + key, {verbatim("figure", bare_figure(figure, language))}}, language);
}

std::string thumb_thing_name(const std::string& id, Language language) {
  return word_for((catalogue().kind(id) == nullptr ? "thumb.about." : "kind.") + id, language);
}

std::string thumb_source_words(const ThumbRule& rule, Language language) {
  return sentence({"thumb.source", {verbatim("origin", rule.origin), word("mark", "thumb.mark." + std::string(thumb_mark_name(rule.mark)))}}, language);
}

ThumbOffersPage thumb_offers_page(const Job& job, const std::vector<ThumbOffer>& offers, Language language) {
  ThumbOffersPage out{job.id, word_for("thumb.warning", language), {}};
  for (const ThumbOffer& each : offers) {
    if (out.kinds.empty() || out.kinds.back().kind != each.kind) out.kinds.push_back({each.kind, sentence(group_message(each.kind), language), {}});
    out.kinds.back().offers.push_back(offer_words(each, language));
  }
  return out;
}

std::string unlimited_words(const std::vector<UnlimitedByBooks>& list, Language language) {
  std::string out;
  for (const UnlimitedByBooks& each : list) {
    const Message one{"thumb_offer.of_kind", {verbatim("definition", name_of(*each.definition, each.kind, language)), word("kind", "kind." + each.kind)}};
    out += (out.empty() ? "" : "; ") + sentence(one, language);
  }
  return out;
}

}  // namespace fettle
