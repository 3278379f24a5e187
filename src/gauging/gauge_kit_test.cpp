#include "gauging/gauge_kit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "gauging/gauge.h"
#include "numeric/xoshiro.h"

namespace fettle {
namespace {

TypedQuantity typed(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(); }
Length length(const std::string& text) { return *exact_length(typed(text).quantity); }
std::vector<TypedQuantity> all(const std::vector<std::string>& texts) {
  std::vector<TypedQuantity> out;
  for (const std::string& each : texts) out.push_back(typed(each));
  return out;
}

/// Rods in steps of 5 mm with washers of 0.5, 1, 2 and 2 mm, travel 1.2 mm.
GaugeKit usual() {
  return {all({"75 mm", "80 mm", "85 mm"}), all({"0.5 mm", "2 mm", "1 mm", "2 mm"}), {}, RodsReach::contact_free, typed("1.2 mm"), {}, {}, {}};
}

KnownKit known(const GaugeKit& kit) { return know_kit(kit, "bg", {}).value(); }

Assembled put_together(const GaugeKit& kit, const std::string& wanted) {
  return assemble(known(kit), length(wanted), "bg", UnitId::millimetre).value();
}

std::string said(const Assembly& assembly) {
  std::string out = assembly.rod.text;
  if (assembly.extension) out += " + " + assembly.extension->text;
  for (const KitPiece& each : assembly.washers) out += " + " + each.text;
  return out;
}

std::string code_of(const GaugeKit& kit) {
  const auto made = know_kit(kit, "bg", {});
  return made.ok() ? "" : made.problems().front().code;
}

TEST(GaugeKit, PressedInByAThirdToHalf) {
  // 84 mm, travel 1.2: pressed in by 0.4 to 0.6 means a reach of 84.4 to 84.6. 80 + 2 + 2 + 0.5 = 84.5; nothing else lies there.
  const Assembled found = put_together(usual(), "84 mm");
  EXPECT_EQ(said(found.best), "80 mm + 2 mm + 2 mm + 0.5 mm");
  EXPECT_TRUE(found.best.in_the_span);
  EXPECT_EQ(found.best.pressed_in, length("0.5 mm"));
  EXPECT_EQ(found.best.left_for_larger, length("0.4 mm"));   // 0.1 mm must stay pressed in
  EXPECT_EQ(found.best.left_for_smaller, length("0.7 mm"));
  // The next best is out of the span: 85 bare is pressed in by 1.0; 80 + 2 + 2 is just free.
  ASSERT_TRUE(found.next_best.has_value());
  EXPECT_EQ(said(*found.next_best), "85 mm");
  EXPECT_FALSE(found.next_best->in_the_span);
}

TEST(GaugeKit, FewestWashersGoBeforeTheMiddle) {
  // The middle of the span is 0.5. 80 + 2 lies at 0.45 with one washer, 80 + 1 + 1.05 at 0.5 with two.
  const GaugeKit kit{all({"80 mm"}), all({"2 mm", "1 mm", "1.05 mm"}), {}, RodsReach::contact_free, typed("1.2 mm"), {}, {}, {}};
  const Assembled found = put_together(kit, "81.55 mm");
  EXPECT_EQ(said(found.best), "80 mm + 2 mm");
  EXPECT_EQ(said(*found.next_best), "80 mm + 1.05 mm + 1 mm");
}

TEST(GaugeKit, RodsMarkedForTheMiddleOfTheTravel) {
  // At its marked size the contact is in by half of the travel, which is still in the span.
  GaugeKit kit = usual();
  kit.rods_reach = RodsReach::middle_of_travel;
  const Assembled found = put_together(kit, "85 mm");
  EXPECT_EQ(said(found.best), "85 mm");
  EXPECT_EQ(found.best.pressed_in, length("0.6 mm"));
  EXPECT_TRUE(found.best.in_the_span);
}

TEST(GaugeKit, MixedUnitsAreExact) {
  // 3 in + 1/32 in = 76.2 + 0.79375 = 76.99375 mm; pressed in by 0.49375 at 76.5.
  const GaugeKit kit{all({"3 in"}), all({"1/32 in"}), all({"2 in"}), RodsReach::contact_free, typed("1.2 mm"), {}, {}, {}};
  const Assembled found = put_together(kit, "76.5 mm");
  EXPECT_EQ(said(found.best), "3 in + 1/32 in");
  EXPECT_EQ(found.best.pressed_in, length("0.49375 mm"));
  // 5 in + 1/32 in by the extension: 127.79375 mm.
  EXPECT_EQ(said(put_together(kit, "127.3 mm").best), "3 in + 2 in + 1/32 in");
}

TEST(GaugeKit, TheEdgesOfTheSpanBelongToIt) {
  const GaugeKit kit{all({"80 mm"}), {}, {}, RodsReach::contact_free, typed("1.2 mm"), {}, {}, {}};
  EXPECT_TRUE(put_together(kit, "79.6 mm").best.in_the_span);        // a third, 0.4
  EXPECT_TRUE(put_together(kit, "79.4 mm").best.in_the_span);        // half, 0.6
  EXPECT_FALSE(put_together(kit, "79.6000001 mm").best.in_the_span);
  EXPECT_FALSE(put_together(kit, "79.3999999 mm").best.in_the_span);
  // Of the travel: from 0.1 mm pressed in to all of it.
  EXPECT_TRUE(assemble(known(kit), length("79.9 mm"), "bg", UnitId::millimetre).ok());
  EXPECT_FALSE(assemble(known(kit), length("79.9000001 mm"), "bg", UnitId::millimetre).ok());
  EXPECT_TRUE(assemble(known(kit), length("78.8 mm"), "bg", UnitId::millimetre).ok());
  EXPECT_FALSE(assemble(known(kit), length("78.7999999 mm"), "bg", UnitId::millimetre).ok());
}

Problem refused(const GaugeKit& kit, const std::string& wanted) {
  const auto found = assemble(known(kit), length(wanted), "bg", UnitId::millimetre);
  FETTLE_ASSERT(!found.ok() && found.problems().size() == 1, wanted);
  return found.problems().front();
}

std::string argument(const Problem& problem, const std::string& name) {
  for (const Argument& each : problem.arguments) {
    if (each.name == name) return std::get<DecimalText>(each.value).digits;
  }
  return "";
}

TEST(GaugeKit, WhatIsMissingIsSaid) {
  const GaugeKit kit{all({"75 mm", "80 mm"}), all({"1 mm"}), {}, RodsReach::contact_free, typed("1.2 mm"), {}, {}, typed("90 mm")};
  // Longest is 81: reaches 80.9. For 84 a reach of 84.4 to 84.6 is wanted: 3.4 to 3.6 more, or a rod of that size.
  const Problem short_one = refused(kit, "84 mm");
  EXPECT_EQ(short_one.code, "gauging.kit_too_short");
  EXPECT_EQ(argument(short_one, "below"), "80.9000");
  EXPECT_EQ(argument(short_one, "washer_from"), "3.4000");
  EXPECT_EQ(argument(short_one, "washer_to"), "3.6000");
  EXPECT_EQ(argument(short_one, "rod_from"), "84.4000");
  EXPECT_EQ(argument(short_one, "rod_to"), "84.6000");
  // Shortest is 75: down to 73.8.
  const Problem long_one = refused(kit, "70 mm");
  EXPECT_EQ(long_one.code, "gauging.kit_too_long");
  EXPECT_EQ(argument(long_one, "above"), "73.8000");
  // Between 76 (to 75.9) and 80 (from 78.8).
  const Problem gap = refused(kit, "77 mm");
  EXPECT_EQ(gap.code, "gauging.kit_gap");
  EXPECT_EQ(argument(gap, "below"), "75.9000");
  EXPECT_EQ(argument(gap, "above"), "78.8000");
  EXPECT_EQ(argument(gap, "washer_from"), "1.4000");
  EXPECT_EQ(refused(kit, "95 mm").code, "gauging.kit_outside_range");
}

/// What the problem names would really do.
TEST(GaugeKit, TheNamedWasherAndRodDoIt) {
  GaugeKit kit{all({"75 mm", "80 mm"}), all({"1 mm"}), {}, RodsReach::middle_of_travel, typed("1.2 mm"), {}, {}, {}};
  const Problem gap = refused(kit, "77.5 mm");
  GaugeKit with_washer = kit;
  with_washer.washers.push_back(typed(argument(gap, "washer_from") + " mm"));
  EXPECT_TRUE(put_together(with_washer, "77.5 mm").best.in_the_span);
  GaugeKit with_rod = kit;
  with_rod.rods.push_back(typed(argument(gap, "rod_to") + " mm"));
  EXPECT_TRUE(put_together(with_rod, "77.5 mm").best.in_the_span);
}

TEST(GaugeKit, AKitThatCannotBeIsRefused) {
  GaugeKit kit = usual();
  EXPECT_EQ(code_of(kit), "");
  kit.rods.clear();
  EXPECT_EQ(code_of(kit), "gauging.kit_no_rods");
  kit = usual();
  kit.washers[1] = typed("-1 mm");
  EXPECT_EQ(code_of(kit), "gauging.kit_not_positive");
  kit = usual();
  kit.washers.assign(kMostWashers + 1, typed("1 mm"));
  EXPECT_EQ(code_of(kit), "gauging.kit_too_many");
  kit.washers.pop_back();
  EXPECT_EQ(code_of(kit), "");
  kit.least_pressed = typed("0.6 mm");
  EXPECT_EQ(code_of(kit), "gauging.kit_least_pressed");
  kit = usual();
  kit.range_from = typed("100 mm");
  kit.range_to = typed("50 mm");
  EXPECT_EQ(code_of(kit), "gauging.kit_range");
  const Gauge mic{"mic", "outside-micrometer-75-100-mm", {}, {}, {}, {}, {}, {}, {}, usual()};
  const auto refused_gauge = know_gauge(mic, catalogue().gauge_presets, {});
  ASSERT_FALSE(refused_gauge.ok());
  EXPECT_EQ(refused_gauge.problems().front().code, "gauging.kit_not_for");
}

/// Every way to put the pieces together, one by one and without a thought, in whole micrometres.
struct Tried {
  std::int64_t pressed;  ///< twice, so that half a travel is whole
  std::vector<std::int64_t> washers;
  std::int64_t rod;
  std::int64_t extension;
};

struct RandomKit {
  std::vector<std::int64_t> rods, washers, extensions;
  std::int64_t travel, least, wanted;
  bool middle;
};

void try_washers(const RandomKit& kit, std::size_t next, Tried so_far, std::vector<Tried>& out) {
  if (next == kit.washers.size()) {
    const bool usable = so_far.pressed >= 2 * kit.least && so_far.pressed <= 2 * kit.travel;
    if (usable) out.push_back(so_far);
    return;
  }
  try_washers(kit, next + 1, so_far, out);
  so_far.pressed += 2 * kit.washers[next];
  so_far.washers.push_back(kit.washers[next]);
  try_washers(kit, next + 1, so_far, out);
}

std::vector<Tried> try_everything(const RandomKit& kit) {
  std::vector<Tried> out;
  std::vector<std::int64_t> extensions = kit.extensions;
  extensions.push_back(0);
  for (std::int64_t rod : kit.rods) {
    for (std::int64_t extension : extensions) {
      try_washers(kit, 0, {2 * (rod + extension - kit.wanted) + (kit.middle ? kit.travel : 0), {}, rod, extension}, out);
    }
  }
  return out;
}

bool in_span(const Tried& tried, const RandomKit& kit) { return 3 * tried.pressed >= 2 * kit.travel && tried.pressed <= kit.travel; }

TypedQuantity micrometres(std::int64_t um) { return typed(std::to_string(um) + " µm"); }

std::vector<TypedQuantity> micrometres(const std::vector<std::int64_t>& um) {
  std::vector<TypedQuantity> out;
  for (std::int64_t each : um) out.push_back(micrometres(each));
  return out;
}

class KitMaker {
 public:
  explicit KitMaker(std::uint64_t seed) : random_(Xoshiro256::stream(seed, 0)) {}

