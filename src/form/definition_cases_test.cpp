// Runs the plain-text cases of tests/outside/definitions: source, grade, readings and the figures a person worked out.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "catalogue/catalogue.h"
#include "catalogue/figure.h"
#include "form/draw_evaluator.h"
#include "form/evaluate.h"
#include "form/expand.h"

namespace fettle {
namespace {

struct Line {
  std::string key;
  std::string rest;
  std::vector<std::string> words;
  std::string place;
};

struct Case {
  std::string name;
  UnitId unit;
  PartGrid grid;
  std::vector<std::optional<Ratio>> sizes;
  std::vector<Line> expected;
};

std::vector<Line> read_lines(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::vector<Line> out;
  std::string text;
  for (int number = 1; std::getline(file, text); ++number) {
    const std::string place = path.filename().string() + ":" + std::to_string(number);
    const auto colon = text.find(": ");
    if (text.empty() || text.front() == '#') continue;
    FETTLE_ASSERT(colon != std::string::npos, place);
    Line line{text.substr(0, colon), text.substr(colon + 2), {}, place};
    std::istringstream words(line.rest);
    for (std::string word; words >> word;) line.words.push_back(word);
    out.push_back(line);
  }
  return out;
}

Ratio figure(const std::string& text, const Line& line) {
  const auto read = read_figure(text);
  FETTLE_ASSERT(read.has_value(), line.place + " " + text);
  return *read;
}

Length length(const std::string& text, const Case& each, const Line& line) {
  const auto read = exact_length({figure(text, line), each.unit});
  FETTLE_ASSERT(read.has_value(), line.place + " " + text);
  return *read;
}

std::size_t cell_of(const Case& each, const Line& line) {
  const auto station = each.grid.layout.find_station(line.words.at(0));
  const auto direction = each.grid.layout.find_direction(line.words.at(1));
  FETTLE_ASSERT(station && direction, line.place);
  return each.grid.layout.cell(*station, *direction);
}

void add_size(Case& each, const Line& line) {
  each.grid.read.resize(each.grid.layout.cells(), false);
  each.sizes.resize(each.grid.layout.cells());
  const std::size_t cell = cell_of(each, line);
  each.grid.read[cell] = true;
  each.sizes[cell] = length(line.words.at(2), each, line).ratio();
}

void add_station(Case& each, const Line& line) {
  const auto role = find_role(line.words.at(1));
  FETTLE_ASSERT(role.has_value(), line.place);
  Station station{line.words.at(0), *role, *role != StationRole::reference, {}};
  if (line.words.at(2) != "-") station.depth = length(line.words.at(2), each, line);
  each.grid.layout.stations.push_back(station);
}

void add(Case& each, const Line& line) {
  if (line.key == "unit") {
    each.unit = find_unit(line.rest)->id;
  } else if (line.key == "feature") {
    each.grid.feature = line.rest == "inside" ? Feature::inside : Feature::outside;
  } else if (line.key == "standard") {
    each.grid.given.standard = length(line.rest, each, line);
  } else if (line.key == "nominal") {
    each.grid.given.nominal = length(line.rest, each, line);
  } else if (line.key == "station") {
    add_station(each, line);
  } else if (line.key == "direction") {
    each.grid.layout.directions.push_back({line.words.at(0), figure(line.words.at(1), line), true});
  } else if (line.key == "size") {
    add_size(each, line);
  } else {
    each.expected.push_back(line);
  }
}

std::vector<Case> read_cases() {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(FETTLE_SOURCE_DIR "/tests/outside/definitions")) {
    if (entry.path().extension() == ".txt") paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Case> out;
  for (const auto& path : paths) {
    std::set<std::string> head;
    for (const Line& line : read_lines(path)) {
      if (line.key == "case") {
        FETTLE_ASSERT(head.contains("source") && head.contains("grade") && head.contains("reason"), line.place);
        out.push_back({path.filename().string() + ", " + line.rest, UnitId::millimetre, {Feature::inside, {}, {}, {}}, {}, {}});
      } else if (out.empty() || !head.contains("reason") || line.key == "source" || line.key == "grade" || line.key == "reason") {
        head.insert(line.key);
      } else {
        add(out.back(), line);
      }
    }
  }
  return out;
}

/// Expected figures stand in the unit of the case; a ratio has none.
Ratio in_base(const std::string& text, const Case& each, const Line& line, ResultDimension dimension) {
  const Ratio value = figure(text, line);
  return dimension == ResultDimension::ratio ? value : value * unit_definition(each.unit).factor;
}

std::string joined(const std::vector<std::size_t>& indices, const auto& items) {
  std::string out;
  for (std::size_t index : indices) out += (out.empty() ? "" : "+") + items[index].id;
  return out;
}

void expect_near(const Ratio& value, std::size_t word, const Case& each, const Line& line, ResultDimension dimension) {
  const Ratio wanted = in_base(line.words.at(word), each, line, dimension);
  const Ratio tolerance = in_base(line.words.at(word + 1), each, line, dimension);
  EXPECT_LE(absolute(value - wanted), tolerance) << line.place << " " << line.rest << ": " << value.decimal(6);
}

/// The same expansion over doubles must agree: it is what the draws run on.
void expect_draws_agree(const Expansion& expansion, const ExactValue& exact, const Case& each, const Line& line) {
  std::vector<double> sizes_mm;
  for (const auto& size : each.sizes) sizes_mm.push_back(size ? size->to_double() / 1e7 : 0.0);
  const bool is_length = expansion.dimension == ResultDimension::length;
  // Length: 1e-9 mm is a hundredth of a count; the ovality was rounded to a whole count.
  const double tolerance = expansion.sense == Sense::amplitude ? 1e-7 : is_length ? 1e-9 : 1e-12;
  EXPECT_NEAR(DrawEvaluator(expansion)(sizes_mm), exact.value.to_double() / (is_length ? 1e7 : 1.0), tolerance) << line.place;
}

void check(const Case& each, const Line& line) {
  const Definition* definition = catalogue().definition(line.words.at(0));
  ASSERT_NE(definition, nullptr) << line.place;
  const auto expansion = expand(*definition, each.grid);
  if (line.key == "refused") {
    ASSERT_FALSE(expansion.ok()) << line.place;
    EXPECT_TRUE(std::any_of(expansion.problems().begin(), expansion.problems().end(),
                            [&](const Problem& problem) { return problem.code == line.words.at(1); }))
        << line.place << " " << expansion.problems().front().code;
    return;
  }
  ASSERT_TRUE(expansion.ok()) << line.place << " " << expansion.problems().front().code;
  const ExactValue exact = evaluate_exact(expansion.value(), each.sizes);
  if (line.key == "value") {
    expect_near(exact.value, 1, each, line, definition->dimension);
    expect_draws_agree(expansion.value(), exact, each, line);
  } else if (line.key == "where") {
    EXPECT_EQ(joined(exact.where.stations, each.grid.layout.stations), line.words.at(1)) << line.place;
    EXPECT_EQ(joined(exact.where.directions, each.grid.layout.directions), line.words.at(2)) << line.place;
  } else if (line.key == "inner") {
    const auto station = each.grid.layout.find_station(line.words.at(1));
    const auto direction = each.grid.layout.find_direction(line.words.at(1));
    const auto found = std::find_if(exact.inner.begin(), exact.inner.end(), [&](const InnerValue& inner) {
      return station ? inner.station == station && !inner.direction : direction && inner.direction == direction && !inner.station;
    });
    ASSERT_NE(found, exact.inner.end()) << line.place;
    expect_near(found->value, 2, each, line, definition->dimension);
  } else {
    FAIL() << line.place << " unknown key " << line.key;
  }
}

TEST(DefinitionCases, FiguresOfTheOutsideCases) {
  const auto cases = read_cases();
  EXPECT_GE(cases.size(), 15U);
  for (const Case& each : cases) {
    SCOPED_TRACE(each.name);
    EXPECT_TRUE(layout_problems(each.grid.layout, {}).empty());
    EXPECT_FALSE(each.expected.empty());
    for (const Line& line : each.expected) check(each, line);
  }
}

// Those made for one kind have theirs in KindCases.
TEST(DefinitionCases, EveryDefinitionHasOne) {
  std::set<std::string> with_value;
  std::set<std::string> refused;
  for (const Case& each : read_cases()) {
    for (const Line& line : each.expected) (line.key == "refused" ? refused : with_value).insert(line.words.at(0));
  }
  for (const Definition& definition : catalogue().definitions) {
    if (!definition.kinds.empty()) continue;
    EXPECT_TRUE((definition.judged() ? with_value : refused).contains(definition.id)) << definition.id;
  }
}

}  // namespace
}  // namespace fettle
