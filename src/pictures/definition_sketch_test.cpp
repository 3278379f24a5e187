#include "pictures/definition_sketch.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "catalogue/catalogue.h"
#include "catalogue/kind_definitions.h"
#include "drawing/svg.h"

namespace fettle {
namespace {

Drawing sketch(const std::string& kind, const std::string& definition) {
  return definition_sketch(*catalogue().kind(kind), *catalogue().definition(definition), definition, Language::english);
}
/// Lines and arrows of the hand's ink.
std::size_t marked(const Drawing& drawing) {
  return static_cast<std::size_t>(std::count_if(drawing.marks.begin(), drawing.marks.end(), [](const DrawnMark& each) {
    const Line* line = std::get_if<Line>(&each);
    return line != nullptr && line->stroke.ink == Ink::here;
  }));
}
std::string words(const Drawing& drawing) {
  std::string out;
  for (const DrawnMark& each : drawing.marks) {
    if (const TextBox* text = std::get_if<TextBox>(&each)) out += text->words;
    if (const Text* text = std::get_if<Text>(&each)) out += (out.empty() ? "" : " ") + text->words;
  }
  return out;
}

/// A bore has four heights, of which the foot never counts, and two directions.
TEST(DefinitionSketch, CountsWhatTheDefinitionLooksAt) {
  EXPECT_EQ(sketch("cylinder-bore", "size-1").description, "Marked: 3 of 4 heights, 2 of 2 directions.");
  EXPECT_EQ(sketch("cylinder-bore", "oor-3").description, "Marked: 2 of 4 heights, 2 of 2 directions.");
  EXPECT_EQ(sketch("cylinder-bore", "tap-3").description, "Marked: 2 of 4 heights, 1 of 2 directions.");
  EXPECT_EQ(sketch("cylinder-bore", "tap-1").description, "Marked: 2 of 4 heights, 2 of 2 directions.");
}

TEST(DefinitionSketch, SaysWhatIsMadeOfTheReadings) {
  EXPECT_EQ(words(sketch("cylinder-bore", "size-1")), "max");
  EXPECT_EQ(words(sketch("main-journal", "size-1")), "min") << "a shaft wears smaller";
  EXPECT_EQ(words(sketch("cylinder-bore", "tap-2")), "max − min");
  EXPECT_EQ(words(sketch("cylinder-bore", "wear-1")), "max − standard");
}

/// An arrow each way along the part where the larger is taken less the smaller, one where it is the first less the last.
TEST(DefinitionSketch, ASignHasOneHead) { EXPECT_EQ(marked(sketch("cylinder-bore", "tap-2")), marked(sketch("cylinder-bore", "tap-1")) + 1); }

TEST(DefinitionSketch, EveryDefinitionOfEveryKindIsDrawnInBothLanguages) {
  std::size_t drawn = 0;
  for (const Kind& kind : catalogue().kinds) {
    const KindDefinitions all = definitions_for(kind, catalogue().definitions);
    for (const auto* list : {&all.usual, &all.with_more_places}) {
      for (const Definition* each : *list) {
        for (const Language language : {Language::english, Language::german}) {
          const Drawing drawing = definition_sketch(kind, *each, each->id, language);
          const std::string text = svg(drawing, {SvgPalette::page, "d"});
          // Where single figures are read the figure and its place; else an outline with what counts in it.
          const bool single = kind.feature == Feature::figure || kind.layout.cells() == 1;
          EXPECT_GT(drawing.marks.size(), single ? 0U : 2U) << kind.id << " " << each->id;
          EXPECT_EQ(text.find("[pictures"), std::string::npos) << text;
          ++drawn;
        }
      }
    }
  }
  EXPECT_GT(drawn, 100U);
}

/// A definition must be told from the others of its characteristic by the eye: by drawing or by words. Those that differ in rounds or in
/// places that the kind does not have look alike, and are told by their names.
TEST(DefinitionSketch, TapersOfABoreDoNotLookAlike) {
  const Kind& kind = *catalogue().kind("cylinder-bore");
  std::set<std::string> seen;
  for (const char* id : {"tap-1", "tap-2", "tap-3", "tap-4", "tap-5", "tap-6", "tap-9"}) {
    EXPECT_TRUE(seen.insert(svg(definition_sketch(kind, *catalogue().definition(id), "", Language::english), {SvgPalette::page, "d"})).second) << id;
  }
}

}  // namespace
}  // namespace fettle
