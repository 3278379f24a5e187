#include "limits/thumb_limits.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "catalogue/catalogue.h"

namespace fettle {
namespace {

TypedQuantity size(const std::string& text) { return read_quantity(text, {{}, Dimension::length, DecimalMark::point, {}, false, {}}, {}).value(); }

const ThumbRule& rule(std::string_view id) {
  const auto found = std::find_if(thumb_rules().begin(), thumb_rules().end(), [&](const ThumbRule& each) { return each.id == id; });
  EXPECT_NE(found, thumb_rules().end()) << id;
  return *found;
}

std::string figure(std::string_view id, const ThumbSizes& sizes) {
  const auto found = thumb_figure(rule(id), sizes);
  return found ? found->bound.text : "nothing";
}

std::vector<std::string> codes(const Problems& problems) {
  std::vector<std::string> out;
  for (const Problem& each : problems) out.push_back(each.code);
  return out;
}

ThumbSizes all_sizes() { return {size("4.000 in"), size("4.5 in"), size("6 in"), size(".001 in"), size("2 in")}; }

// K-22 (made from W-11, TM 10-3930-647-14&P ix175): 4.000 bore, 4.5 stroke, 2.5 journal: wear .004; taper .00225; piston .0020; OOR .0010.
TEST(ThumbLimits, K22) {
  const ThumbSizes bore{size("4.000 in"), size("4.5 in"), {}, {}, {}};
  const auto bound = [](std::string_view kind, std::string_view definition, const ThumbSizes& sizes) {
    const auto limits = thumb_limits(kind, definition, sizes);
    EXPECT_EQ(limits.size(), 1U) << kind;
    return bound_of(limits.front());
  };
  EXPECT_EQ(bound("cylinder-bore", "wear-1", bore), size(".004 in").quantity.in_base());
  EXPECT_EQ(bound("cylinder-bore", "tap-2", bore), size(".00225 in").quantity.in_base());
  EXPECT_EQ(bound("piston", "wear-1", bore), size(".0020 in").quantity.in_base());
  const ThumbSizes journal{size("2.5 in"), {}, {}, {}, {}};
  EXPECT_EQ(bound("crankpin", "oor-1", journal), size(".0010 in").quantity.in_base());
  EXPECT_EQ(bound("main-journal", "oor-1", journal), size(".0010 in").quantity.in_base());
}

// W-11 (grade B, TM 10-3930-647-14&P ix175): the rules that are no share of a diameter.
TEST(ThumbLimits, W11) {
  EXPECT_EQ(figure("pin-wear", {}), "0.001 in");
  EXPECT_EQ(figure("stem-wear", {}), "0.001 in");
  EXPECT_EQ(figure("guide-wear", {}), "0.0015 in");
  EXPECT_EQ(figure("rings-disturbed", {}), "50 h");
  EXPECT_EQ(figure("seat-width", {{}, {}, {}, {}, size("1.4 mm")}), "1.61 mm");
  EXPECT_EQ(figure("end-float", {{}, {}, {}, {}, size(".017 in")}), "0.022 in");
  // Taper as a slope has no unit: .0005 in per inch, at any length.
  const auto slope = thumb_limits("cylinder-bore", "tap-6", {});
  ASSERT_EQ(slope.size(), 1U);
  EXPECT_EQ(bound_of(slope.front()), Ratio::of(5, 10'000));
}

// W-21 (grade A, trade page): 4.030 bore times .0045 is .018, times .005 is .020, to three places.
TEST(ThumbLimits, W21) {
  const ThumbSizes bore{size("4.030 in"), {}, {}, {}, {}};
  EXPECT_EQ(figure("ring-gap-lower", bore), "0.018135 in");
  EXPECT_EQ(figure("ring-gap-upper", bore), "0.02015 in");
}

// W-22 (grade A), K-10: the gap grows by π for each growth of the diameter; .001 gives .00314, .044 mm gives .138.
TEST(ThumbLimits, W22) {
  const auto grown = thumb_figure(rule("ring-gap-growth"), {{}, {}, {}, size(".001 in"), {}});
  EXPECT_EQ(in_unit(exact_length(grown->bound.quantity)->ratio(), UnitId::inch, 5), "0.00314");
  EXPECT_EQ(grown->bound.text, "0.0797965 mm");  // to the nearest 0.1 nm
  const auto metric = thumb_figure(rule("ring-gap-growth"), {{}, {}, {}, size("0.044 mm"), {}});
  EXPECT_EQ(in_unit(exact_length(metric->bound.quantity)->ratio(), UnitId::millimetre, 3), "0.138");
}

// W-74 (grade B, marine page): a liner's wear of .6 to .8 % of its bore; .025 mm in a thousand hours is a four-stroke's most, .05 a two-stroke's.
TEST(ThumbLimits, W74) {
  const ThumbSizes bore{size("400 mm"), {}, {}, {}, {}};
  EXPECT_EQ(figure("marine-liner-wear-low", bore), "2.4 mm");
  EXPECT_EQ(figure("marine-liner-wear-high", bore), "3.2 mm");
  EXPECT_EQ(figure("marine-rate-four-stroke", {}), "0.025 mm");
  EXPECT_EQ(figure("marine-rate-two-stroke", {}), "0.05 mm");
}

// W-26 (grade A, trade page): a 2.375 journal wants .0024, to four places. It is a figure to go by, so no limit comes of it.
TEST(ThumbLimits, W26) {
  const ThumbSizes journal{size("2.375 in"), {}, {}, {}, {}};
  EXPECT_EQ(figure("bearing-clearance", journal), "0.002375 in");
  EXPECT_TRUE(thumb_limits("bearing-and-journal", "clr-2-bearing", journal).empty());
}

// W-56 (NAVEDTRA 14076): 3 % short; W-06 (AC 43.13-1B 8-14): 80 over 60 psi is 25 %.
TEST(ThumbLimits, SharesAreNumbers) {
  const auto spring = thumb_limits("valve-spring", "spring-set", all_sizes());
  ASSERT_EQ(spring.size(), 1U);
  EXPECT_EQ(bound_of(spring.front()), Ratio::of(3, 100));
  EXPECT_TRUE(thumb_limits("valve-spring", "spring-set", {}).empty());  // how long it was is not known
  EXPECT_EQ(thumb_limits("leak-down", "leak-loss", {}).front().bound.text, "0.25");
}

TEST(ThumbLimits, ARuleForSomeSizesIsSilentAtOthers) {
  EXPECT_EQ(figure("sleeve-press-small", {size("5.125 in"), {}, {}, {}, {}}), "0.003 in");
  EXPECT_EQ(figure("sleeve-press-small", {size("5.126 in"), {}, {}, {}, {}}), "nothing");
  EXPECT_EQ(figure("sleeve-press-middle", {size("5.126 in"), {}, {}, {}, {}}), "0.004 in");
  EXPECT_EQ(figure("sleeve-press-small", {size("2 in"), {}, {}, {}, {}}), "nothing");
}

/// 3.333 mm times .0055 is 183 315 counts; 4.0001 in times .0045 is 4 572 114.3 of them.
TEST(ThumbLimits, KeepsTheUnitWhereItCan) {
  EXPECT_EQ(figure("ring-gap-most", {size("3.333 mm"), {}, {}, {}, {}}), "0.0183315 mm");
  EXPECT_EQ(figure("ring-gap-lower", {size("4.0001 in"), {}, {}, {}, {}}), "0.4572114 mm");
  EXPECT_EQ(figure("bore-wear", {size("100 mm"), {}, {}, {}, {}}), "0.1 mm");
}

// A figure that nobody accepted never counts; once a person has, nothing else is wrong with it.
TEST(ThumbLimits, NeverCountsByItself) {
  int checked = 0;
  for (const ThumbRule& each : thumb_rules()) {
    if (!each.definition || !each.side) continue;
    for (const std::string& id : each.about) {
      const Kind* kind = catalogue().kind(id);
      ASSERT_NE(kind, nullptr) << each.id;
      const Definition* definition = catalogue().definition(*each.definition);
      for (Limit limit : thumb_limits(id, *each.definition, all_sizes())) {
        EXPECT_TRUE(limit.origin.rule_of_thumb && !limit.origin.accepted && !limit.origin.book.empty()) << limit.id;
        EXPECT_EQ(codes(limit_problems(limit, definition, kind->feature)), (std::vector<std::string>{"limits.thumb_not_accepted"})) << limit.id;
        limit.origin.accepted = true;
        EXPECT_TRUE(limit_problems(limit, definition, kind->feature).empty()) << limit.id;
        ++checked;
      }
    }
  }
  EXPECT_GE(checked, 10);
}

TEST(ThumbLimits, SaysWhichSizeIsMissing) {
  EXPECT_EQ(thumb_size_missing(rule("bore-wear"), {}), ThumbSize::diameter);
  EXPECT_EQ(thumb_size_missing(rule("spring-short"), {}), ThumbSize::new_size);
  EXPECT_FALSE(thumb_size_missing(rule("pin-wear"), {}));
  EXPECT_EQ(figure("bore-wear", {}), "nothing");
}

TEST(ThumbLimits, ASizeIsAboveNothing) {
  EXPECT_EQ(codes(thumb_problems({size("0 mm"), size("-1 mm"), {}, {}, size("1 mm")})),
            (std::vector<std::string>{"limits.thumb_size_not_positive", "limits.thumb_size_not_positive"}));
}

constexpr const char* kSound = R"([[rule]]
id = "a"
about = ["piston"]
role = "service"
side = "at-most"
reckoning = "factor"
of = "diameter"
factor = "0.001"
makers_figure = false
mark = "seen"
origin = "book"
)";

std::vector<std::string> codes_with(const std::string& from, const std::string& to) {
  std::string text = kSound;
  text.replace(text.find(from), from.size(), to);
  const auto read = read_thumb_rules(text);
  return read.ok() ? std::vector<std::string>{} : codes(read.problems());
}

TEST(ThumbRules, TheFileIsReadLikeTheCatalogues) {
  EXPECT_TRUE(codes_with("book", "book").empty());
  EXPECT_EQ(codes_with("makers_figure = false\n", ""), (std::vector<std::string>{"limits.thumb_makers_figure"}));
  EXPECT_EQ(codes_with("makers_figure = false", "makers_figure = true"), (std::vector<std::string>{"limits.thumb_makers_figure"}));
  EXPECT_EQ(codes_with("of = \"diameter\"\n", ""), (std::vector<std::string>{"catalogue.missing_key"}));
  EXPECT_EQ(codes_with("\"factor\"", "\"fixed\""), (std::vector<std::string>{"catalogue.missing_key", "catalogue.unknown_key"}));
  EXPECT_EQ(codes_with("\"diameter\"", "\"girth\""), (std::vector<std::string>{"catalogue.missing_key", "catalogue.unknown_word"}));
  EXPECT_EQ(codes_with("origin", "orign"), (std::vector<std::string>{"catalogue.missing_key", "catalogue.unknown_key"}));
}

}  // namespace
}  // namespace fettle
