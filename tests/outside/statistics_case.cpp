#include "statistics_case.h"

#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string_view>

namespace fettle {
namespace {

void demand(bool holds, const std::string& what) {
  if (!holds) throw std::runtime_error(what);
}

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t\r") - first + 1));
}

double number(const std::string& text) {
  double value = std::nan("");
  const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
  demand(end.ec == std::errc{} && end.ptr == text.data() + text.size(), "no number: '" + text + "'");
  return value;
}

std::vector<std::string> split(const std::string& text, char separator) {
  std::vector<std::string> parts;
  std::string part;
  for (const char letter : text + separator) {
    if (letter != separator) {
      part += letter;
    } else if (!trimmed(part).empty()) {
      parts.push_back(trimmed(part));
      part.clear();
    }
  }
  return parts;
}

/// "NAME = VALUE within TOLERANCE [relative]: REASON", or for a column without the value.
PublishedFigure figure_of(const std::string& line, bool column) {
  const auto within = line.find(" within ");
  const auto colon = line.find(':', within);
  demand(within != std::string::npos && colon != std::string::npos, line);
  const auto equals = column ? within : line.find('=');
  PublishedFigure out{.name = trimmed(line.substr(0, equals)), .value = 0.0, .tolerance = 0.0, .relative = false, .reason = {}};
  if (!column) out.value = number(trimmed(line.substr(equals + 1, within - equals - 1)));
  const std::vector<std::string> tolerance = split(line.substr(within + 8, colon - within - 8), ' ');
  out.tolerance = number(tolerance.front());
  out.relative = tolerance.size() == 2 && tolerance.back() == "relative";
  out.reason = trimmed(line.substr(colon + 1));
  demand(!out.reason.empty(), "a tolerance needs a reason: " + line);
  return out;
}

class CaseFile {
 public:
  explicit CaseFile(const std::string& name) {
    std::ifstream file(std::filesystem::path(FETTLE_SOURCE_DIR) / "tests/outside/statistics" / name);
    demand(file.good(), name);
    for (std::string line; std::getline(file, line);) {
      line = trimmed(line);
      if (!line.empty() && line.front() != '#') read(line);
    }
    for (const char* key : {"title", "source", "place", "grade", "units"}) demand(!header_[key].empty(), name + " does not say its " + key);
  }
  [[nodiscard]] const std::vector<OutsideCase>& cases() const { return cases_; }

 private:
  void read(const std::string& line) {
    const std::string word = line.substr(0, line.find(' '));
    const std::string rest = trimmed(line.substr(std::min(line.size(), word.size())));
    const std::string name = trimmed(rest.substr(0, rest.find('=')));
    if (word == "case") {
      cases_.push_back({rest, {}, {}, {}});
      columns_.clear();
    } else if (word == "given") {
      cases_.back().given[name] = number(trimmed(rest.substr(rest.find('=') + 1)));
    } else if (word == "list") {
      for (const std::string& each : split(rest.substr(rest.find('=') + 1), ' ')) cases_.back().lists[name].push_back(number(each));
    } else if (word == "expect") {
      cases_.back().expected.push_back(figure_of(rest, false));
    } else if (word == "column") {
      columns_.push_back(figure_of(rest, true));
    } else if (word == "row") {
      read_row(split(rest, ' '));
    } else {
      header_[word] = trimmed(rest.substr(rest.find('=') + 1));
    }
  }

  /// The first cell of a row is given, the others are expected; "-" stands where nothing is printed.
  void read_row(const std::vector<std::string>& cells) {
    const std::vector<std::string> names = split(header_["columns"], ',');
    demand(cells.size() == names.size(), "a row of " + cells[0]);
    demand(columns_.size() + 1 == names.size(), "each expected column needs a tolerance");
    OutsideCase row{"row " + cells[0], {{names[0], number(cells[0])}}, {}, {}};
    for (std::size_t i = 1; i < cells.size(); ++i) {
      PublishedFigure figure = columns_[i - 1];
      demand(figure.name == names[i], names[i]);
      if (cells[i] == "-") continue;
      figure.value = number(cells[i]);
      row.expected.push_back(std::move(figure));
    }
    cases_.push_back(row);
  }

  std::map<std::string, std::string> header_;
  std::vector<OutsideCase> cases_;
  std::vector<PublishedFigure> columns_;
};

}  // namespace

std::vector<std::string> differences(const std::string& file, int expectations, const std::function<Numbers(const OutsideCase&)>& answer) {
  std::vector<std::string> out;
  int compared = 0;
  const CaseFile cases(file);
  for (const OutsideCase& each : cases.cases()) {
    if (each.expected.empty()) continue;
    const Numbers answers = answer(each);
    for (const PublishedFigure& expected : each.expected) {
      ++compared;
      const std::string what = file + ", " + each.name + ": " + expected.name;
      const auto found = answers.find(expected.name);
      if (found == answers.end()) {
        out.push_back("nobody answers " + what);
        continue;
      }
      const double allowed = expected.tolerance * (expected.relative ? std::fabs(expected.value) : 1.0);
      if (std::fabs(found->second - expected.value) <= allowed) continue;
      std::ostringstream line;
      line.precision(17);
      line << what << " is " << found->second << ", not " << expected.value << " within " << allowed << " (" << expected.reason << ")";
      out.push_back(line.str());
    }
  }
  if (compared != expectations) out.push_back(file + " has " + std::to_string(compared) + " expectations");
  return out;
}

}  // namespace fettle
