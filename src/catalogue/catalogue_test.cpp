#include "catalogue/catalogue.h"
#include "catalogue/file_words.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "text/sentence.h"

namespace fettle {
namespace {

std::vector<std::string> codes(const CatalogueTexts& texts) {
  std::vector<std::string> out;
  const auto read = read_catalogue(texts);
  if (read.ok()) return out;
  for (const Problem& problem : read.problems()) out.push_back(problem.code);
  return out;
}

/// The built-in catalogue with one file exchanged.
CatalogueTexts with_definitions(std::string_view text) {
  CatalogueTexts texts = built_in_texts();
  texts.definitions = text;
  return texts;
}
CatalogueTexts with_kinds(std::string_view text) {
  CatalogueTexts texts = built_in_texts();
  texts.kinds = text;
  texts.sections = {};  // they are of the built-in kinds
  return texts;
}
CatalogueTexts with_sections(std::string_view text) {
  CatalogueTexts texts = built_in_texts();
  texts.sections = text;
  return texts;
}
CatalogueTexts with_materials(std::string_view text) {
  CatalogueTexts texts = built_in_texts();
  texts.materials = text;
  return texts;
}
CatalogueTexts with_gauges(std::string_view text) {
  CatalogueTexts texts = built_in_texts();
  texts.gauges = text;
  return texts;
}

using Codes = std::vector<std::string>;

TEST(Catalogue, HoldsEveryDefinition) {
  Codes ids;
  for (const Definition& each : catalogue().definitions) {
    if (each.kinds.empty()) ids.push_back(each.id);  // those of one kind: sections_test.cpp
  }
  EXPECT_EQ(ids, (Codes{"size-1", "size-2", "size-3", "mean-size", "oor-1", "oor-2", "oor-3", "oor-4", "oor-5", "oor-6",
                        "tap-1", "tap-2", "tap-3", "tap-4", "tap-5", "tap-6", "tap-7", "tap-8", "tap-9", "tap-10",
                        "barrel", "bell", "ridge", "wear-1", "wear-2", "wear-3", "wear-4", "wear-5"}));
}

TEST(Catalogue, WhatDiametersCannotGiveIsListedNotJudged) {
  Codes unjudged;
  for (const Definition& each : catalogue().definitions) {
    EXPECT_EQ(each.judged(), !each.reckonings.empty()) << each.id;
    if (!each.judged()) unjudged.push_back(each.id);
  }
  EXPECT_EQ(unjudged, (Codes{"size-2", "oor-4", "oor-5", "tap-7", "tap-8", "ridge", "wear-4"}));
}

TEST(Catalogue, DefinitionsKnowTheirFeature) {
  const Definition& tap10 = *catalogue().definition("tap-10");
  EXPECT_FALSE(tap10.applies(Feature::inside));
  EXPECT_EQ(tap10.reckoning(Feature::inside), nullptr);
  EXPECT_NE(tap10.reckoning(Feature::outside), nullptr);
  const Definition& size = *catalogue().definition("size-1");
  EXPECT_EQ(size.reckoning(Feature::inside)->sense, Sense::greatest);
  EXPECT_EQ(size.reckoning(Feature::outside)->sense, Sense::least);
}

TEST(Catalogue, KindsAreSound) {
  const Kind& bore = *catalogue().kind("cylinder-bore");
  EXPECT_EQ(bore.feature, Feature::inside);
  EXPECT_EQ(bore.material, "grey-iron");
  EXPECT_FALSE(bore.layout.stations[*bore.layout.find_station("foot")].counted);
  // A piston is turned oval: along the pin counts nowhere.
  const Kind& piston = *catalogue().kind("piston");
  EXPECT_FALSE(piston.layout.directions[*piston.layout.find_direction("along")].counted);
  EXPECT_EQ(catalogue().kind("gearbox"), nullptr);
  for (const Kind& kind : catalogue().kinds) {
    for (const KindMember& member : kind.members) {
      for (const std::string& each : member.kinds) EXPECT_NE(catalogue().kind(each), nullptr) << kind.id << " " << each;
    }
  }
}

TEST(Catalogue, ExpansionFiguresAreExact) {
  EXPECT_EQ(catalogue().material("grey-iron")->expansion_per_celsius, Ratio::of(108, 10'000'000));
  EXPECT_EQ(catalogue().material("steel")->expansion_per_celsius, Ratio::of(115, 10'000'000));
  // 12.4e-6 per °F is 22.32e-6 per °C.
  EXPECT_EQ(catalogue().material("piston-alloy-forged")->expansion_per_celsius, Ratio::of(124, 10'000'000) * Ratio::of(9, 5));
}

TEST(Catalogue, ANewKindIsOnlyData) {
  const auto read = read_catalogue(with_kinds(R"(
[[kind]]
id = "water-pump-bush"
feature = "inside"
material = "bronze"
origin = "test"
station = [{ id = "port end", role = "first", depth = "2 mm" }, { id = "spring end", role = "last", depth = "40 mm" }]
direction = [{ id = "rocker", angle = "0 °" }, { id = "cross", angle = "90 °" }]
)"));
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read.value().kind("water-pump-bush")->layout.stations[1].depth, Length::counts(400'000'000));
}

TEST(Catalogue, AnOwnDefinitionSaysSentencesThatAreThere) {
  const auto codes = [](const std::string& unfit) {
    CatalogueTexts own{};
    const std::string text = "[[definition]]\nid = \"own\"\nfamily = \"figure\"\nresult = \"angle\"\napplies_to = [\"figure\"]\nkinds = [\"port\"]\n"
                             "inputs = [\"sizes\"]\norigin = \"t\"\nexpression = [\"arccosine\", [\"quotient\", [\"place\", \"deck\"], [\"place\", \"stroke\"]]]\n"
                             "unfit = " + unfit + "\n";
    own.definitions = text;
    const auto read = extended(catalogue(), own);
    Codes out;
    if (!read.ok()) {
      for (const Problem& each : read.problems()) out.push_back(each.code);
    }
    return out;
  };
  const std::string stroke = "lengths = [{ name = \"stroke\", of = [\"place\", \"stroke\"] }]";
  EXPECT_EQ(codes("{ say = \"edge-and-stroke\", " + stroke + " }"), Codes{});
  EXPECT_EQ(codes("{ say = \"of-ones-own\", " + stroke + " }"), Codes{"catalogue.unknown_word"});
  EXPECT_EQ(codes("{ " + stroke + " }"), (Codes{"catalogue.missing_key", "catalogue.unknown_word"}));
  EXPECT_EQ(codes("{ say = \"edge-and-stroke\", lengths = [{ name = \"stroke\" }] }"), Codes{"catalogue.missing_key"});
  EXPECT_EQ(codes("{ say = \"edge-and-stroke\", lengths = [{ name = \"stroke\", of = [\"nothing\"] }] }"), Codes{"catalogue.unknown_word"});
}

TEST(Catalogue, EveryThingHasItsWordInBothLanguages) {
  std::vector<std::string> keys;
  for (const auto& each : catalogue().materials) keys.push_back("material." + each.id);
  for (const auto& each : catalogue().definitions) {
    keys.push_back("definition." + each.id);
    for (const auto& need : each.needs) keys.push_back("need." + need);
    if (each.unfit) keys.push_back("unfit." + each.unfit->say);
  }
  for (const auto& each : catalogue().gauge_presets) {
    keys.push_back("gauge_preset." + each.id);
    for (const auto& component : each.components) keys.push_back("error." + component.id);
  }
  keys.push_back("error." + catalogue().temperature.id);
  for (const auto& kind : catalogue().kinds) {
    keys.push_back("kind." + kind.id);
    for (const auto& station : kind.layout.stations) keys.push_back("station." + station.id);
    for (const auto& direction : kind.layout.directions) keys.push_back("direction." + direction.id);
    for (const auto& member : kind.members) keys.push_back("member." + member.role);
    for (const MeasuredWhen each : kind.conditions) keys.push_back("measured_when." + std::string(word_of(kMeasuredWhen, each).value()));
  }
  for (const std::string& key : keys) {
    EXPECT_TRUE(has_key(key, Language::english)) << key;
    EXPECT_TRUE(has_key(key, Language::german)) << key;
  }
}

TEST(Catalogue, PlacesKnowTheirWordOrStayAsTyped) {
  EXPECT_EQ(station_argument("station", "top"), word("station", "station.top"));
  EXPECT_EQ(station_argument("station", "h12"), verbatim("station", "h12"));
  EXPECT_EQ(direction_argument("direction", "thrust"), word("direction", "direction.thrust"));
  EXPECT_EQ(direction_argument("direction", "d45"), verbatim("direction", "d45"));
}

TEST(Catalogue, OwnKindsStandBesideTheBuiltInOnes) {
  const std::string pair = "[[kind]]\nid = \"pair\"\nfeature = \"figure\"\nmaterial = \"own-tin\"\norigin = \"t\"\n"
                           "member = [{ role = \"a\", kinds = [\"cylinder-bore\"] }, { role = \"b\", kinds = [\"piston\"] }]\n";
  const std::string tin = "[[material]]\nid = \"own-tin\"\nexpansion_per_celsius = \"22e-6\"\nmark = \"memory\"\norigin = \"t\"\n";
  const auto own = extended(catalogue(), {tin, pair, {}, {}});
  ASSERT_TRUE(own.ok());
  EXPECT_EQ(own.value().kinds.size(), catalogue().kinds.size() + 1);
  EXPECT_EQ(own.value().kind("pair")->members[1].kinds, Codes{"piston"});
  EXPECT_NE(own.value().kind("cylinder-bore"), nullptr);
  EXPECT_EQ(catalogue().kind("pair"), nullptr);
  EXPECT_THROW(use_catalogue(own.value()), InternalError);  // somebody has asked for it above
}

TEST(CatalogueRefuses, OwnFilesThatContradict) {
  const auto codes_of = [](const CatalogueTexts& own) {
    Codes out;
    const auto read = extended(catalogue(), own);
    if (!read.ok()) {
      for (const Problem& each : read.problems()) out.push_back(each.code);
    }
    return out;
  };
  const std::string steel = "[[material]]\nid = \"steel\"\nexpansion_per_celsius = \"1e-6\"\nmark = \"memory\"\norigin = \"t\"\n";
  EXPECT_EQ(codes_of({steel, {}, {}, {}}), Codes{"catalogue.id_twice"});
  EXPECT_EQ(codes_of({{}, "[[kind]]\nid = \"p\"\nfeature = \"figure\"\nmaterial = \"steel\"\norigin = \"t\"\n"
                          "member = [{ role = \"a\", kinds = [\"no-such\"] }]\n", {}, {}}),
            Codes{"catalogue.unknown_kind"});
  EXPECT_EQ(codes_of({{}, {}, "[temperature]\n", {}}), Codes{"catalogue.unknown_key"});
}

TEST(CatalogueRefuses, EveryProblemAtOnce) {
  Codes expected(catalogue().kinds.size(), "catalogue.unknown_word");  // the material of every kind
  for (const char* each : {"catalogue.missing_key", "catalogue.wrong_kind", "catalogue.unknown_word", "catalogue.unknown_key"}) {
    expected.emplace_back(each);
  }
  EXPECT_EQ(codes(with_materials("[[material]]\nid = \"tin\"\nexpansion_per_celsius = 22e-6\nmark = \"heard\"\ncolour = \"grey\"\n")),
            expected);
}

TEST(Catalogue, EveryKindStandsInOneSectionInTheOrderOfTakingApart) {
  std::vector<std::string> listed;
  for (const KindSection& section : catalogue().sections) {
    for (const Language language : {Language::english, Language::german}) EXPECT_TRUE(has_key("section." + section.id, language)) << section.id;
    listed.insert(listed.end(), section.kinds.begin(), section.kinds.end());
  }
  EXPECT_EQ(listed.size(), catalogue().kinds.size());
  for (const Kind& kind : catalogue().kinds) EXPECT_NE(catalogue().section_of(kind.id), nullptr) << kind.id;
  EXPECT_EQ(catalogue().strip_place(listed.front()), 0U);
  EXPECT_EQ(catalogue().strip_place(listed.back()), listed.size() - 1);
  EXPECT_EQ(catalogue().strip_place("a-kind-of-my-own"), listed.size()) << "after all others";
  EXPECT_LT(catalogue().strip_place("compression"), catalogue().strip_place("cylinder-bore")) << "what stripping destroys comes first";
  EXPECT_LT(catalogue().strip_place("cylinder-bore"), catalogue().strip_place("crankpin"));
}

/// A person reads "guides 1 and 3", not "valve guide 1 and 3".
TEST(Catalogue, EveryKindHasItsOwnNamesForOneAndSeveral) {
  for (const Language language : {Language::english, Language::german}) {
    std::vector<std::string> groups;
    for (const Kind& kind : catalogue().kinds) {
      for (const char* key : {"part_name.", "parts_name.", "group_name."}) EXPECT_TRUE(has_key(key + kind.id, language)) << key << kind.id;
      groups.push_back(sentence(Message{"group_name." + kind.id, {}}, language));
    }
    std::sort(groups.begin(), groups.end());
    const auto twice = std::adjacent_find(groups.begin(), groups.end());
    EXPECT_EQ(twice, groups.end()) << *twice << ": two kinds in one list under one name";
  }
}

TEST(Catalogue, AStationMayHaveGaugesOfItsOwn) {
  const Kind& spring = *catalogue().kind("valve-spring");
  ASSERT_FALSE(spring.gauges_at.empty());
  for (const Kind& kind : catalogue().kinds) {
    for (const StationGauges& at : kind.gauges_at) {
      for (const std::string& each : at.gauges) EXPECT_NE(catalogue().gauge_preset(each), nullptr) << kind.id << " " << each;
    }
  }
}

TEST(CatalogueRefuses, SectionsThatContradictTheKinds) {
  EXPECT_EQ(codes(with_sections("[[section]]\nid = \"a\"\nkinds = [\"piston\", \"no-such-kind\"]\n")), std::vector<std::string>{"catalogue.unknown_word"});
  EXPECT_EQ(codes(with_sections("[[section]]\nid = \"a\"\nkinds = [\"piston\"]\n[[section]]\nid = \"b\"\nkinds = [\"piston\"]\n")), std::vector<std::string>{"catalogue.id_twice"});
}

TEST(CatalogueRefuses, GaugesOfAStationThatIsNotThere) {
  const std::string kind = R"(
[[kind]]
id = "k"
feature = "figure"
material = "steel"
origin = "own"
gauges_at = [{ station = "nowhere", gauges = ["caliper"] }]
station = [{ id = "here", role = "first" }]
direction = [{ id = "reading", angle = "0 °" }]
)";
  EXPECT_EQ(codes(with_kinds(kind)), std::vector<std::string>{"catalogue.unknown_word"});
}

TEST(CatalogueRefuses, AnIdGivenTwice) {
  std::string text(built_in_texts().materials);
  text += "\n[[material]]\nid = \"steel\"\nexpansion_per_celsius = \"1e-6\"\nmark = \"memory\"\norigin = \"test\"\n";
  EXPECT_EQ(codes(with_materials(text)), Codes{"catalogue.id_twice"});
}

TEST(CatalogueRefuses, AGaugeWithoutUnits) {
  const std::string head = "[temperature]\nid = \"temperature\"\nscope = \"round\"\nshape = \"normal\"\nmark = \"memory\"\norigin = \"t\"\n";
  EXPECT_EQ(codes(with_gauges(head + "standard_uncertainty = \"2\"\n")), (Codes{"catalogue.missing_key", "catalogue.wrong_kind"}));
  EXPECT_EQ(codes(with_gauges(head + "standard_uncertainty = \"2 N\"\n")), Codes{"catalogue.missing_key"});
  EXPECT_EQ(codes(with_gauges(head + "standard_uncertainty = \"2 °C\"\n[[gauge]]\nid = \"g\"\naction = \"direct\"\nshares = [\"luck\"]\n")),
            Codes{"catalogue.unknown_word"});
  EXPECT_EQ(codes(with_gauges("")), Codes{"catalogue.missing_key"});
}

std::string definition(const std::string& rest) {
  return "[[definition]]\nid = \"d\"\nfamily = \"size\"\nresult = \"length\"\norigin = \"test\"\n" + rest;
}

TEST(CatalogueRefuses, DefinitionsThatSayTwoThings) {
  EXPECT_EQ(codes(with_definitions(definition("applies_to = [\"inside\"]\ninputs = [\"sizes\", \"standard\"]\n"
                                              "expression = [\"max\", \"all\", [\"size\"]]\n"))),
            Codes{"catalogue.other_inputs"});
  EXPECT_EQ(codes(with_definitions(definition("applies_to = [\"inside\"]\ninputs = [\"sizes\", \"nominal\"]\n"
                                              "expression = [\"ratio\", [\"max\", \"all\", [\"size\"]], [\"nominal\"]]\n"))),
            Codes{"catalogue.other_dimension"});
  EXPECT_EQ(codes(with_definitions(definition("applies_to = [\"inside\"]\ninputs = [\"sizes\"]\n"
                                              "inside = [\"max\", \"all\", [\"size\"]]\noutside = [\"min\", \"all\", [\"size\"]]\n"))),
            Codes{"catalogue.other_feature"});
  EXPECT_EQ(codes(with_definitions(definition("applies_to = [\"inside\", \"outside\"]\ninputs = [\"sizes\"]\n"
                                              "inside = [\"max\", \"all\", [\"size\"]]\n"))),
            Codes{"catalogue.missing_key"});
}

TEST(CatalogueRefuses, AnExpressionOutsideTheSet) {
  EXPECT_EQ(codes(with_definitions(definition("applies_to = [\"inside\"]\ninputs = [\"sizes\"]\n"
                                              "expression = [\"plane\", [\"size\"]]\n"))),
            Codes{"catalogue.unknown_word"});
}

}  // namespace
}  // namespace fettle
