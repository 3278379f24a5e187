#include "cli/mistakes_text.h"

#include <algorithm>

#include "app/question_words.h"
#include "cli/table.h"
#include "catalogue/catalogue.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr std::size_t kRatesIndent = 2;

/// "57", or a dash of nothing.
std::string percent(std::size_t part, std::size_t whole) {
  return whole == 0 ? "–" : print_fixed(100.0 * static_cast<double>(part) / static_cast<double>(whole), 0);
}

/// "1 in 412"; "none of 4032".
std::string one_in(std::size_t part, std::size_t whole, Language language) {
  if (part == 0) return sentence(Message{"simulate.none_of", {count("whole", static_cast<std::int64_t>(whole))}}, language);
  const double each = static_cast<double>(whole) / static_cast<double>(part);
  return sentence(Message{"simulate.one_in", {decimal("each", print_fixed(each, 0))}}, language);
}

std::string rates_table(const std::vector<MistakeRates>& rates, Language language) {
  const auto say = [&](const char* key) { return sentence(Message{key, {}}, language); };
  std::vector<std::vector<std::string>> rows = {{say("simulate.column.family"), say("simulate.column.vain"), say("simulate.column.vain_arriving")}};
  for (const auto& [word_, kind] : kPlantedKinds) rows.front().push_back(std::string(word_));
  for (const MistakeRates& each : rates) {
    std::vector<std::string> row = {each.family, one_in(each.falsely, each.honest, language), one_in(each.falsely_arriving, each.honest, language)};
    for (const KindFound& kind : each.kinds) row.push_back(percent(kind.asked, kind.planted) + "/" + percent(kind.named, kind.planted) + "/" + percent(kind.arriving, kind.planted));
    rows.push_back(std::move(row));
  }
  return columns(rows, kRatesIndent);
}

/// Of mistakes whose size is what it happens to be: those of 25 µm or more.
std::string far_lines(const MistakeRates& all, Language language) {
  std::string out;
  for (const KindFound& each : all.kinds) {
    const auto word_ = word_of(kPlantedKinds, each.kind);
    if (each.far == each.planted || each.far == 0) continue;
    out += "  " + sentence(Message{"simulate.mistakes_far", {verbatim("kind", std::string(word_.value_or(""))), count("far", static_cast<std::int64_t>(each.far)),
                                                             count("planted", static_cast<std::int64_t>(each.planted)), verbatim("asked", percent(each.far_asked, each.far))}},
                           language) + "\n";
  }
  return out;
}

std::string details(const MistakeAsked& each, const Job& job, Language language) {
  const Argument chance = decimal("chance", print_fixed(100.0 * each.chance, 0));
  if (!each.shown_mm || !each.expected_mm) return sentence(Message{"asked_again.chance", {chance}}, language);
  return sentence(Message{"asked_again.expected",
                   {chance, decimal("shown", size_figure(*each.shown_mm, unit_shown(job))), decimal("expected", size_figure(*each.expected_mm, unit_shown(job))),
                    decimal("sd", size_figure(*each.expected_sd_mm, unit_shown(job)))}},
                  language);
}

}  // namespace

std::string mistake_rates_text(const MistakeRecord& record, Language language) {
  std::vector<std::string> hands;
  for (const MistakeRates& each : record.families) {
    if (std::find(hands.begin(), hands.end(), each.hand) == hands.end()) hands.push_back(each.hand);
  }
  const std::vector<MistakeRates> all = over_families(record);
  std::string out;
  for (const std::string& hand : hands) {
    std::vector<MistakeRates> rates;
    for (const MistakeRates& each : record.families) {
      if (each.hand == hand) rates.push_back(each);
    }
    for (const MistakeRates& each : all) {
      if (each.hand == hand) rates.push_back(each);
    }
    const MistakeRates whole = rates.back();
    out += sentence(Message{"simulate.mistakes_hand", {verbatim("hand", hand)}}, language) + "\n" + rates_table(rates, language) + far_lines(whole, language) + "\n";
  }
  out += sentence(Message{"simulate.mistakes_what",
                   {count("engines", static_cast<std::int64_t>(record.engines)), verbatim("seed", std::to_string(record.seed)),
                    decimal("from", print_fixed(100.0 * record.ask_from, 0))}},
                  language) +
         "\n" + sentence(Message{"simulate.mistakes_columns", {}}, language) + "\n";
  if (record.stopped) out += sentence(Message{"simulate.stopped", {}}, language) + "\n";
  return out;
}

std::string mistakes_asked_text(const std::vector<MistakeAsked>& asked, const Job& job, Language language) {
  if (asked.empty()) return sentence(Message{"asked_again.none", {}}, language) + "\n";
  std::string out;
  for (const MistakeAsked& each : asked) {
    out += sentence(Message{"asked_again.place", {verbatim("part", each.part), station_argument("station", each.station), direction_argument("direction", each.direction)}}, language) +
           "\n    " + sentence(each.sentence, language) + "\n    " + details(each, job, language) + "\n";
    if (each.put_off) out += "    " + sentence(Message{"asked_again.put_off", {}}, language) + "\n";
  }
  return out;
}

}  // namespace fettle
