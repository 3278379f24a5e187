#include "text/sentence.h"

#include <algorithm>
#include <array>
#include <optional>

#include "embedded/english_texts.h"
#include "embedded/german_texts.h"
#include "text/text_file.h"

namespace fettle {
namespace {

constexpr std::array kFiles = {"base.txt",    "units.txt",  "numeric.txt", "catalogue.txt", "kinds.txt", "kinds_bottom_end.txt", "kinds_valve_gear.txt", "kinds_drive.txt", "kinds_two_stroke.txt",    "entry.txt",
                               "gauging.txt", "form.txt",   "limits.txt",  "verdict.txt",   "advice.txt",    "job.txt",      "simulate.txt",
                               "wire.txt",    "attachment.txt", "archive.txt", "store.txt",  "record.txt",  "app.txt",       "cli.txt",
                               "server.txt",    "acts.txt",    "pictures.txt",
                               "iso_fit.txt",   "thumb.txt",     "study.txt", "next.txt", "guided.txt",
                               "part_words.txt", "part_names.txt", "strip.txt", "bench.txt", "round.txt", "setting_page.txt", "sheet_page.txt", "verdict_page.txt",
                               "page.txt"};

TextTable read_all(std::string_view (*texts)(std::string_view)) {
  TextTable table;
  for (const char* file : kFiles) read_text_file(texts(file), file, table);
  return table;
}

const TextTable& table_of(Language language) {
  static const TextTable kEnglish = read_all(&english_texts);
  static const TextTable kGerman = read_all(&german_texts);
  switch (language) {
    case Language::english: return kEnglish;
    case Language::german: return kGerman;
  }
  return kEnglish;
}

/// "station.main-7" of a row: what "station.main-n" says, with the number.
std::optional<std::string> numbered_place(std::string_view key, const TextTable& table) {
  const std::size_t dash = key.rfind('-');
  if (!key.starts_with("station.") || dash == std::string_view::npos || dash + 1 == key.size()) return std::nullopt;
  const std::string_view number = key.substr(dash + 1);
  if (number.find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
  const auto found = table.find(std::string(key.substr(0, dash)) + "-n");
  if (found == table.end()) return std::nullopt;
  std::string out = found->second;
  constexpr std::string_view kNumber = "{n}";
  if (const std::size_t at = out.find(kNumber); at != std::string::npos) out.replace(at, kNumber.size(), number);
  return out;
}

std::string pattern_for(std::string_view key, Language language) {
  const TextTable& own = table_of(language);
  if (const auto found = own.find(key); found != own.end()) return found->second;
  const TextTable& english = table_of(Language::english);
  if (const auto found = english.find(key); found != english.end()) return found->second;
  // "definition.oor-1.inside" is a title that only some definitions have apart for bores and shafts.
  for (std::string_view feature : {".inside", ".outside", ".figure"}) {
    if (key.ends_with(feature)) return pattern_for(key.substr(0, key.size() - feature.size()), language);
  }
  if (auto numbered = numbered_place(key, own)) return *std::move(numbered);
  // A kind or a gauge of somebody's own goes by its id.
  for (std::string_view sort : {"kind.", "definition.", "station.", "direction.", "member.", "gauge_preset.", "error.", "need.", "how.",
                                "mistake.", "caution."}) {
    if (key.starts_with(sort)) return std::string(key.substr(sort.size()));
  }
  return "[" + std::string(key) + "]";
}

std::string join(const std::vector<Message>& messages, Language language) {
  std::string out;
  for (const Message& message : messages) {
    if (!out.empty()) out += "; ";
    out += sentence(message, language);
  }
  return out;
}

struct ArgumentText {
  Language language;
  std::string operator()(const Verbatim& verbatim) const { return verbatim.text; }
  std::string operator()(std::int64_t number) const { return std::to_string(number); }
  std::string operator()(const DecimalText& figure) const {
    std::string out = with_decimal_mark(figure.digits, language);
    if (!figure.unit.empty()) out += " " + figure.unit;
    return out;
  }
  std::string operator()(const FigureText& figures) const { return with_decimal_mark(figures.text, language); }
  std::string operator()(const WordKey& key) const { return word_for(key.key, language); }
  std::string operator()(const std::vector<Message>& messages) const { return join(messages, language); }
};

/// The text for one {placeholder}: an argument's name, or name|one form|other form chosen by a whole number.
std::string filled(std::string_view placeholder, const std::vector<Argument>& arguments, Language language) {
  const auto bar = placeholder.find('|');
  const std::string_view name = placeholder.substr(0, bar);
  const auto found =
      std::find_if(arguments.begin(), arguments.end(), [&](const Argument& each) { return each.name == name; });
  if (found == arguments.end()) return "{" + std::string(placeholder) + "}";
  if (bar == std::string_view::npos) return std::visit(ArgumentText{language}, found->value);
  const std::string_view forms = placeholder.substr(bar + 1);
  const auto middle = forms.find('|');
  const auto* number = std::get_if<std::int64_t>(&found->value);
  const bool one = number != nullptr && *number == 1;
  return std::string(one ? forms.substr(0, middle) : forms.substr(middle == std::string_view::npos ? 0 : middle + 1));
}

std::string fill_in(std::string_view pattern, const std::vector<Argument>& arguments, Language language) {
  std::string out;
  while (!pattern.empty()) {
    const auto open = pattern.find('{');
    out += pattern.substr(0, open);
    if (open == std::string_view::npos) break;
    const auto close = pattern.find('}', open);
    if (close == std::string_view::npos) return out + std::string(pattern.substr(open));
    out += filled(pattern.substr(open + 1, close - open - 1), arguments, language);
    pattern = pattern.substr(close + 1);
  }
  return out;
}

}  // namespace

std::optional<Language> find_language(std::string_view code) {
  if (code == "en") return Language::english;
  if (code == "de") return Language::german;
  return std::nullopt;
}

std::string sentence(const Message& message, Language language) {
  return fill_in(pattern_for(message.key, language), message.arguments, language);
}

std::string word_for(std::string_view key, Language language) { return fill_in(pattern_for(key, language), {}, language); }

std::string what_and_do(const Problem& problem, Language language) {
  return fill_in(pattern_for("problem." + problem.code, language), problem.arguments, language) + " " +
         fill_in(pattern_for("problem." + problem.code + ".do", language), problem.arguments, language);
}

std::string sentence(const Problem& problem, Language language) {
  std::string out = problem.place.file;
  if (problem.place.line) out += ":" + std::to_string(*problem.place.line);
  if (problem.place.column) out += ":" + std::to_string(*problem.place.column);
  if (!out.empty()) out += ": ";
  return out + what_and_do(problem, language);
}

std::string with_decimal_mark(std::string digits, Language language) {
  if (language == Language::german) std::replace(digits.begin(), digits.end(), '.', ',');
  return digits;
}

bool has_key(std::string_view key, Language language) { return table_of(language).find(key) != table_of(language).end(); }

std::vector<std::string> all_keys(Language language) {
  std::vector<std::string> keys;
  for (const auto& [key, text] : table_of(language)) keys.push_back(key);
  return keys;
}

}  // namespace fettle
