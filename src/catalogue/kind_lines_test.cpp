#include <gtest/gtest.h>

#include <algorithm>

#include "catalogue/catalogue.h"
#include "catalogue/kind_definitions.h"
#include "text/sentence.h"

namespace fettle {
namespace {

using Ids = std::vector<std::string>;

Ids ids_of(const std::vector<KindLine>& lines) {
  Ids out;
  for (const KindLine& each : lines) out.push_back(each.id);
  return out;
}

Ids ids_of(const std::vector<const Definition*>& definitions) {
  Ids out;
  for (const Definition* each : definitions) out.push_back(each->id);
  return out;
}

bool holds(const Ids& ids, const std::string& id) { return std::find(ids.begin(), ids.end(), id) != ids.end(); }

void expect_sound(const std::string& kind, const std::string& list, const std::vector<KindLine>& lines) {
  for (const KindLine& line : lines) {
    EXPECT_FALSE(line.origin.empty()) << kind << " " << line.id;
    EXPECT_FALSE(line.text) << kind << " " << line.id;  // a built-in sentence stands in both languages, not in the data
    EXPECT_TRUE(has_key(list + "." + line.id, Language::english)) << kind << " " << line.id;
    EXPECT_TRUE(has_key(list + "." + line.id, Language::german)) << kind << " " << line.id;
  }
}

TEST(KindLines, EveryBuiltInKindIsWhole) {
  for (const Kind& kind : catalogue().kinds) {
    EXPECT_GE(kind.how.size(), 4U) << kind.id;
    EXPECT_GE(kind.mistakes.size(), 2U) << kind.id;
    EXPECT_GE(kind.cautions.size(), 1U) << kind.id;  // each is washed, lifted, pressed or turned
    expect_sound(kind.id, "how", kind.how);
    expect_sound(kind.id, "mistake", kind.mistakes);
    expect_sound(kind.id, "caution", kind.cautions);
  }
}

/// A sentence that no kind uses is dead: nobody would see that it is wrong.
TEST(KindLines, EverySentenceIsUsed) {
  Ids used;
  for (const Kind& kind : catalogue().kinds) {
    for (const KindLine& each : kind.how) used.push_back("how." + each.id);
    for (const KindLine& each : kind.mistakes) used.push_back("mistake." + each.id);
    for (const KindLine& each : kind.cautions) used.push_back("caution." + each.id);
  }
  for (const std::string& key : all_keys(Language::english)) {
    const bool of_a_kind = key.starts_with("how.") || key.starts_with("mistake.") || key.starts_with("caution.");
    EXPECT_TRUE(!of_a_kind || holds(used, key)) << key;
  }
}

TEST(KindLines, WhatCanHurtIsSaid) {
  const std::vector<std::pair<std::string, std::string>> wanted = {
      {"valve-spring", "spring-flies"},        {"leak-down", "crank-kicks"},          {"leak-down", "air-on-skin"},
      {"compression", "engine-cranks"},        {"compression", "mist-burns"},         {"combustion-chamber", "burette-liquid"},
      {"combustion-chamber", "liquid-left"},   {"crankshaft", "crank-heavy"},         {"main-journal", "crank-heavy"},
      {"crankpin", "crank-heavy"},             {"face", "head-heavy"},                {"face-heights", "head-heavy"},
      {"face", "asbestos"},                    {"cylinder-bore", "block-tips"},       {"bearing-housing", "torque-bar"},
      {"clock-face", "crank-turns"},           {"piston", "circlips-fly"},            {"bearing-and-journal", "crank-heavy"},
      {"liner-bore", "liner-shatters"},        {"liner-protrusion", "sharp-edges"},   {"crank-end-float", "crank-turns"},
      {"web-deflection", "hands-in-case"},     {"rod-bolt", "torque-bar"},            {"piston-pin-bore", "hot-oil"},
      {"ring-end-gap", "ring-edges"},          {"spring-height", "spring-flies"},     {"valve", "valve-sodium"},
      {"valve-seat", "grinding-dust"},         {"seat-insert", "cold-burns"},         {"oil-pump-gears", "pump-spring"},
      {"gear-backlash", "gear-pinch"},         {"clutch-disc", "asbestos-lining"},    {"pressure-plate", "clutch-spring"},
      {"flywheel-face", "flywheel-heavy"},     {"ring-gear-teeth", "hot-ring"},       {"reed-valve", "fuel-vapour"},
      {"case-test", "case-pressure"},          {"squish-solder", "crank-turns"},      {"head-face", "asbestos"}};
  for (const auto& [kind, caution] : wanted) {
    EXPECT_TRUE(holds(ids_of(catalogue().kind(kind)->cautions), caution)) << kind << " " << caution;
  }
  // The solvent is told wherever the work begins with washing.
  for (const Kind& kind : catalogue().kinds) {
    const bool washed = holds(ids_of(kind.how), "clean-and-rest");
    EXPECT_TRUE(!washed || holds(ids_of(kind.cautions), "solvent")) << kind.id;
  }
}

// --- what is refused

std::vector<std::string> codes_with(const std::string& lines) {
  CatalogueTexts own{};
  const std::string text = "[[kind]]\nid = \"own\"\nfeature = \"inside\"\nmaterial = \"steel\"\norigin = \"t\"\n"
                           "station = [{ id = \"s\", role = \"first\" }]\ndirection = [{ id = \"d\", angle = \"0 °\" }]\n" + lines;
  own.kinds = text;
  const auto read = extended(catalogue(), own);
  std::vector<std::string> out;
  if (read.ok()) return out;
  for (const Problem& each : read.problems()) out.push_back(each.code);
  return out;
}

TEST(KindLines, MayBeLeftOutOrBringTheirSentence) {
  EXPECT_EQ(codes_with(""), Ids{});
  EXPECT_EQ(codes_with("how = [{ id = \"a\", text = \"Look twice.\", origin = \"o\" }, { id = \"b\", origin = \"o\" }]\n"
                       "cautions = [{ id = \"a\", origin = \"o\" }]\n"),
            Ids{});  // one id may stand in two lists
}

TEST(KindLines, GaugesAndConditionsAreKnownOnes) {
  EXPECT_EQ(codes_with("gauges = [\"feeler-gauge\", \"caliper\"]\nconditions = [\"clean\", \"torqued\"]\n"), Ids{});
  EXPECT_EQ(codes_with("gauges = [\"feeler\"]\n"), Ids{"catalogue.unknown_gauge"});
  EXPECT_EQ(codes_with("conditions = [\"cleanish\"]\n"), Ids{"catalogue.unknown_word"});
}

TEST(KindLines, RefuseWhatIsIncompleteOrTwice) {
  EXPECT_EQ(codes_with("how = [{ origin = \"o\" }]\n"), Ids{"catalogue.missing_key"});
  EXPECT_EQ(codes_with("mistakes = [{ id = \"a\" }]\n"), Ids{"catalogue.missing_key"});
  EXPECT_EQ(codes_with("cautions = [{ id = \"a\", origin = \"\" }]\n"), Ids{"catalogue.wrong_kind"});
  EXPECT_EQ(codes_with("how = [{ id = \"a\", origin = \"o\", text = \"\" }]\n"), Ids{"catalogue.wrong_kind"});
  EXPECT_EQ(codes_with("how = [{ id = \"a\", origin = \"o\" }, { id = \"a\", origin = \"p\" }]\n"), Ids{"catalogue.id_twice"});
  EXPECT_EQ(codes_with("how = [{ id = \"a\", origin = \"o\", sentence = \"x\" }]\n"), Ids{"catalogue.unknown_key"});
  EXPECT_EQ(codes_with("how = \"look\"\n"), Ids{"catalogue.wrong_kind"});
  EXPECT_EQ(codes_with("how = [{ origin = \"o\" }, { origin = \"p\" }]\n"), (Ids{"catalogue.missing_key", "catalogue.missing_key"}));
}

// --- which definitions apply

TEST(KindDefinitions, AreSortedByWhetherThePlacesAreEnough) {
  const auto bore = definitions_for(*catalogue().kind("cylinder-bore"), catalogue().definitions);
  EXPECT_TRUE(holds(ids_of(bore.usual), "oor-1"));
  EXPECT_TRUE(holds(ids_of(bore.with_more_places), "oor-2"));  // three directions
  EXPECT_TRUE(holds(ids_of(bore.with_more_places), "tap-6"));  // depths
  EXPECT_FALSE(holds(ids_of(bore.usual), "tap-7"));  // diameters cannot give it
  EXPECT_FALSE(holds(ids_of(bore.usual), "clr-1"));  // of a pair
  // A piston is read at one height in one direction that counts: its size and its wear, no taper.
  const auto piston = definitions_for(*catalogue().kind("piston"), catalogue().definitions);
  EXPECT_EQ(ids_of(piston.usual), (Ids{"size-1", "size-3", "mean-size", "wear-1", "wear-3", "wear-5"}));
  // A housing is read square to the joint and at 45° to either side: there is no cross axis for oor-1.
  const auto housing = definitions_for(*catalogue().kind("bearing-housing"), catalogue().definitions);
  EXPECT_TRUE(holds(ids_of(housing.with_more_places), "oor-1"));
  EXPECT_TRUE(holds(ids_of(housing.usual), "oor-2"));
  const auto pair = definitions_for(*catalogue().kind("bore-and-piston"), catalogue().definitions);
  EXPECT_EQ(ids_of(pair.usual), (Ids{"clr-1", "clr-2", "clr-least", "clr-6", "clr-3"}));
  EXPECT_EQ(ids_of(definitions_for(*catalogue().kind("bearing-shell"), catalogue().definitions).usual), Ids{"shell-wall"});
}

}  // namespace
}  // namespace fettle
