// The catalogue against the list of what an overhaul measures: tests/catalogue/sections.csv.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>

#include "catalogue/catalogue.h"
#include "catalogue/file_words.h"

namespace fettle {
namespace {

struct Section {
  std::string number;
  std::string title;
  std::vector<std::string> kinds;
  std::vector<std::string> definitions;
};

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> out;
  for (std::string word; in >> word;) out.push_back(word);
  return out;
}

std::vector<Section> sections() {
  std::ifstream file(std::string(FETTLE_SOURCE_DIR) + "/tests/catalogue/sections.csv");
  std::vector<Section> out;
  std::string line;
  std::getline(file, line);
  EXPECT_EQ(line, "section;title;kinds;definitions");
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    Section each;
    std::string kinds;
    std::string definitions;
    std::getline(cells, each.number, ';');
    std::getline(cells, each.title, ';');
    std::getline(cells, kinds, ';');
    std::getline(cells, definitions, ';');
    each.kinds = words_of(kinds);
    each.definitions = words_of(definitions);
    out.push_back(each);
  }
  return out;
}

TEST(Sections, AreAllThereAndAnswered) {
  const auto all = sections();
  ASSERT_EQ(all.size(), 31U);
  for (std::size_t k = 0; k < all.size(); ++k) {
    EXPECT_EQ(all[k].number, "5." + std::to_string(k + 1));
    EXPECT_FALSE(all[k].title.empty()) << all[k].number;
    EXPECT_FALSE(all[k].kinds.empty()) << all[k].number;
    EXPECT_FALSE(all[k].definitions.empty()) << all[k].number;
  }
}

/// A definition that a section names serves a kind that it names.
TEST(Sections, NameKindsAndDefinitionsThatBelongTogether) {
  for (const Section& section : sections()) {
    std::vector<const Kind*> kinds;
    for (const std::string& id : section.kinds) {
      kinds.push_back(catalogue().kind(id));
      ASSERT_NE(kinds.back(), nullptr) << section.number << " " << id;
    }
    for (const std::string& id : section.definitions) {
      const Definition* definition = catalogue().definition(id);
      ASSERT_NE(definition, nullptr) << section.number << " " << id;
      const bool serves = std::any_of(kinds.begin(), kinds.end(),
                                      [&](const Kind* kind) { return definition->applies(kind->feature) && definition->is_for(kind->id); });
      EXPECT_TRUE(serves) << section.number << " " << id;
    }
  }
}

TEST(Sections, NameEveryKindAndEveryDefinition) {
  std::set<std::string> kinds;
  std::set<std::string> definitions;
  for (const Section& section : sections()) {
    kinds.insert(section.kinds.begin(), section.kinds.end());
    definitions.insert(section.definitions.begin(), section.definitions.end());
  }
  for (const Kind& kind : catalogue().kinds) EXPECT_TRUE(kinds.contains(kind.id)) << kind.id;
  for (const Definition& definition : catalogue().definitions) EXPECT_TRUE(definitions.contains(definition.id)) << definition.id;
}

/// Every place of a kind can be read with a gauge that suits it, and the state to read it in is said.
TEST(Sections, EveryKindHasItsGaugesAndConditions) {
  for (const Kind& kind : catalogue().kinds) {
    EXPECT_FALSE(kind.conditions.empty()) << kind.id;
    std::vector<const GaugePreset*> gauges;
    for (const std::string& id : kind.gauges) {
      gauges.push_back(catalogue().gauge_preset(id));
      ASSERT_NE(gauges.back(), nullptr) << kind.id << " " << id;
      const auto& touches = gauges.back()->touches;
      EXPECT_TRUE(!touches || kind.feature == Feature::figure || *touches == kind.feature) << kind.id << " " << id;
    }
    for (std::size_t cell = 0; cell < kind.layout.cells(); ++cell) {
      const bool readable = std::any_of(gauges.begin(), gauges.end(), [&](const GaugePreset* each) { return each->measures == kind.layout.quantity(cell); });
      EXPECT_TRUE(readable) << kind.id << " " << kind.layout.stations[cell / kind.layout.directions.size()].id;
    }
  }
}

/// Members and definitions name kinds that there are.
TEST(Sections, EveryNamedKindIsThere) {
  for (const Definition& definition : catalogue().definitions) {
    for (const std::string& id : definition.kinds) EXPECT_NE(catalogue().kind(id), nullptr) << definition.id << " " << id;
  }
}

}  // namespace
}  // namespace fettle
