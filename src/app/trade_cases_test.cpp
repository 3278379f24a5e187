// Runs the plain-text cases of tests/outside/trade: what books of the trade work out on paper, through the program's
// own functions. Above 400 lines: one small reader serves a dozen short checks.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <set>

#include "app/judge_job.h"
#include "catalogue/figure.h"
#include "gauging/expansion.h"
#include "gauging/hand_errors.h"
#include "gauging/known_setting.h"
#include "gauging/needle.h"
#include "job/fold.h"
#include "job/folder.h"
#include "verdict/doubt.h"

namespace fettle {
namespace {

struct Row {
  std::string key;  ///< "given", "expected", "station" ...
  std::string words;
  std::string place;
};

struct TradeCase {
  std::string name;
  std::vector<Row> rows;
};

std::vector<Row> read_rows(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::vector<Row> out;
  std::string text;
  for (int number = 1; std::getline(file, text); ++number) {
    if (text.empty() || text.front() == '#') continue;
    const std::string place = path.filename().string() + ":" + std::to_string(number);
    const auto colon = text.find(": ");
    FETTLE_ASSERT(colon != std::string::npos, place);
    out.push_back({text.substr(0, colon), text.substr(colon + 2), place});
  }
  return out;
}

std::vector<TradeCase> cases_of(const std::filesystem::path& path) {
  std::set<std::string> head;
  std::vector<TradeCase> out;
  for (const Row& row : read_rows(path)) {
    if (row.key == "case") {
      FETTLE_ASSERT(head == (std::set<std::string>{"source", "page", "grade"}), row.place);
      out.push_back({path.filename().string() + ", " + row.words, {}});
    } else if (out.empty()) {
      head.insert(row.key);
    } else {
      out.back().rows.push_back(row);
    }
  }
  FETTLE_ASSERT(!out.empty(), path.string());
  return out;
}

std::vector<TradeCase> all_cases() {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(FETTLE_SOURCE_DIR "/tests/outside/trade")) {
    if (entry.path().extension() == ".txt") paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<TradeCase> out;
  for (const auto& path : paths) {
    const auto more = cases_of(path);
    out.insert(out.end(), more.begin(), more.end());
  }
  return out;
}

std::vector<std::string> words_of(const TradeCase& each, const std::string& key) {
  std::vector<std::string> out;
  for (const Row& row : each.rows) {
    if (row.key == key) out.push_back(row.words);
  }
  return out;
}

std::string only(const TradeCase& each, const std::string& key) {
  const auto found = words_of(each, key);
  FETTLE_ASSERT(found.size() == 1, each.name + ": " + key);
  return found.front();
}

std::vector<std::pair<std::string, std::string>> pairs(const TradeCase& each, const std::string& key) {
  std::vector<std::pair<std::string, std::string>> out;
  for (const std::string& words : words_of(each, key)) {
    const auto equal = words.find(" = ");
    FETTLE_ASSERT(equal != std::string::npos, each.name + ": " + words);
    out.emplace_back(words.substr(0, equal), words.substr(equal + 3));
  }
  return out;
}

std::optional<std::string> perhaps(const TradeCase& each, const std::string& key, const std::string& name) {
  for (const auto& [left, right] : pairs(each, key)) {
    if (left == name) return right;
  }
  return std::nullopt;
}

std::string given(const TradeCase& each, const std::string& name) {
  const auto found = perhaps(each, "given", name);
  FETTLE_ASSERT(found.has_value(), each.name + ": " + name);
  return *found;
}

std::string expected(const TradeCase& each, const std::string& name) {
  const auto found = perhaps(each, "expected", name);
  FETTLE_ASSERT(found.has_value(), each.name + ": " + name);
  return *found;
}

Quantity quantity(const std::string& text) {
  const auto read = read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {});
  FETTLE_ASSERT(read.ok(), text);
  return read.value().quantity;
}

Ratio figure(const std::string& text) {
  const auto read = read_figure(text);
  FETTLE_ASSERT(read.has_value(), text);
  return *read;
}

/// In counts of 0.1 nm; a plain 0 is a length too.
Ratio length(const std::string& text) { return quantity(text).in_base(); }

Length exact(const std::string& text) {
  const auto read = exact_length(quantity(text));
  FETTLE_ASSERT(read.has_value(), text);
  return *read;
}

/// "0.05 µm, half of the last figure": the quantity before the comma; the reason is for the reader and must be there.
std::string tolerance_text(const TradeCase& each) {
  const std::string words = only(each, "tolerance");
  const auto comma = words.find(", ");
  FETTLE_ASSERT(comma != std::string::npos && comma + 2 < words.size(), each.name);
  return words.substr(0, comma);
}

void expect_length(const Ratio& counts, const TradeCase& each, const std::string& wanted) {
  EXPECT_LE(absolute(counts - length(wanted)), length(tolerance_text(each)))
      << each.name << ": " << wanted << ", got " << in_unit(counts, UnitId::micrometre, 4) << " µm";
}

NeedleSide side_called(const std::string& name) {
  FETTLE_ASSERT(name == "clockwise" || name == "anticlockwise", name);
  return name == "clockwise" ? NeedleSide::clockwise : NeedleSide::anticlockwise;
}

Ratio counts_of_mm(double mm) { return Ratio(static_cast<std::int64_t>(std::llround(mm * 1e13))) / Ratio(1'000'000); }

void check_sum(const TradeCase& each) {
  Length sum;
  for (const auto& [name, text] : pairs(each, "given")) {
    const auto times = text.find(" x ");
    const auto count = figure(text.substr(0, times)).whole64();
    FETTLE_ASSERT(times != std::string::npos && count, text);
    for (std::int64_t i = 0; i < *count; ++i) sum = sum + exact(text.substr(times + 3));
  }
  expect_length(sum.ratio(), each, expected(each, "sum"));
}

void check_same(const TradeCase& each) {
  const Quantity from = quantity(given(each, "quantity"));
  const Unit* unit = find_unit(expected(each, "in"));
  ASSERT_NE(unit, nullptr) << each.name;
  ASSERT_EQ(unit->dimension, from.dimension()) << each.name;
  const Quantity tolerance = quantity(tolerance_text(each));
  ASSERT_EQ(tolerance.unit, unit->id) << each.name;
  const Ratio value = (from.in_base() - unit->offset) / unit->factor;
  EXPECT_LE(absolute(value - figure(expected(each, "value"))), tolerance.value)
      << each.name << ": " << value.decimal(6);
}

void check_refused(const TradeCase& each) {
  const auto read = read_quantity(given(each, "text"), {{}, {}, DecimalMark::point, {}, false, {}}, {});
  ASSERT_FALSE(read.ok()) << each.name;
  EXPECT_EQ(read.problems().front().code, expected(each, "problem")) << each.name;
}

Ratio slope(const std::string& text) {
  const auto per = text.find(" per ");
  FETTLE_ASSERT(per != std::string::npos, text);
  const auto typed = [](const std::string& words) {
    return read_quantity(words, {{}, Dimension::length, DecimalMark::point, {}, false, {}}, {}).value();
  };
  const Limit limit{"l",
                    "cylinder-bore",
                    "tap-6",
                    LimitRole::service,
                    LimitSide::at_most,
                    typed(text.substr(0, per)),
                    typed(text.substr(per + 5)),
                    std::nullopt,
                    {"b", "", "1", "", false, false}};
  return bound_of(limit);
}

void check_slope(const TradeCase& each) {
  EXPECT_EQ(slope(given(each, "book")) == slope(given(each, "other")), expected(each, "same") == "yes") << each.name;
}

void check_needle(const TradeCase& each) {
  const int sense = size_per_clockwise(Feature::inside, side_called(given(each, "pressed")));
  const NeedlePlace place =
      needle_place(length(given(each, "deviation")), exact(given(each, "division")), exact(given(each, "turn")), sense);
  EXPECT_EQ(Ratio(place.turns), figure(expected(each, "turns"))) << each.name;
  EXPECT_EQ(place.divisions, figure(expected(each, "divisions"))) << each.name;
  EXPECT_EQ(place.side, side_called(expected(each, "side"))) << each.name;
}

Ratio growth(const TradeCase& each, const std::string& expansion) {
  const Ratio temperature = quantity(given(each, "temperature")).in_base();
  return thermal_growth(length(given(each, "length")), figure(given(each, expansion)), temperature);
}

void check_growth(const TradeCase& each) { expect_length(growth(each, "expansion"), each, expected(each, "growth")); }

void check_clearance(const TradeCase& each) {
  expect_length(growth(each, "hole expansion") - growth(each, "shaft expansion"), each, expected(each, "change"));
}

void check_tilt(const TradeCase& each) {
  const double error =
      tilt_error_mm(exact(given(each, "diameter")).millimetres(), figure(given(each, "degrees")).to_double());
  expect_length(counts_of_mm(error), each, expected(each, "error"));
}

void check_chord(const TradeCase& each) {
  const double error =
      chord_error_mm(exact(given(each, "diameter")).millimetres(), exact(given(each, "offset")).millimetres());
  expect_length(counts_of_mm(error), each, expected(each, "error"));
}

/// One place, one form, one source of standard uncertainty U / 2.
VerdictWord word_of_band(double limit_mm, double figure_mm, double u_mm) {
  const Expansion expansion{
      Sense::linear, ResultDimension::length, {{{{0, Ratio(1)}}, Ratio(), {{0}, {0}}}}, {}, {}, {0}, {}};
  const PartEstimate part{"p", {PlaceEstimate{0, {"r"}, counts_of_mm(figure_mm), figure_mm, {{0, 1.0}}}}};
  const std::vector<ErrorSource> sources{
      {"s", "dial", ErrorScope::reading, ErrorShape::normal, u_mm, std::nullopt, "given"}};
  constexpr double kLevelOfTwo = 0.97725;
  return weigh({expansion, part, sources, limit_mm, LimitSide::at_most}, kLevelOfTwo).word;
}

void check_band(const TradeCase& each) {
  const VerdictWord word =
      word_of_band(exact(given(each, "limit")).millimetres(), exact(given(each, "figure")).millimetres(),
                   exact(given(each, "expanded")).millimetres() / 2.0);
  EXPECT_EQ(verdict_word_name(word), expected(each, "word")) << each.name;
}

/// How far the nearest mark of the thimble lies from a nominal, as the program reports it.
Length off_nearest(Length nominal, const KnownGauge& micrometer) {
  const TypedQuantity wanted{
      "", {nominal.ratio() / Ratio(Length::kCountsPerMillimetre), UnitId::millimetre}, 4, {}, {}};
  const Setting setting{"s", "bg", "mic", wanted, {}, {}, {}, {}, {}, {}};
  const KnownSetting known{&setting, nullptr, &micrometer, nominal, 1, {}, {}, {}};
  const MasterReport report = report_master(known);
  FETTLE_ASSERT(report.nearest.has_value(), "no nearest mark");
  const Length off = *report.nearest - nominal;
  return off < Length() ? -off : off;
}

void check_nearest(const TradeCase& each) {
  const KnownGauge micrometer{"mic", nullptr, exact(given(each, "division")), {}, {}, {}, false, {}, {}};
  Length farthest;
  Length where;
  const Length to = exact(given(each, "to"));
  for (Length at = exact(given(each, "from")); at <= to; at = at + exact(given(each, "step"))) {
    const Length off = off_nearest(at, micrometer);
    if (off <= farthest) continue;
    farthest = off;
    where = at;
  }
  expect_length(farthest.ratio(), each, expected(each, "farthest"));
  expect_length(where.ratio(), each, expected(each, "first at"));
}

std::vector<std::string> split(const std::string& text, std::size_t fields) {
  std::vector<std::string> out;
  std::size_t start = 0;
  while (out.size() + 1 < fields) {
    const auto blank = text.find(' ', start);
    if (blank == std::string::npos) break;
    out.push_back(text.substr(start, blank - start));
    start = blank + 1;
  }
  out.push_back(text.substr(start));
  return out;
}

std::string entry(const std::string& key, const std::string& value) { return key + " = \"" + value + "\"\n"; }

std::string kind_of(const TradeCase& each) { return perhaps(each, "given", "kind").value_or("cylinder-bore"); }

std::string layout_text(const TradeCase& each) {
  std::string out = "[[layout]]\n" + entry("kind", kind_of(each)) + "station = [\n";
  for (const std::string& words : words_of(each, "station")) {
    const auto word = split(words, 3);
    out += "{ id = \"" + word.at(0) + "\", role = \"" + word.at(1) + "\"";
    if (word.size() == 3) out += ", depth = \"" + word[2] + "\"";
    out += " },\n";
  }
  out += "]\n";
  std::string directions;
  for (const std::string& words : words_of(each, "direction")) {
    const auto word = split(words, 2);
    directions += "{ id = \"" + word.at(0) + "\", angle = \"" + word.at(1) + " °\" },\n";
  }
  return directions.empty() ? out : out + "direction = [\n" + directions + "]\n";
}

std::string gauge_text(const TradeCase& each) {
  const auto master = perhaps(each, "given", "master");
  std::string out = "[[gauge]]\n" + entry("id", "g") + entry("preset", given(each, "gauge"));
  if (master) {
    out += entry("pressed_in", "clockwise") + "[[gauge]]\n" + entry("id", "m") + entry("preset", "setting-ring") +
           entry("marked", *master);
  }
  out += "[[setting]]\n" + entry("id", "s") + entry("gauge", "g");
  return master ? out + entry("master", "m") : out;
}

std::string limit_text(const TradeCase& each, const std::string& words) {
  const auto standard = words.find(" standard ");
  const auto word = split(words.substr(0, standard), 5);
  std::string out = "[[limit]]\n" + entry("id", word.at(0)) + entry("kind", kind_of(each)) +
                    entry("definition", word.at(1)) + entry("role", word.at(2)) + entry("side", word.at(3)) +
                    entry("bound", word.at(4)) + entry("book", "b") + entry("page", "1");
  return standard == std::string::npos ? out : out + entry("standard", words.substr(standard + 10));
}

std::string job_text(const TradeCase& each) {
  std::string out = "[job]\n" + entry("id", "j") + entry("name", "a case") + entry("decimal_mark", "point");
  out += "[rule]\n" + entry("kind", given(each, "rule")) + layout_text(each) + gauge_text(each);
  for (const std::string& words : words_of(each, "limit")) out += limit_text(each, words);
  for (const std::string& words : words_of(each, "part")) {
    const auto word = split(words, 2);
    out += "[[part]]\n" + entry("id", word.at(0)) + entry("kind", kind_of(each)) + entry("step", word.at(1)) +
           entry("condition", "worn");
  }
  return out;
}

std::string readings_text(const TradeCase& each) {
  std::string out = "part,station,direction,reading,unit,setting\n";
  for (const std::string& words : words_of(each, "size")) {
    const auto word = split(words, 4);
    out += word.at(0) + "," + word.at(1) + "," + word.at(2) + "," + word.at(3) + ",,s\n";
  }
  return out;
}

const Verdict* find_verdict(const JudgedJob& job, const std::string& part, const std::string& limit) {
  for (const Verdict& verdict : job.judgement.verdicts) {
    if (verdict.part == part && verdict.limit == limit) return &verdict;
  }
  return nullptr;
}

void expect_verdict(const JudgedJob& job, const TradeCase& each, const std::string& asked, const std::string& wanted) {
  const auto word = split(asked, 3);
  const Verdict* verdict = find_verdict(job, word.at(1), word.at(2));
  ASSERT_NE(verdict, nullptr) << each.name << ": " << asked;
  if (word[0] == "word") {
    EXPECT_EQ(verdict_word_name(verdict->word), wanted) << each.name << ": " << asked;
  } else if (word[0] == "bound") {
    expect_length(verdict->bound, each, wanted);
  } else {
    ASSERT_EQ(word[0], "measured") << each.name;
    ASSERT_TRUE(verdict->as_measured.has_value()) << each.name << ": " << asked;
    expect_length(*verdict->as_measured, each, wanted);
  }
}

Result<JudgedJob> judged_folder(const std::string& job, const std::string& readings) {
  const Imported imported = import_folder({"case", job, readings});
  if (!imported.problems.empty()) return imported.problems;
  return judge_job(fold(imported.events).job, {{}, usual_accuracy()});
}

void check_judged(const TradeCase& each) {
  const Result<JudgedJob> job = judged_folder(job_text(each), readings_text(each));
  ASSERT_TRUE(job.ok()) << each.name << ": " << job.problems().front().code;
  const auto asked = pairs(each, "expected");
  ASSERT_FALSE(asked.empty()) << each.name;
  for (const auto& [what, wanted] : asked) expect_verdict(job.value(), each, what, wanted);
}

const std::map<std::string, std::function<void(const TradeCase&)>>& checks() {
  static const std::map<std::string, std::function<void(const TradeCase&)>> table{
      {"sum", check_sum},       {"same", check_same},           {"refused", check_refused}, {"slope", check_slope},
      {"needle", check_needle}, {"growth", check_growth},       {"tilt", check_tilt},       {"chord", check_chord},
      {"band", check_band},     {"clearance", check_clearance}, {"nearest", check_nearest}, {"judged", check_judged}};
  return table;
}

TEST(TradeCases, ComeOutAsOnPaper) {
  std::set<std::string> walked;
  for (const TradeCase& each : all_cases()) {
    SCOPED_TRACE(each.name);
    EXPECT_FALSE(only(each, "units").empty());
    EXPECT_FALSE(tolerance_text(each).empty());
    const std::string check = only(each, "check");
    const auto found = checks().find(check);
    ASSERT_NE(found, checks().end()) << check;
    found->second(each);
    walked.insert(check);
  }
  // Every check was really walked by some case.
  EXPECT_EQ(walked.size(), checks().size());
}

TEST(TradeCases, KeepTheSourcesTheyBeganWith) {
  // The worked examples that must never fall out of the folder.
  std::string names;
  for (const TradeCase& each : all_cases()) names += each.name + "\n";
  for (const char* number :
       {"W-01", "W-02", "W-10", "W-12", "W-13", "W-14", "W-19", "W-73", "K-08", "K-09", "K-24", "K-27"}) {
    EXPECT_NE(names.find(number), std::string::npos) << number;
  }
}

/// Notices of a job whose bore gauge was set on a thimble of .001 in at `set`, for a wanted size in mm.
bool told_of_a_nearer_mark(const std::string& wanted, const std::string& set) {
  const std::string job = "[job]\n" + entry("id", "j") + entry("name", "n") + entry("decimal_mark", "point") +
                          "[[gauge]]\n" + entry("id", "mic") + entry("preset", "outside-micrometer-3-4-in") +
                          "[[gauge]]\n" + entry("id", "bg") + entry("preset", "dial-bore-gauge-0-001-mm") +
                          entry("pressed_in", "clockwise") + "[[setting]]\n" + entry("id", "s") + entry("gauge", "bg") +
                          entry("master", "mic") + entry("wanted", wanted) + entry("set", set);
  const Result<JudgedJob> judged = judged_folder(job, "part,station,direction,reading,unit,setting\n");
  EXPECT_TRUE(judged.ok()) << judged.problems().front().code;
  const auto& notices = judged.value().notices;
  return std::any_of(notices.begin(), notices.end(),
                     [](const Message& each) { return each.key == "notice.nearer_setting"; });
}

TEST(TradeCases, ASettingFartherOffThanTheThimbleExcusesIsSaid) {
  // 3.307 in = 83.9978 mm is the nearest mark to 84 mm, 2.2 µm under; its neighbours are 83.9724 and 84.0232.
  EXPECT_FALSE(told_of_a_nearer_mark("84.000 mm", "3.307 in"));
  EXPECT_TRUE(told_of_a_nearer_mark("84.000 mm", "3.306 in"));
  EXPECT_TRUE(told_of_a_nearer_mark("84.000 mm", "3.308 in"));
  // 84.012 mm: 3.308 in lies 11.2 µm over, 3.307 in 14.2 µm under.
  EXPECT_FALSE(told_of_a_nearer_mark("84.012 mm", "3.308 in"));
  EXPECT_TRUE(told_of_a_nearer_mark("84.012 mm", "3.307 in"));
}

}  // namespace
}  // namespace fettle
