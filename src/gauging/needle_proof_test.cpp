#include "gauging/needle_proof.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "catalogue/catalogue.h"

namespace fettle {
namespace {

TypedQuantity typed(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(); }
Length length(const std::string& text) { return *exact_length(typed(text).quantity); }

KnownGauge gauge(const std::string& preset, NeedleSide pressed_in, const std::string& turn = "") {
  Gauge gauge{"g", preset, {}, {}, pressed_in, {}, {}, {}, {}};
  if (!turn.empty()) gauge.turn = typed(turn);
  return know_gauge(gauge, catalogue().gauge_presets, {}).value();
}

KnownGauge mic(const std::string& preset) { return know_gauge({"mic", preset, {}, {}, {}, {}, {}, {}, {}}, catalogue().gauge_presets, {}).value(); }

struct Bench {
  KnownGauge bore = gauge("dial-bore-gauge-0-001-mm", NeedleSide::clockwise);
  KnownGauge master = mic("outside-micrometer-3-4-in");
  std::optional<Length> out = length("0.4 mm");
  std::optional<Length> in = length("0.7 mm");

  [[nodiscard]] std::optional<NeedleProof> prove(const std::string& wanted = "84 mm") const {
    return prove_needle({bore, master, thimble_choice(master, length(wanted))->nearest, out, in});
  }
};

TEST(NeedleProof, TheMasterIsOpenedByWhatItsThimbleShows) {
  // A turn is 200 divisions. .003 in = 76.2 µm: right at 76.2 anticlockwise, reversed at 76.2 clockwise = 123.8 anticlockwise, halved
  // division at 152.4, doubled at 38.1: 28.6 divisions apart at least. .002 in (50.8): 25.4; .004 in (101.6): the reversed needle would
  // stand 3.2 divisions from the right place; so .003.
  const auto proof = Bench().prove();
  ASSERT_TRUE(proof.has_value());
  EXPECT_TRUE(proof->opens);
  EXPECT_EQ(proof->amount.digits, "0.003");
  EXPECT_EQ(proof->from.digits, "3.307");
  EXPECT_EQ(proof->to.digits, "3.310");
  EXPECT_EQ(proof->right.low, 76);
  EXPECT_EQ(proof->right.high, 77);
  EXPECT_EQ(proof->right.exact.turns, 0);
  EXPECT_EQ(proof->right.exact.side, NeedleSide::anticlockwise);  // a larger hole lets the contact out
  EXPECT_EQ(proof->reversed.low, 76);
  EXPECT_EQ(proof->reversed.exact.side, NeedleSide::clockwise);
  EXPECT_EQ(proof->half.exact.divisions, Ratio::of(1524, 10));
  EXPECT_EQ(proof->half.exact.side, NeedleSide::anticlockwise);
  EXPECT_EQ(proof->twice.exact.divisions, Ratio::of(381, 10));
  EXPECT_EQ(proof->twice.exact.side, NeedleSide::anticlockwise);
}

TEST(NeedleProof, TheOtherSense) {
  Bench bench;
  bench.bore = gauge("dial-bore-gauge-0-001-mm", NeedleSide::anticlockwise);
  const auto proof = bench.prove();
  EXPECT_EQ(proof->right.exact.side, NeedleSide::clockwise);
  EXPECT_EQ(proof->reversed.exact.side, NeedleSide::anticlockwise);
}

TEST(NeedleProof, ItStaysInsideTheTravelThatIsLeft) {
  // 60 µm left outward: .002 in = 50.8 µm is the most.
  Bench bench;
  bench.out = length("0.06 mm");
  const auto proof = bench.prove();
  EXPECT_EQ(proof->amount.digits, "0.002");
  EXPECT_EQ(proof->right.low, 50);
  EXPECT_EQ(proof->right.high, 51);
  // Nothing left outward: it is closed, the contact goes in, the needle runs clockwise.
  bench.out = length("0.01 mm");
  const auto closed = bench.prove();
  EXPECT_FALSE(closed->opens);
  EXPECT_EQ(closed->to.digits, "3.304");
  EXPECT_EQ(closed->right.exact.side, NeedleSide::clockwise);
  bench.in = length("0.01 mm");
  EXPECT_FALSE(bench.prove().has_value());
}

TEST(NeedleProof, ItStaysInsideTheRangeOfTheMaster) {
  // 101.6 mm = 4 in is where the micrometer ends.
  const auto proof = Bench().prove("101.6 mm");
  EXPECT_FALSE(proof->opens);
  EXPECT_EQ(proof->to.digits, "3.997");
}

TEST(NeedleProof, ADialWhoseTurnIsNotKnown) {
  // .0005 in dial: at most 50 divisions = .025 in; a farther needle tells better.
  Bench bench;
  bench.bore = gauge("dial-bore-gauge-0-0005-in", NeedleSide::clockwise);
  bench.out = length("1 mm");
  const auto proof = bench.prove();
  EXPECT_EQ(proof->amount.digits, "0.024");  // below 50 divisions
  EXPECT_EQ(proof->right.low, 48);
  EXPECT_EQ(proof->right.high, 48);          // on a line
  bench.out = std::nullopt;                  // nothing known of the travel
  EXPECT_EQ(bench.prove()->right.low, 48);
}

TEST(NeedleProof, TheFourPlacesNeverMeet) {
  // Whatever dial and micrometer: less than a turn, and the places as seen on the dial lie 4 divisions apart or more.
  for (const char* turn : {"0.1 mm", "0.2 mm", "0.5 mm", "1 mm", "0.13 mm"}) {
    for (const char* master : {"outside-micrometer-3-4-in", "outside-micrometer-75-100-mm"}) {
      Bench bench;
      bench.bore = gauge("dial-bore-gauge-0-001-mm", NeedleSide::clockwise, turn);
      bench.master = mic(master);
      bench.out = std::nullopt;
      const auto proof = bench.prove();
      ASSERT_TRUE(proof.has_value()) << turn << master;
      const double circle = length(turn).millimetres() * 1000.0;
      std::vector<double> places;
      for (const NeedleBetween* each : {&proof->right, &proof->reversed, &proof->half, &proof->twice}) {
        const double on_dial = each->exact.divisions.to_double();
        places.push_back(each->exact.side == NeedleSide::clockwise ? on_dial : circle - on_dial);
      }
      EXPECT_EQ(proof->right.exact.turns, 0);
      for (std::size_t i = 0; i < places.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
          const double way = std::abs(places[i] - places[j]);
          EXPECT_GE(std::min(way, circle - way), 4.0) << turn << " " << i << " " << j;
        }
      }
    }
  }
}

}  // namespace
}  // namespace fettle
