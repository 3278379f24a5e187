#include "cli/iso_fit_text.h"

#include "cli/paragraph.h"
#include "cli/table.h"

namespace fettle {
namespace {

constexpr int kMostDecimals = 7;  ///< in mm these show every count

/// With `least` decimals, or as many more as it takes to lose nothing.
std::string whole_digits(Length length, UnitId unit, int least) {
  const Ratio value = length.ratio() / unit_definition(unit).factor;
  int decimals = least;
  while (decimals < kMostDecimals && !(value * Ratio::power_of_ten(decimals)).is_whole()) ++decimals;
  return value.decimal(decimals);
}

class IsoFitText {
 public:
  IsoFitText(const IsoFit& fit, Language language) : fit_(fit), language_(language) {}

  std::string run() {
    const std::string code = (fit_.hole ? fit_.hole->code : "") + (fit_.hole && fit_.shaft ? "/" : "") + (fit_.shaft ? fit_.shaft->code : "");
    std::string out = paragraph("", sentence({"fit.title", {verbatim("code", code), mm("nominal", fit_.nominal, 0), mm("over", fit_.step.over, 0),
                                                            mm("up_to", fit_.step.up_to, 0)}}, language_));
    out += "\n" + columns(deviations(), kTableIndent) + "\n" + columns(sizes(), kTableIndent) + "\n";
    if (const auto play = play_of(fit_)) out += paragraph("", sentence(said(*play), language_));
    return out + paragraph("", word_for("fit.exact", language_)) + paragraph("", word_for("fit.source", language_));
  }

 private:
  using Rows = std::vector<std::vector<std::string>>;

  static Argument mm(const char* name, Length length, int least) { return decimal(name, whole_digits(length, UnitId::millimetre, least), "mm"); }
  static Argument inch(const char* name, Length length) { return length_argument(name, length.ratio(), UnitId::inch, fine_decimals(UnitId::inch)); }

  [[nodiscard]] std::string shown(const std::string& digits, UnitId unit) const {
    return with_decimal_mark(digits, language_) + " " + std::string(unit_definition(unit).symbol);
  }

  [[nodiscard]] std::string deviation(Length length) const {
    return (length > Length() ? "+" : "") + shown(whole_digits(length, UnitId::micrometre, 0), UnitId::micrometre);
  }

  [[nodiscard]] std::string name_of(const IsoClass& each) const {
    return sentence({each.feature == Feature::inside ? "fit.hole" : "fit.shaft", {verbatim("code", each.code)}}, language_);
  }

  template <class RowOf>
  Rows rows(std::vector<std::string> head, RowOf row_of) const {
    Rows out{std::move(head)};
    for (const auto* each : {&fit_.hole, &fit_.shaft}) {
      if (*each) row_of(**each, out);
    }
    return out;
  }

  [[nodiscard]] Rows deviations() const {
    return rows({"", word_for("fit.lower", language_), word_for("fit.upper", language_), word_for("fit.tolerance", language_)},
                [&](const IsoClass& each, Rows& out) {
                  const Message tolerance{"fit.grade", {decimal("tolerance", whole_digits(each.tolerance, UnitId::micrometre, 0), "µm"),
                                                        verbatim("grade", grade_text(each.grade))}};
                  out.push_back({name_of(each), deviation(each.lower), deviation(each.upper), sentence(tolerance, language_)});
                });
  }

  [[nodiscard]] Rows sizes() const {
    constexpr int kLeastDecimals = 3;
    return rows({"", word_for("fit.least_size", language_), word_for("fit.largest_size", language_)}, [&](const IsoClass& each, Rows& out) {
      const Length least = fit_.nominal + each.lower;
      const Length largest = fit_.nominal + each.upper;
      const auto exact = [&](Length size) { return shown(whole_digits(size, UnitId::millimetre, kLeastDecimals), UnitId::millimetre); };
      const auto rounded = [&](Length size) { return shown(in_unit(size.ratio(), UnitId::inch, fine_decimals(UnitId::inch)), UnitId::inch); };
      out.push_back({name_of(each), exact(least), exact(largest)});
      out.push_back({"", rounded(least), rounded(largest)});
    });
  }

  static Message said(const IsoPlay& play) {
    constexpr int kLeastDecimals = 3;
    switch (play.sort) {
      case FitSort::clearance:
        return {"fit.clearance", {mm("least", play.least, kLeastDecimals), mm("most", play.most, kLeastDecimals),
                                  inch("least_in", play.least), inch("most_in", play.most)}};
      case FitSort::transition:
        return {"fit.transition", {mm("tight", -play.least, kLeastDecimals), mm("most", play.most, kLeastDecimals),
                                   inch("tight_in", -play.least), inch("most_in", play.most)}};
      case FitSort::interference:
        return {"fit.interference", {mm("slack", -play.most, kLeastDecimals), mm("tight", -play.least, kLeastDecimals),
                                     inch("slack_in", -play.most), inch("tight_in", -play.least)}};
    }
    return {};
  }

  const IsoFit& fit_;
  Language language_;
};

}  // namespace

std::string iso_fit_text(const IsoFit& fit, Language language) { return IsoFitText(fit, language).run(); }

}  // namespace fettle
