#include "cli/thumb_text.h"

#include "catalogue/catalogue.h"
#include "cli/paragraph.h"

namespace fettle {
namespace {

constexpr const char* kIndent = "    ";

/// A kind of the catalogue goes by its own name.
std::string thing_name(const std::string& id, Language language) {
  return word_for((catalogue().kind(id) == nullptr ? "thumb.about." : "kind.") + id, language);
}

/// How a size is given on the command line.
std::string option_of(ThumbSize size) { return "--" + std::string(thumb_size_name(size)); }

class ThumbText {
 public:
  ThumbText(const ThumbSizes& sizes, Language language) : sizes_(sizes), language_(language) {}

  [[nodiscard]] std::string of(const ThumbRule& rule) const {
    std::string out = "\n" + paragraph("", rule.id + ": " + word_for("thumb.rule." + rule.id, language_));
    out += paragraph(kIndent, said(rule));
    if (rule.definition) out += paragraph(kIndent, sentence({"thumb.judged_by", {verbatim("definition", *rule.definition)}}, language_));
    const Message source{"thumb.source", {verbatim("origin", rule.origin), word("mark", "thumb.mark." + std::string(thumb_mark_name(rule.mark)))}};
    return out + paragraph(kIndent, sentence(source, language_));
  }

 private:
  [[nodiscard]] std::string said(const ThumbRule& rule) const {
    if (const auto figure = thumb_figure(rule, sizes_)) {
      const char* key = !rule.side ? "thumb.around" : *rule.side == LimitSide::at_most ? "thumb.at-most" : "thumb.at-least";
      return sentence({key, {verbatim("figure", shown(*figure))}}, language_);
    }
    const auto missing = thumb_size_missing(rule, sizes_);
    if (!missing) return word_for("thumb.not_this_size", language_);
    return sentence({"thumb.needs", {word("size", "thumb.of." + std::string(thumb_size_name(*missing))), verbatim("option", option_of(*missing))}}, language_);
  }

  [[nodiscard]] std::string shown(const ThumbFigure& figure) const {
    const std::string bound = with_decimal_mark(figure.bound.text, language_);
    if (figure.per) {
      return sentence({"thumb.per", {verbatim("figure", bound), verbatim("per", with_decimal_mark(figure.per->text, language_))}}, language_);
    }
    const auto length = exact_length(figure.bound.quantity);
    if (!length) return bound;
    const UnitId other = figure.bound.quantity.unit == UnitId::inch ? UnitId::millimetre : UnitId::inch;
    const std::string rounded = in_unit(length->ratio(), other, fine_decimals(other)) + " " + std::string(unit_definition(other).symbol);
    return sentence({"thumb.in_both", {verbatim("figure", bound), verbatim("other", with_decimal_mark(rounded, language_))}}, language_);
  }

  const ThumbSizes& sizes_;
  Language language_;
};

}  // namespace

std::string thumb_text(const std::string& about, const std::vector<const ThumbRule*>& rules, const ThumbSizes& sizes, Language language) {
  std::string out = about.empty() ? word_for("thumb.title_all", language)
                                  : sentence({"thumb.title", {verbatim("about", thing_name(about, language))}}, language);
  out += "\n" + paragraph("", word_for("thumb.warning", language));
  const ThumbText text(sizes, language);
  for (const ThumbRule* each : rules) out += text.of(*each);
  return out;
}

}  // namespace fettle