  RandomKit next() {
    RandomKit kit{some(1, 4, 70'000, 90'000, 500), some(0, 5, 250, 3'000, 250), some(0, 2, 10'000, 20'000, 1'000), 0, 0, 0, below(2) == 1};
    kit.travel = 800 + below(8) * 100 + below(2);
    kit.least = below(3) * 50;
    kit.wanted = 71'000 + below(24'000);
    return kit;
  }

 private:
  std::int64_t below(std::int64_t end) { return static_cast<std::int64_t>(random_.next() % static_cast<std::uint64_t>(end)); }
  std::vector<std::int64_t> some(std::int64_t fewest, std::int64_t most, std::int64_t from, std::int64_t to, std::int64_t step) {
    std::vector<std::int64_t> out(static_cast<std::size_t>(fewest + below(most - fewest + 1)));
    for (auto& each : out) each = from + below((to - from) / step + 1) * step;
    return out;
  }

  Xoshiro256 random_;
};

void expect_best(const RandomKit& random) {
  const GaugeKit kit{micrometres(random.rods),   micrometres(random.washers), micrometres(random.extensions),
                     random.middle ? RodsReach::middle_of_travel : RodsReach::contact_free,
                     micrometres(random.travel), micrometres(random.least),   {}, {}};
  const auto found = assemble(known(kit), length(std::to_string(random.wanted) + " µm"), "bg", UnitId::millimetre);
  const std::vector<Tried> tried = try_everything(random);
  ASSERT_EQ(found.ok(), !tried.empty());
  if (tried.empty()) return;
  const Assembly& best = found.value().best;
  // What was chosen is one of the ways, with its own washers and no piece twice.
  const auto counts = [](std::int64_t um) { return Length::counts(um * 10'000); };
  const auto is_chosen = [&](const Tried& each) {
    auto washers = each.washers;
    std::sort(washers.rbegin(), washers.rend());
    return counts(each.rod) == best.rod.length && (best.extension ? best.extension->length : Length()) == counts(each.extension) &&
           std::equal(washers.begin(), washers.end(), best.washers.begin(), best.washers.end(),
                      [&](std::int64_t um, const KitPiece& piece) { return counts(um) == piece.length; });
  };
  const auto chosen = std::find_if(tried.begin(), tried.end(), is_chosen);
  ASSERT_NE(chosen, tried.end()) << said(best);
  EXPECT_EQ(best.pressed_in, Length::counts(chosen->pressed * 5'000));
  EXPECT_EQ(best.in_the_span, in_span(*chosen, random));
  const auto off = [&](const Tried& each) { return std::abs(12 * each.pressed - 10 * random.travel); };
  for (const Tried& each : tried) {
    if (in_span(each, random)) {
      ASSERT_TRUE(best.in_the_span);
      EXPECT_GE(each.washers.size(), best.washers.size());
      if (each.washers.size() == best.washers.size()) {
        EXPECT_GE(off(each), off(*chosen));
      }
    } else if (!best.in_the_span) {
      EXPECT_GE(off(each), off(*chosen));
    }
  }
  // One other way at least, or none.
  std::set<std::vector<std::int64_t>> ways;
  for (const Tried& each : tried) {
    auto way = each.washers;
    std::sort(way.begin(), way.end());
    way.push_back(each.rod);
    way.push_back(each.extension);
    ways.insert(way);
  }
  EXPECT_EQ(found.value().next_best.has_value(), ways.size() > 1);
  if (found.value().next_best) {
    EXPECT_NE(said(*found.value().next_best), said(best));
  }
}

TEST(GaugeKit, NothingIsBetterThanWhatIsChosen) {
  KitMaker maker(27);
  std::size_t in_the_span = 0;
  std::size_t none = 0;
  constexpr int kKits = 3000;
  for (int i = 0; i < kKits; ++i) {
    SCOPED_TRACE(i);
    const RandomKit kit = maker.next();
    const auto tried = try_everything(kit);
    none += tried.empty() ? 1U : 0U;
    in_the_span += std::any_of(tried.begin(), tried.end(), [&](const Tried& each) { return in_span(each, kit); }) ? 1U : 0U;
    expect_best(kit);
  }
  // All three answers came often.
  EXPECT_GT(none, 100U);
  EXPECT_GT(in_the_span, 300U);
  EXPECT_GT(kKits - none - in_the_span, 100U);
}

TEST(GaugeKit, TheOrderOfThePiecesDoesNotMatter) {
  KitMaker maker(28);
  for (int i = 0; i < 200; ++i) {
    RandomKit random = maker.next();
    const auto chosen = [&] {
      const GaugeKit kit{micrometres(random.rods),   micrometres(random.washers), micrometres(random.extensions), RodsReach::contact_free,
                         micrometres(random.travel), micrometres(random.least),   {}, {}};
      const auto found = assemble(known(kit), length(std::to_string(random.wanted) + " µm"), "bg", UnitId::millimetre);
      if (!found.ok()) return found.problems().front().code;
      return said(found.value().best) + " / " + (found.value().next_best ? said(*found.value().next_best) : "");
    };
    const std::string before = chosen();
    std::reverse(random.rods.begin(), random.rods.end());
    std::reverse(random.washers.begin(), random.washers.end());
    std::reverse(random.extensions.begin(), random.extensions.end());
    EXPECT_EQ(chosen(), before);
  }
}

}  // namespace
}  // namespace fettle
