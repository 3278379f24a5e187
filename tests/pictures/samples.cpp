#include "pictures/samples.h"

#include "pictures/dial.h"
#include "pictures/doubt_bar.h"
#include "pictures/face_map.h"
#include "pictures/gauge_head.h"
#include "pictures/rod_row.h"
#include "pictures/run_out.h"
#include "pictures/section_plan.h"
#include "pictures/thimble.h"
#include "pictures/wear_map.h"

namespace fettle {
namespace {

const std::string kLongName = "Donaudampfschifffahrtsgesellschaftskapitaenskajuetenzylinder";  // sixty letters

Length mm(double value) { return Length::counts(static_cast<std::int64_t>(value * 1e7 + (value < 0 ? -0.5 : 0.5))); }
Length inches(std::int64_t ten_thousandths) { return Length::counts(ten_thousandths * 25'400); }

Station station(const std::string& id, StationRole role, std::optional<Length> depth = std::nullopt) {
  Station out{id, role, role != StationRole::reference, depth};
  return out;
}
Direction direction(const std::string& id, int degrees) { return {id, Ratio(degrees), true}; }

Layout bore_layout() {
  return {{station("top", StationRole::first, mm(12)), station("mid", StationRole::middle, mm(50)),
           station("bottom", StationRole::last, mm(95)), station("foot", StationRole::reference, mm(118))},
          {direction("thrust", 0), direction("pin", 90)}};
}
Layout journal_layout() {
  return {{station("front", StationRole::first), station("mid", StationRole::middle), station("rear", StationRole::last)},
          {direction("vertical", 0), direction("horizontal", 90)}};
}
Layout piston_layout() {
  Layout out{{station("skirt", StationRole::first, mm(62))}, {direction("across", 0), direction("along", 90)}};
  return out;
}
Layout large_layout() {
  Layout out;
  for (int s = 0; s < 12; ++s) out.stations.push_back(station("height " + std::to_string(s + 1), StationRole::inner, mm(5.0 + 9.25 * s)));
  for (int d = 0; d < 8; ++d) out.directions.push_back(direction("at " + std::to_string(d * 22), d * 22));
  return out;
}
Layout single_layout() { return {{station("mid", StationRole::middle)}, {direction("thrust", 0)}}; }
Layout long_named_layout() {
  return {{station(kLongName, StationRole::first, mm(1234567.891)), station(kLongName + "2", StationRole::last, mm(1234569))},
          {direction(kLongName, 0), direction(kLongName + "3", 45), direction(kLongName + "4", 90)}};
}
Layout face_layout() {
  const auto line = [](const std::string& id, const std::string& group) {
    Station out = station(id, StationRole::inner);
    out.group = group;
    return out;
  };
  return {{line("long-1", "long"), line("long-2", "long"), line("cross-1", "cross"), line("cross-2", "cross"), line("cross-3", "cross"),
           line("diagonal-1", "diagonal"), line("diagonal-2", "diagonal")},
          {direction("gap", 0)}};
}

using Samples = std::vector<SamplePicture>;

void add_part(Samples& out, const std::string& name, const PartToDraw& part, Language language) {
  out.push_back({name + "-section", section_picture(part, language)});
  out.push_back({name + "-plan", plan_picture(part, language)});
}

void add_parts(Samples& out, Language language) {
  const std::string bore = language == Language::german ? "Bohrung 2" : "Bore 2";
  PartToDraw part{bore, "cylinder-bore", Feature::inside, bore_layout(), UnitId::millimetre, "exhaust", std::nullopt};
  add_part(out, "bore", part, language);
  for (const std::size_t lit : {0U, 1U, 5U, 6U}) {
    part.lit = lit;
    add_part(out, "bore-lit-" + std::to_string(lit), part, language);
  }
  part.unit = UnitId::inch;
  part.lit = 3;
  part.thrust_side = kLongName;
  add_part(out, "bore-inch", part, language);
  PartToDraw journal{"Main 3", "main-journal", Feature::outside, journal_layout(), UnitId::millimetre, std::nullopt, std::nullopt};
  add_part(out, "journal", journal, language);
  for (const std::size_t lit : {0U, 3U, 4U}) {
    journal.lit = lit;
    add_part(out, "journal-lit-" + std::to_string(lit), journal, language);
  }
  PartToDraw piston{"Piston 1", "piston", Feature::outside, piston_layout(), UnitId::millimetre, "exhaust", 0U};
  add_part(out, "piston-lit-0", piston, language);
  piston.lit = 1U;
  add_part(out, "piston-lit-1", piston, language);
  for (const std::optional<std::size_t> lit : {std::optional<std::size_t>(), std::optional<std::size_t>(35), std::optional<std::size_t>(95)}) {
    const std::string end = lit ? "-lit-" + std::to_string(*lit) : "";
    add_part(out, "large-bore" + end, {bore, "bearing-housing", Feature::inside, large_layout(), UnitId::millimetre, "exhaust", lit}, language);
    add_part(out, "large-journal" + end, {"Main 3", "crankpin", Feature::outside, large_layout(), UnitId::inch, std::nullopt, lit}, language);
    add_part(out, "large-figure" + end, {"Face", "face", Feature::figure, large_layout(), UnitId::inch, std::nullopt, lit}, language);
  }
  add_part(out, "single", {bore, "cylinder-bore", Feature::inside, single_layout(), UnitId::millimetre, std::nullopt, 0U}, language);
  for (const Feature feature : {Feature::inside, Feature::outside, Feature::figure}) {
    add_part(out, "long-names-" + std::string(feature_name(feature)), {kLongName, "x", feature, long_named_layout(), UnitId::millimetre, kLongName, 4U}, language);
  }
  add_part(out, "face-places", {"Head", "face", Feature::figure, face_layout(), UnitId::millimetre, std::nullopt, 2U}, language);
}

NeedlePlace needle(std::int64_t turns, int halves, NeedleSide side) { return {turns, Ratio::of(halves, 2), side}; }

void add_dials(Samples& out, Language language) {
  const auto acw = NeedleSide::anticlockwise;
  const auto cw = NeedleSide::clockwise;
  DialToDraw usual{mm(0.001), mm(0.2), UnitId::millimetre, needle(0, 142, acw),
                   {{"service limit 78.100", needle(0, 176, acw), needle(0, 166, acw), true}, {"new limit 78.000", needle(0, 24, cw), needle(0, 34, cw), true}}};
  out.push_back({"dial", dial_picture(usual, language)});
  usual.needle = std::nullopt;
  usual.pointers[0].at_limit = needle(0, 288, acw);
  usual.pointers[0].guarded = needle(0, 276, acw);
  out.push_back({"dial-past-half", dial_picture(usual, language)});
  DialToDraw coarse{mm(0.01), mm(1), UnitId::millimetre, needle(1, 24, cw), {{"limit", needle(2, 25, acw), std::nullopt, false}}};
  out.push_back({"dial-coarse", dial_picture(coarse, language)});
  DialToDraw inch{Length::counts(25'400), Length::counts(2'540'000), UnitId::inch, NeedlePlace{0, Ratio(0), std::nullopt}, {}};
  out.push_back({"dial-inch", dial_picture(inch, language)});
  DialToDraw unknown{mm(0.001), std::nullopt, UnitId::millimetre, std::nullopt, {}};
  for (int i = 0; i < 9; ++i) unknown.pointers.push_back({kLongName + " " + kLongName, needle(0, 80 + i, acw), needle(0, 78 + i, acw), i % 2 == 0});
  out.push_back({"dial-unknown", dial_picture(unknown, language)});
  out.push_back({"dial-one-division", dial_picture({mm(1), mm(1), UnitId::millimetre, std::nullopt, {}}, language)});
  out.push_back({"dial-huge", dial_picture({Length::counts(1), mm(100), UnitId::millimetre, needle(0, 2'000'000'00, acw), {}}, language)});
}

ThimblePlace shown_at(Length shown, UnitId unit, int decimals) { return {shown, in_unit(shown.ratio(), unit, decimals), unit, shown, Length()}; }

void add_thimbles(Samples& out, Language language) {
  const auto add = [&](const std::string& name, Length shown, UnitId unit, bool vernier, std::optional<Length> from) {
    const int decimals = (unit == UnitId::inch ? 3 : 2) + (vernier ? 1 : 0);
    out.push_back({"thimble-" + name, thimble_picture(shown_at(shown, unit, decimals), {unit, vernier}, from, language)});
  };
  add("w01", inches(2862), UnitId::inch, true, std::nullopt);
  add("w02", mm(22.36), UnitId::millimetre, false, std::nullopt);
  add("inch-3-4", inches(33070), UnitId::inch, false, inches(30000));
  add("inch-vernier", inches(30709), UnitId::inch, true, inches(30000));
  add("metric-vernier", mm(83.998), UnitId::millimetre, true, mm(75));
  add("metric-half", mm(7.5), UnitId::millimetre, false, std::nullopt);
  add("zero", Length(), UnitId::inch, true, std::nullopt);
  add("full", mm(50), UnitId::millimetre, true, mm(25));
  add("full-inch", inches(40000), UnitId::inch, false, inches(30000));
}

KitPiece piece(const std::string& text, double length) { return {text, mm(length)}; }

void add_rods(Samples& out, Language language) {
  Assembly usual{piece("75 mm", 75), std::nullopt, {piece("2 mm", 2), piece("0.5 mm", 0.5)}, mm(78.5), mm(0.5), mm(0.4), mm(0.7), true};
  out.push_back({"rods", rod_row_picture(usual, mm(78), UnitId::millimetre, language)});
  Assembly bare{piece("75 mm", 75), std::nullopt, {}, mm(75.5), mm(0), mm(0), mm(1.2), true};
  out.push_back({"rods-bare", rod_row_picture(bare, mm(75), UnitId::millimetre, language)});
  Assembly many = usual;
  many.extension = piece("100 mm", 100);
  many.washers.clear();
  for (int i = 0; i < 12; ++i) many.washers.push_back(piece(std::to_string(12 - i) + " mm", 12.0 - i));
  many.pressed_in = mm(1.2);
  many.left_for_smaller = mm(0);
  out.push_back({"rods-many", rod_row_picture(many, mm(278.25), UnitId::inch, language)});
}

WearToDraw wear(const std::string& name, Feature feature, Layout layout, std::vector<std::optional<double>> sizes, UnitId unit) {
  return {name, feature, std::move(layout), std::move(sizes), std::nullopt, unit, false};
}

void add_wear(Samples& out, Language language) {
  const auto bore = [](std::vector<int> acw) {
    std::vector<std::optional<double>> sizes;
    for (const int each : acw) sizes.push_back(each < 0 ? std::nullopt : std::optional(83.9978 + each / 1000.0));
    return sizes;
  };
  out.push_back({"wear-bore", wear_map_picture(wear("Bore 2", Feature::inside, bore_layout(), bore({144, 110, 72, 60, 28, 24, 15, 15}), UnitId::millimetre), language)});
  out.push_back({"wear-bore-inch", wear_map_picture(wear("Bore 1", Feature::inside, bore_layout(), bore({57, 48, 32, 29, 19, 18, 14, 13}), UnitId::inch), language)});
  WearToDraw holes = wear("Bore 3", Feature::inside, bore_layout(), bore({100, 72, -1, 42, 22, -1, 16, 14}), UnitId::millimetre);
  holes.unworn = 84.005;
  holes.estimated = true;
  out.push_back({"wear-holes", wear_map_picture(holes, language)});
  out.push_back({"wear-journal", wear_map_picture(wear("Main 3", Feature::outside, journal_layout(), {57.982, 57.990, 57.975, 57.988, 57.985, 57.991}, UnitId::millimetre), language)});
  out.push_back({"wear-none", wear_map_picture(wear("Bore 3", Feature::inside, bore_layout(), bore({-1, -1, -1, -1, -1, -1, -1, -1}), UnitId::millimetre), language)});
  out.push_back({"wear-even", wear_map_picture(wear("Bore 3", Feature::inside, bore_layout(), bore({10, 10, 10, 10, 10, 10, 10, 10}), UnitId::millimetre), language)});
  out.push_back({"wear-one", wear_map_picture(wear(kLongName, Feature::inside, single_layout(), {84.0}, UnitId::millimetre), language)});
  std::vector<std::optional<double>> many;
  for (int i = 0; i < 96; ++i) many.push_back(i % 17 == 5 ? std::nullopt : std::optional(84.0 + 0.15 / (1 + i / 8) + 0.004 * (i % 8)));
  out.push_back({"wear-large", wear_map_picture(wear("Bore 9", Feature::inside, large_layout(), many, UnitId::millimetre), language)});
  for (auto& each : many) {
    if (each) each = *each * 1000.0;
  }
  WearToDraw huge = wear(kLongName, Feature::outside, large_layout(), many, UnitId::millimetre);
  huge.unworn = 1.0;
  out.push_back({"wear-huge", wear_map_picture(huge, language)});
  out.push_back({"wear-long-names", wear_map_picture(wear(kLongName, Feature::inside, long_named_layout(), {84.1, 84.05, 84.08, 84.0, 84.01, 84.02}, UnitId::inch), language)});
}

void add_bars(Samples& out, Language language) {
  const auto add = [&](const std::string& name, const DoubtBar& bar) { out.push_back({"bar-" + name, doubt_bar_picture(bar, language)}); };
  const auto bar = [](std::optional<double> limit, LimitSide side, std::optional<double> measured, std::optional<BarEstimate> estimate, VerdictWord word_of) {
    return DoubtBar{"Bore 3 · largest size", ResultDimension::length, UnitId::millimetre, limit, side, measured, estimate, word_of};
  };
  add("within", bar(84.1, LimitSide::at_most, 84.0548, BarEstimate{84.049, 84.054, 84.059}, VerdictWord::within));
  add("beyond", bar(84.1, LimitSide::at_most, 84.1418, BarEstimate{84.135, 84.141, 84.146}, VerdictWord::beyond));
  add("close", bar(84.1, LimitSide::at_most, 84.0978, BarEstimate{84.092, 84.097, 84.102}, VerdictWord::too_close));
  add("at-least", bar(57.95, LimitSide::at_least, 57.982, BarEstimate{57.976, 57.981, 57.987}, VerdictWord::within));
  add("no-estimate", bar(0.04, LimitSide::at_most, 0.056, std::nullopt, VerdictWord::beyond));
  add("no-limit", bar(std::nullopt, LimitSide::at_most, 0.056, BarEstimate{0.05, 0.055, 0.06}, VerdictWord::not_judged));
  add("nothing", bar(std::nullopt, LimitSide::at_most, std::nullopt, std::nullopt, VerdictWord::not_judged));
  add("only-limit", bar(84.1, LimitSide::at_most, std::nullopt, std::nullopt, VerdictWord::not_judged));
  add("far", bar(0.04, LimitSide::at_most, 25.1, BarEstimate{25.09, 25.1, 25.11}, VerdictWord::beyond));
  add("far-below", bar(84.1, LimitSide::at_least, 12.0, BarEstimate{11.99, 12.0, 12.01}, VerdictWord::beyond));
  add("huge", bar(1e6, LimitSide::at_most, 9.99e6, std::nullopt, VerdictWord::beyond));
  add("zero", bar(0.0, LimitSide::at_most, 0.0, BarEstimate{0.0, 0.0, 0.0}, VerdictWord::within));
  add("negative", bar(-0.02, LimitSide::at_least, -0.05, BarEstimate{-0.055, -0.05, -0.045}, VerdictWord::beyond));
  DoubtBar ratio = bar(0.0005, LimitSide::at_most, 0.00061, BarEstimate{0.00052, 0.0006, 0.00066}, VerdictWord::beyond);
  ratio.dimension = ResultDimension::ratio;
  add("ratio", ratio);
  DoubtBar inch = bar(3.308 * 25.4, LimitSide::at_most, 3.3071 * 25.4, BarEstimate{3.3068 * 25.4, 3.307 * 25.4, 3.3073 * 25.4}, VerdictWord::within);
  inch.unit = UnitId::inch;
  inch.name = kLongName;
  add("inch", inch);
  for (const VerdictWord each : {VerdictWord::within, VerdictWord::too_close, VerdictWord::beyond, VerdictWord::not_judged}) {
    out.push_back({"mark-" + std::string(verdict_word_name(each)), state_mark_picture(each, language)});
  }
}

void add_faces(Samples& out, Language language) {
  out.push_back({"face", face_map_picture({"Head", face_layout(), {0.03, 0.02, 0.02, 0.05, 0.02, 0.08, 0.04}, UnitId::millimetre}, language)});
  out.push_back({"face-holes", face_map_picture({kLongName, face_layout(), {0.03, std::nullopt, 0.02, std::nullopt, 0.02, std::nullopt, 1234.5}, UnitId::inch}, language)});
  out.push_back({"face-none", face_map_picture({"Head", single_layout(), {std::nullopt}, UnitId::millimetre}, language)});
  Layout many = large_layout();
  for (std::size_t i = 0; i < many.stations.size(); ++i) many.stations[i].group = i < 4 ? "long" : i < 9 ? "cross" : "diagonal";
  std::vector<std::optional<double>> gaps(96, 0.05);
  out.push_back({"face-many", face_map_picture({"Deck", many, gaps, UnitId::millimetre}, language)});
}

void add_clocks(Samples& out, Language language) {
  const auto name = [&](int hour) { return std::to_string(hour) + (language == Language::german ? " Uhr" : " o'clock"); };
  out.push_back({"clock", run_out_picture({"Housing", {{name(12), 0, 0.0}, {name(3), 90, 0.0762}, {name(6), 180, -0.0508}, {name(9), 270, 0.0762}}, UnitId::inch}, language)});
  out.push_back({"clock-mm", run_out_picture({"Housing", {{name(12), 0, 0.0}, {name(3), 90, 0.05}, {name(6), 180, -0.03}, {name(9), 270, std::nullopt}}, UnitId::millimetre}, language)});
  out.push_back({"clock-zero", run_out_picture({"Housing", {{name(12), 0, 0.0}, {name(6), 180, 0.0}}, UnitId::millimetre}, language)});
  out.push_back({"clock-none", run_out_picture({"Housing", {{name(12), 0, std::nullopt}}, UnitId::millimetre}, language)});
  RunOutToDraw many{kLongName, {}, UnitId::millimetre};
  for (int i = 0; i < 12; ++i) many.readings.push_back({kLongName, 30.0 * i, i == 4 ? std::nullopt : std::optional(0.02 * (i % 5) - 0.04)});
  out.push_back({"clock-many", run_out_picture(many, language)});
  out.push_back({"clock-huge", run_out_picture({"Housing", {{kLongName, 0, -12345.678}, {kLongName, 90, 99999.5}, {kLongName, 200, 3.0}}, UnitId::millimetre}, language)});
}

}  // namespace

std::vector<SamplePicture> sample_pictures(Language language) {
  Samples out;
  add_parts(out, language);
  add_dials(out, language);
  add_thimbles(out, language);
  add_rods(out, language);
  for (const std::optional<NeedleSide> side : {std::optional<NeedleSide>(), std::optional(NeedleSide::clockwise), std::optional(NeedleSide::anticlockwise)}) {
    out.push_back({side ? (*side == NeedleSide::clockwise ? "head-clockwise" : "head-anticlockwise") : "head-ask", gauge_head_picture(side, language)});
  }
  add_wear(out, language);
  add_bars(out, language);
  add_faces(out, language);
  add_clocks(out, language);
  return out;
}

}  // namespace fettle
