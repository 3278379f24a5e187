#include "simulate/families_file.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

/// A family with every key, 41 lines.
constexpr std::string_view kWhole = R"([[family]]
id = "own"
about = "a person's own"
parts = 2
standard = "60.000 mm"
tolerance = ["0 µm", "19 µm"]
as_made = "9 µm"
as_made_common = "3 µm"
as_made_own = "3 µm"
texture = "1 µm"
steps = ["0 µm"]
three_lobe = "0 µm"
untold_slip = "0 µm"
told_step = "standard"
told_condition = "worn"
tells_tolerance = true
unread_stations = []
unread_directions = ["b"]
station = [
  { id = "top", role = "first", depth = "10 mm" },
  { id = "bottom", role = "last", depth = "70 mm" },
]
direction = [
  { id = "a", angle = "0 °" },
  { id = "b", angle = "90 °" },
]
limit = [
  { definition = "size-1", bound = "60.080 mm" },
]
component = [
  { id = "wear", pattern = "round", profile = "linear", amount = ["5 µm", "0.05 mm"], length = "1", likeness = "1/4" },
  { id = "oval", pattern = "oval", angle = "0 °", follows = "wear", share = ["0", "0.5"], likeness = "0", scatter = "about-nothing" },
]
)";

std::string with(const std::string& from, const std::string& to) {
  std::string text(kWhole);
  const auto at = text.find(from);
  FETTLE_ASSERT(at != std::string::npos, from);
  return text.replace(at, from.size(), to);
}

std::string codes(const std::string& text) {
  const auto read = read_families(text, "own.toml");
  std::string out;
  if (read.ok()) return out;
  for (const Problem& each : read.problems())
    out += (out.empty() ? "" : " ") + each.code + ":" + std::to_string(each.place.line.value_or(0));
  return out;
}

TEST(FamiliesFile, APersonsOwnFamily) {
  const auto read = read_families(kWhole, "own.toml");
  ASSERT_TRUE(read.ok()) << codes(std::string(kWhole));
  const EngineFamily& own = read.value().front();
  EXPECT_EQ(own.parts, 2U);
  EXPECT_EQ(own.new_high, Length::counts(600'190'000));
  EXPECT_EQ(own.components[0].amount, (Span{5.0, 50.0}));
  EXPECT_EQ(own.components[0].likeness, (Span{0.25, 0.25}));
  EXPECT_EQ(own.components[1].follows, 0U);
  EXPECT_EQ(own.components[1].profile, Profile::linear);
  EXPECT_EQ(own.components[1].scatter, Scatter::about_nothing);
  EXPECT_EQ(own.unread_directions, (std::vector<std::size_t>{1}));
}

