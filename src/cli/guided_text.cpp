#include "cli/guided_text.h"

#include <algorithm>

#include "cli/table.h"
#include "simulate/loss_chart.h"
#include "simulate/reliability_chart.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr std::size_t kGuidedIndent = 2;

class GuidedText {
 public:
  GuidedText(const GuidedRecord& record, Language language) : record_(record), language_(language) {}

  [[nodiscard]] std::string text() const {
    std::string out;
    for (const std::string& hand : hands_seen()) out += table(hand) + "\n";
    out += say({"guided.what", {count("engines", static_cast<std::int64_t>(record_.engines)), decimal("wrong_pass", print_fixed(record_.costs.wrong_pass, 0)),
                                decimal("wrong_fail", print_fixed(record_.costs.wrong_fail, 0)), verbatim("seed", std::to_string(record_.seed))}}) + "\n";
    out += say({"guided.columns", {}}) + "\n";
    if (record_.stopped) out += say({"simulate.stopped", {}}) + "\n";
    return out;
  }

  [[nodiscard]] std::vector<NamedChart> charts(double width) const {
    std::vector<NamedChart> out;
    for (const GuidedHand& hand : record_.hands) {
      if (!hand.chances) continue;
      out.push_back({"losses-guided-" + hand.hand, losses(hand, width)});
      out.push_back({"chances-guided-" + hand.hand, chances(hand, width)});
    }
    return out;
  }

 private:
  [[nodiscard]] std::string say(const Message& message) const { return sentence(message, language_); }
  [[nodiscard]] std::string number(double value, int decimals) const { return with_decimal_mark(print_fixed(value, decimals), language_); }
  [[nodiscard]] std::string ratio(const std::optional<Scattered>& value) const {
    return value ? number(value->value, 2) + " ± " + number(value->standard_error, 2) : "–";
  }

  [[nodiscard]] std::vector<std::string> hands_seen() const {
    std::vector<std::string> out;
    for (const GuidedScores& each : record_.families) {
      if (std::find(out.begin(), out.end(), each.hand) == out.end()) out.push_back(each.hand);
    }
    return out;
  }

  [[nodiscard]] std::vector<std::string> row(const GuidedScores& each) const {
    const bool both = each.after && each.notebook && each.notebook->value > 0.0;
    return {each.family,
            ratio(each.before),
            ratio(each.after),
            ratio(each.notebook),
            both ? number(each.after->value / each.notebook->value, 2) : "–",
            number(100.0 * each.more_readings, 0) + " %",
            number(100.0 * each.notebook_more_readings, 0) + " %",
            number(each.more_settings, 2),
            each.chances ? number(each.chances->calibration_error, 3) : "–",
            each.chances ? number(each.chances->luck_mean, 3) : "–"};
  }

  /// Over the families in which something is at stake.
  [[nodiscard]] std::vector<std::string> means(const std::string& hand) const {
    double n = 0.0;
    double before = 0.0;
    double after = 0.0;
    double notebook = 0.0;
    double readings = 0.0;
    double notebook_readings = 0.0;
    double settings = 0.0;
    for (const GuidedScores& each : record_.families) {
      if (each.hand != hand || !each.before || !each.after || !each.notebook) continue;
      n += 1.0;
      before += each.before->value;
      after += each.after->value;
      notebook += each.notebook->value;
      readings += each.more_readings;
      notebook_readings += each.notebook_more_readings;
      settings += each.more_settings;
    }
    if (n == 0.0) return {};
    return {say({"guided.mean", {}}),          number(before / n, 2),
            number(after / n, 2),              number(notebook / n, 2),
            number(after / notebook, 2),       number(100.0 * readings / n, 0) + " %",
            number(100.0 * notebook_readings / n, 0) + " %", number(settings / n, 2), "", ""};
  }

  [[nodiscard]] Drawing losses(const GuidedHand& hand, double width) const {
    const LossWords words{say({"guided.chart.losses", {verbatim("hand", hand.hand)}}), say({"guided.chart.losses_about", {}}),
                          say({"simulate.chart.losses_axis", {}}), {say({"guided.column.after", {}}), say({"guided.column.notebook", {}}), say({"guided.column.before", {}})},
                          say({"simulate.rule.bayes", {}}), say({"simulate.chart.notebook", {}}), say({"simulate.chart.no_figure", {}}),
                          with_decimal_mark(".", language_), {}};
    std::vector<LossRow> rows;
    for (const GuidedScores& each : record_.families) {
      if (each.hand != hand.hand || !each.after || !each.notebook || !each.before) continue;
      rows.push_back({each.family, {{0, *each.after}, {1, *each.notebook}, {2, *each.before}}, std::nullopt});
    }
    return loss_chart(rows, words, width);
  }

  [[nodiscard]] Drawing chances(const GuidedHand& hand, double width) const {
    const ReliabilityWords words{say({"guided.chart.chances", {verbatim("hand", hand.hand)}}), say({"simulate.chart.chances_about", {}}),
                                 say({"simulate.chart.chance_axis", {}}), say({"simulate.chart.share_axis", {}}),
                                 say({"simulate.chart.diagonal", {}}), say({"simulate.chart.counts", {}}), " %", {}};
    const std::vector<ReliabilitySeries> series = {{say({"guided.column.after", {}}), *hand.chances}};
    return reliability_chart(series, words, width);
  }

  [[nodiscard]] std::string table(const std::string& hand) const {
    std::vector<std::vector<std::string>> rows = {{}};
    for (const char* column : {"family", "before", "after", "notebook", "over", "readings", "notebook_readings", "settings", "calibration", "luck"}) {
      rows.front().push_back(say({std::string("guided.column.") + column, {}}));
    }
    double price = 0.0;
    for (const GuidedScores& each : record_.families) {
      if (each.hand != hand) continue;
      rows.push_back(row(each));
      price = each.price;
    }
    if (auto last = means(hand); !last.empty()) rows.push_back(std::move(last));
    std::string all;
    for (const GuidedHand& each : record_.hands) {
      if (each.hand != hand || !each.chances) continue;
      all = "  " + say({"guided.all_chances", {decimal("error", print_fixed(each.chances->calibration_error, 3)), decimal("luck", print_fixed(each.chances->luck_mean, 3)), count("engines", static_cast<std::int64_t>(each.chances->count))}}) + "\n";
    }
    return say({"guided.hand", {verbatim("hand", hand), decimal("price", print_fixed(price, 2))}}) + "\n" + columns(rows, kGuidedIndent) + all;
  }

  const GuidedRecord& record_;
  Language language_;
};

}  // namespace

std::vector<NamedChart> guided_charts(const GuidedRecord& record, Language language, double width) { return GuidedText(record, language).charts(width); }

std::string guided_text(const GuidedRecord& record, Language language) { return GuidedText(record, language).text(); }

}  // namespace fettle
