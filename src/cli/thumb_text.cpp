#include "cli/thumb_text.h"

#include "app/thumb_page.h"
#include "base/joined.h"
#include "cli/paragraph.h"
#include "cli/table.h"

namespace fettle {
namespace {

constexpr const char* kIndent = "    ";

/// How a size is given on the command line.
std::string option_of(ThumbSize size) { return "--" + std::string(thumb_size_name(size)); }

class ThumbText {
 public:
  ThumbText(const ThumbSizes& sizes, Language language) : sizes_(sizes), language_(language) {}

  [[nodiscard]] std::string of(const ThumbRule& rule) const {
    std::string out = "\n" + paragraph("", rule.id + ": " + word_for("thumb.rule." + rule.id, language_));
    out += paragraph(kIndent, said(rule));
    if (rule.definition) out += paragraph(kIndent, sentence({"thumb.judged_by", {verbatim("definition", *rule.definition)}}, language_));
    return out + paragraph(kIndent, thumb_source_words(rule, language_));
  }

 private:
  [[nodiscard]] std::string said(const ThumbRule& rule) const {
    if (const auto figure = thumb_figure(rule, sizes_)) return thumb_figure_words(rule.side, *figure, language_);
    const auto missing = thumb_size_missing(rule, sizes_);
    if (!missing) return word_for("thumb.not_this_size", language_);
    return sentence({"thumb.needs", {word("size", "thumb.of." + std::string(thumb_size_name(*missing))), verbatim("option", option_of(*missing))}}, language_);
  }

  const ThumbSizes& sizes_;
  Language language_;
};

/// Below the table: what has no room in it.
std::string notes(const ThumbOffersPage::Offer& offer, Language language) {
  std::string out = paragraph("  ", offer.id + ": " + offer.says);
  const auto note = [&](const std::string& text) { out += paragraph(kIndent, text); };
  for (const std::string& each : offer.from) note(each);
  if (offer.missing) note(*offer.missing);
  if (!offer.beside.empty()) note(sentence({"thumb_offer.beside", {verbatim("limits", joined(offer.beside))}}, language));
  note(offer.source);
  return out;
}

}  // namespace

std::string thumb_text(const std::string& about, const std::vector<const ThumbRule*>& rules, const ThumbSizes& sizes, Language language) {
  std::string out = about.empty() ? word_for("thumb.title_all", language)
                                  : sentence({"thumb.title", {verbatim("about", thumb_thing_name(about, language))}}, language);
  out += "\n" + paragraph("", word_for("thumb.warning", language));
  const ThumbText text(sizes, language);
  for (const ThumbRule* each : rules) out += text.of(*each);
  return out;
}

std::string thumb_offers_text(const ThumbOffersPage& page, const std::string& command, Language language) {
  std::string out = sentence({"thumb_offer.title", {verbatim("job", page.job)}}, language) + "\n";
  if (page.kinds.empty()) return out + paragraph("", word_for("thumb_offer.none", language));
  out += paragraph("", page.warning);
  for (const ThumbOffersPage::Kind& kind : page.kinds) {
    out += "\n" + kind.name + "\n";
    std::vector<std::vector<std::string>> rows;
    std::string below;
    for (const ThumbOffersPage::Offer& each : kind.offers) {
      rows.push_back({each.id, each.name + " (" + each.definition + ", " + word_for("role." + each.role, language) + ")", each.figure.value_or("–")});
      below += notes(each, language);
    }
    out += columns(rows, kTableIndent) + below;
  }
  // The command stands on a line of its own, however long: it is copied.
  return out + "\n" + paragraph("", word_for("thumb_offer.how", language)) + kIndent + command + " --accept ID --by NAME\n";
}

}  // namespace fettle