TEST(FamiliesFile, TheBuiltInOnesRead) {
  EXPECT_EQ(built_in_families().size(), 27U);
  EXPECT_EQ(find_family(built_in_families(), "nothing"), nullptr);
  const Hand* coarse = find_hand(built_in_hands(), "coarse");
  ASSERT_NE(coarse, nullptr);
  EXPECT_EQ(coarse->setting_sd_um, 10.0);
  EXPECT_EQ(coarse->division, Length::counts(100'000));
  EXPECT_EQ(find_hand(built_in_hands(), "mid-own-micrometer")->master_sd_um, 3.0);
  EXPECT_EQ(find_hand(built_in_hands(), "mid-no-thermometer")->temperature_sd_celsius, 2.0);
}

TEST(FamiliesFile, UsualKeysStandForThoseThatAFamilyLeavesOut) {
  std::string text(kWhole);
  text.replace(0, std::string("[[family]]\nid = \"own\"\nabout = \"a person's own\"\nparts = 2\n").size(),
               "[usual]\nparts = 3\n");
  text += "[[family]]\nid = \"a\"\nabout = \"as usual\"\n[[family]]\nid = \"b\"\nabout = \"one part\"\nparts = 1\n";
  const auto read = read_families(text, "own.toml");
  ASSERT_TRUE(read.ok()) << codes(text);
  EXPECT_EQ(read.value()[0].parts, 3U);
  EXPECT_EQ(read.value()[1].parts, 1U);
  // What is wrong in [usual] is told once, not for each family.
  EXPECT_EQ(codes(text.replace(text.find("\"9 µm\""), 7, "\"9\"")), "catalogue.wrong_kind:5");
}

TEST(FamiliesFile, RefusesWithTheLine) {
  EXPECT_EQ(codes(with("[\"0 µm\", \"19 µm\"]", "[\"19 µm\", \"0 µm\"]")), "simulate.span:6");
  EXPECT_EQ(codes(with("texture = \"1 µm\"", "texture = \"-1 µm\"")), "simulate.negative:10");
  EXPECT_EQ(codes(with("length = \"1\"", "length = \"0\"")), "simulate.no_length:31");
  EXPECT_EQ(codes(with("[\"b\"]", "[\"c\"]")), "simulate.unknown_place:18");
  EXPECT_EQ(codes(with("[\"b\"]", "[\"a\", \"b\"]")), "simulate.nothing_read:1");
  EXPECT_EQ(codes(with("follows = \"wear\"", "follows = \"tear\"")), "simulate.follows:32");
  EXPECT_EQ(codes(with("parts = 2", "parts = 0")), "simulate.parts:1");
  EXPECT_EQ(codes(with(", depth = \"10 mm\"", "")), "simulate.no_depth:20");
  EXPECT_EQ(codes(with("60.000 mm", "600.000 mm")), "simulate.no_micrometer:1");
  EXPECT_EQ(codes(with("size-1", "oor-2")), "simulate.cannot_be_read:28");
  EXPECT_EQ(codes(with("size-1", "size-99")), "limits.unknown_definition:28");
  EXPECT_EQ(codes("[usual]\n"), "simulate.no_families:1");
  EXPECT_EQ(codes(with("parts = 2", "partz = 2")), "catalogue.missing_key:1 catalogue.unknown_key:4");
  EXPECT_EQ(codes(with("angle = \"90 °\"", "angle = \"0 °\"")), "catalogue.layout_angle_twice:1");
  EXPECT_EQ(codes(with("angle = \"0 °\", follows", "angle = \"181 °\", follows")), "catalogue.layout_angle:32");
  EXPECT_EQ(codes(with("texture = \"1 µm\"", "texture = \"2 mm\"")), "simulate.too_large:10");
  EXPECT_EQ(codes(with("id = \"top\"", "id = \"t,op\"")), "simulate.id:20");
  std::string many;
  for (int i = 0; i < 24; ++i)
    many += "  { id = \"d" + std::to_string(i) + "\", angle = \"" + std::to_string(i + 1) + " °\" },\n";
  EXPECT_EQ(codes(with("  { id = \"b\", angle", many + "  { id = \"b\", angle")), "simulate.places:1");
  EXPECT_EQ(codes(std::string(kWhole) + std::string(kWhole)), "catalogue.id_twice:34");
}

// The message asked for a list, where a quoted length would do.
TEST(FamiliesFile, ABareNumberForASpanIsToldWhatASpanIs) {
  const auto wanted = [](const std::string& text) {
    const auto read = read_families(text, "own.toml");
    return read.ok() ? Argument{} : read.problems().front().arguments.front();
  };
  for (const char* value : {"40", "[\"40 µm\"]"}) {
    const std::string text = with("[\"5 µm\", \"0.05 mm\"]", value);
    EXPECT_EQ(codes(text), "catalogue.wrong_kind:31");
    EXPECT_EQ(wanted(text), word("wanted", "catalogue.a_span_of_lengths"));
  }
  EXPECT_EQ(wanted(with("likeness = \"1/4\"", "likeness = 0.25")), word("wanted", "catalogue.a_span"));
  EXPECT_EQ(wanted(with("[\"5 µm\", \"0.05 mm\"]", "[\"5 µm\", 50]")), word("wanted", "catalogue.a_length"));
}

// A missing length, and others, came twice: as a key that is missing, and again as what follows from it.
TEST(FamiliesFile, WhatIsMissingOrUnreadableIsToldOnce) {
  EXPECT_EQ(codes(with("length = \"1\", ", "")), "simulate.no_length:31");
  EXPECT_EQ(codes(with("length = \"1\"", "length = 1")), "catalogue.wrong_kind:31");
  EXPECT_EQ(codes(with("tolerance = [\"0 µm\", \"19 µm\"]", "tolerance = 19")), "catalogue.wrong_kind:6");
  EXPECT_EQ(codes(with("tolerance = [\"0 µm\", \"19 µm\"]", "tolerance = \"19 µm\"")), "simulate.tolerance:1");
  EXPECT_EQ(codes(with("standard = \"60.000 mm\"\n", "")), "catalogue.missing_key:1");
  EXPECT_EQ(codes(with("depth = \"10 mm\"", "depth = 10")), "catalogue.wrong_kind:20");
}

TEST(FamiliesFile, EverythingWrongAtOnce) {
  std::string text = with("parts = 2", "parts = 99");
  text.replace(text.find("texture = \"1 µm\""), 17, "texture = \"1 kg\"");
  EXPECT_EQ(codes(text), "simulate.parts:1 catalogue.wrong_kind:10");
}

TEST(FamiliesFile, HandsAreRefusedToo) {
  const auto codes_of = [](const std::string& more) {
    const auto read = read_hands("[[hand]]\nid = \"h\"\nabout = \"a hand\"\nsetting = \"5 µm\"\nrepeat = \"4 µm\"\n" + more, "own.toml");
    std::string out;
    if (!read.ok())
      for (const Problem& each : read.problems())
        out += each.code + ":" + std::to_string(each.place.line.value_or(0)) + " ";
    return out;
  };
  EXPECT_EQ(codes_of("division = \"0.01 mm\"\n"), "");
  EXPECT_EQ(codes_of(""), "catalogue.missing_key:1 ");  // division, once
  const auto nameless = read_hands("[[hand]]\nid = \"h\"\nsetting = \"5 µm\"\nrepeat = \"4 µm\"\ndivision = \"0.01 mm\"\n", "own.toml");
  ASSERT_FALSE(nameless.ok());
  EXPECT_EQ(nameless.problems().front().arguments.front(), verbatim("key", "about"));
  EXPECT_EQ(codes_of("division = \"0 mm\"\n"), "simulate.division:1 ");
  EXPECT_EQ(codes_of("division = \"0.01 mm\"\nrepeats = 0\n"), "simulate.count:1 ");
  EXPECT_EQ(codes_of("division = \"0.01 mm\"\nrepeats = 16\nsettings = 5\n"), "simulate.count:1 ");
  EXPECT_EQ(codes_of("division = \"0.01 mm\"\ndrift = \"-1 µm\"\n"), "simulate.negative:7 ");
}

}  // namespace
}  // namespace fettle
