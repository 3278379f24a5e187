#include "cli/gauge_study_text.h"

#include <cmath>

#include "cli/paragraph.h"
#include "cli/table.h"
#include "units/print.h"
#include "units/unit.h"

namespace fettle {
namespace {

constexpr std::size_t kFewCategories = 5;  ///< below it a gauge hardly sorts
constexpr double kPercent = 100.0;
constexpr double kAgree = 0.1;             ///< nearer than this the two ways agree

class GaugeStudyText {
 public:
  GaugeStudyText(const GaugeStudy& study, Language language) : study_(study), language_(language) {}

  std::string run() {
    std::string out = say({"study.title", {verbatim("gauge", study_.gauge), number("parts", study_.parts.size()), number("people", study_.people.size()),
                                           number("readings", study_.readings)}});
    out += "\n" + columns(side_by_side(), kTableIndent) + "\n" + remarks();
    out += "\n" + say({"study.variances_title", {}}) + columns(lines(), kTableIndent);
    if (study_.people.size() > 1) out += "\n" + say({"study.people_title", {}}) + columns(people(), kTableIndent);
    return out;
  }

 private:
  using Rows = std::vector<std::vector<std::string>>;

  static Argument number(const char* name, std::size_t value) { return count(name, static_cast<std::int64_t>(value)); }
  [[nodiscard]] std::string say(const Message& message) const { return paragraph("", sentence(message, language_)); }
  [[nodiscard]] std::string name(const char* key) const { return word_for(key, language_); }
  [[nodiscard]] std::string figure(double value, int decimals) const { return with_decimal_mark(print_fixed(value, decimals), language_); }

  /// As many decimals as show three figures of the repeatability.
  [[nodiscard]] int decimals() const {
    const double shown = study_.by_variances.spreads.repeatability;
    int out = 2;
    for (double step = 1.0; step > shown && shown > 0.0 && out < 9; step /= 10.0) ++out;
    return out;
  }
  [[nodiscard]] std::string symbol() const { return std::string(unit_definition(study_.unit).symbol); }
  [[nodiscard]] std::string spread(double value) const { return figure(value, decimals()) + " " + symbol(); }
  [[nodiscard]] Argument spread_argument(const char* name, double value) const { return decimal(name, print_fixed(value, decimals()), symbol()); }

  /// A row with a cell for each way; nothing where neither has anything to say.
  template <class CellOf>
  void row(Rows& out, const char* key, CellOf cell_of) const {
    const std::string first = cell_of(study_.by_variances.spreads);
    const std::string second = study_.by_ranges ? cell_of(study_.by_ranges->spreads) : std::string();
    if (first.empty() && second.empty()) return;
    out.push_back({name(key), first, second});
  }

  [[nodiscard]] Rows side_by_side() const {
    Rows out = {{"", name("study.by_variances"), study_.by_ranges ? name("study.by_ranges") : std::string()}};
    const auto known = [&](const std::optional<double>& value) { return value ? spread(*value) : std::string(); };
    row(out, "study.repeatability", [&](const StudySpreads& each) { return spread(each.repeatability); });
    row(out, "study.freedom", [&](const StudySpreads& each) { return figure(each.degrees_of_freedom, 0); });
    row(out, "study.people", [&](const StudySpreads& each) { return known(each.people); });
    if (study_.by_variances.interaction) {
      const auto& own = study_.by_variances.spreads.interaction;
      out.push_back({name("study.interaction"), own ? spread(*own) : name("study.pooled"), study_.by_ranges ? name("study.unseen") : std::string()});
    }
    row(out, "study.gauge", [&](const StudySpreads& each) { return spread(each.gauge); });
    row(out, "study.parts", [&](const StudySpreads& each) { return known(each.parts); });
    row(out, "study.total", [&](const StudySpreads& each) { return known(each.total); });
    row(out, "study.of_tolerance", [&](const StudySpreads& each) { return each.of_tolerance ? figure(kPercent * *each.of_tolerance, 0) + " %" : std::string(); });
    row(out, "study.categories", [&](const StudySpreads& each) { return each.categories ? std::to_string(whole_categories(*each.categories)) : std::string(); });
    return out;
  }

  [[nodiscard]] std::string remarks() const {
    const StudyByVariances& by = study_.by_variances;
    std::string out;
    if (by.interaction_chance) {
      out += say({by.interaction_kept ? "study.interaction_kept" : "study.interaction_pooled",
                  {decimal("chance", print_fixed(*by.interaction_chance, 3)), decimal("limit", print_fixed(kInteractionChance, 2))}});
    }
    if (by.held_at_nothing) out += say({"study.held", {}});
    out += by_ranges();
    if (study_.parts.size() == 1) out += say({"study.one_spot", {}});
    const auto& categories = by.spreads.categories;
    if (categories && whole_categories(*categories) < kFewCategories) out += say({"study.few_categories", {number("categories", whole_categories(*categories))}});
    if (study_.hidden_by_division && study_.division && by.spreads.repeatability > 0.0) {
      out += say({"study.hidden", {decimal("division", print_fixed(*study_.division, 1), symbol())}});
    }
    return out;
  }

  [[nodiscard]] std::string by_ranges() const {
    if (!study_.by_ranges) return say({"study.no_ranges", {}});
    const StudyByRanges& by = *study_.by_ranges;
    std::string out;
    for (const RangeBeyond& each : by.beyond) {
      out += say({"study.range_beyond", {spread_argument("range", each.range), verbatim("part", each.part), verbatim("person", each.person),
                                         spread_argument("lower", by.lower_limit), spread_argument("upper", by.upper_limit)}});
    }
    if (by.beyond.empty()) {
      out += say({"study.ranges_fine", {spread_argument("mean", by.mean_range), spread_argument("lower", by.lower_limit), spread_argument("upper", by.upper_limit)}});
    }
    const double variances = study_.by_variances.spreads.repeatability;
    const double apart = std::abs(by.spreads.repeatability - variances);
    if (apart > kAgree * variances) {
      return out + say({"study.differ", {spread_argument("variances", variances), spread_argument("ranges", by.spreads.repeatability)}});
    }
    return variances > 0.0 ? out + say({"study.agree", {decimal("percent", print_fixed(std::ceil(kPercent * apart / variances), 0), "%")}}) : out;
  }

  [[nodiscard]] Rows lines() const {
    Rows out = {{"", name("study.squares"), name("study.degrees"), name("study.mean_square")}};
    const auto line = [&](const char* key, const std::optional<VarianceLine>& from) {
      if (!from) return;
      const int shown = decimals() + 1;
      out.push_back({name(key), figure(from->sum_of_squares, shown), figure(from->degrees_of_freedom, 0), figure(from->mean_square(), shown)});
    };
    line("study.line_parts", study_.by_variances.parts);
    line("study.line_people", study_.by_variances.people);
    line("study.line_interaction", study_.by_variances.interaction);
    line("study.line_within", study_.by_variances.within);
    return out;
  }

  [[nodiscard]] Rows people() const {
    Rows out = {{"", name(study_.on_a_dial ? "study.person_off_dial" : "study.person_off"), name("study.person_repeatability"), name("study.degrees")}};
    for (const StudyPerson& each : study_.people) {
      out.push_back({each.name, (each.off > 0.0 ? "+" : "") + spread(each.off), spread(each.repeatability), figure(each.degrees_of_freedom, 0)});
    }
    return out;
  }

  const GaugeStudy& study_;
  Language language_;
};

}  // namespace

std::string gauge_study_text(const GaugeStudy& study, Language language) { return GaugeStudyText(study, language).run(); }

}  // namespace fettle
