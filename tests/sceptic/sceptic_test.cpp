// What somebody asks who does not believe the program: does order matter, does the unit matter, does a shared error really
// cancel, does anything come out where nothing went in? Every test runs the whole way from the two texts of a folder.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <locale>
#include <sstream>

#include "app/judge_job.h"
#include "app/open_folder.h"
#include "job/fold.h"
#include "numeric/xoshiro.h"
#include "wire/event_json.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

Job job_of(const FolderTexts& texts) {
  const Imported imported = import_folder(texts);
  EXPECT_TRUE(imported.problems.empty()) << imported.problems.front().code;
  const Folded folded = fold(imported.events);
  EXPECT_TRUE(folded.problems.empty()) << folded.problems.front().code;
  return folded.job;
}

JudgedJob judged(const Job& job) {
  Result<JudgedJob> result = judge_job(job, {{}, usual_accuracy()});
  EXPECT_TRUE(result.ok()) << result.problems().front().code;
  return std::move(result).value();
}

JudgedJob judged(const std::string& job, const std::string& readings) { return judged(job_of({"f", job, readings})); }

std::string json_of(const JudgedJob& job) { return judgement_json(view_of(job)); }

/// Everything that the program makes of a folder, as bytes.
std::string all_bytes(const FolderTexts& texts) {
  std::string out;
  for (const EventEnvelope& event : import_folder(texts).events) out += event_json(event) + "\n";
  return out + json_of(judged(job_of(texts)));
}

const Verdict& verdict_of(const JudgedJob& job, const std::string& part, const std::string& limit) {
  const auto found = std::find_if(job.judgement.verdicts.begin(), job.judgement.verdicts.end(),
                                  [&](const auto& each) { return each.part == part && each.limit == limit; });
  FETTLE_ASSERT(found != job.judgement.verdicts.end(), part + " " + limit);
  return *found;
}

double u_of(const JudgedJob& job, const std::string& part, const std::string& limit) {
  const Verdict& verdict = verdict_of(job, part, limit);
  FETTLE_ASSERT(verdict.doubt, part + " " + limit);
  return verdict.doubt->standard_uncertainty;
}

FolderTexts example(const std::string& name) {
  Result<FolderTexts> texts = read_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/" + name);
  EXPECT_TRUE(texts.ok());
  return {"f", texts.value().job_toml, texts.value().readings_csv};
}

/// The header stays; the other lines come in an order of their own for each seed (Fisher-Yates).
std::string shuffled(const std::string& table, std::uint64_t seed) {
  std::istringstream in(table);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  Xoshiro256 random = Xoshiro256::stream(seed, 0);
  for (std::size_t i = lines.size() - 1; i > 1; --i) std::swap(lines[i], lines[1 + random.next() % i]);
  std::string out;
  for (const std::string& line : lines) out += line + "\n";
  return out;
}

TEST(Sceptic, ShuffledRowsGiveTheSameBytes) {
  for (const char* name : {"curlew-3", "curlew-3-set-afresh"}) {
    const FolderTexts texts = example(name);
    const std::string plain = all_bytes(texts);
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
      const std::string rows = shuffled(texts.readings_csv, seed);
      EXPECT_NE(rows, texts.readings_csv);
      EXPECT_EQ(all_bytes({texts.path, texts.job_toml, rows}), plain) << name << ", seed " << seed;
    }
  }
}

/// Writes numbers with a comma and marks off thousands: what a locale could do to a careless stream.
struct Groups : std::numpunct<char> {
  [[nodiscard]] char do_decimal_point() const override { return ','; }
  [[nodiscard]] char do_thousands_sep() const override { return '.'; }
  [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

TEST(Sceptic, AnotherLocaleGivesTheSameBytes) {
  const FolderTexts texts = example("curlew-3-set-afresh");
  const std::string plain = all_bytes(texts);
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new Groups));
  std::ostringstream control;
  control << 1234.5;
  const std::string elsewhere = all_bytes(texts);
  std::locale::global(before);
  EXPECT_EQ(control.str(), "1.234,5");  // the other locale was really there
  EXPECT_EQ(elsewhere, plain);
}

/// One small job, its lengths to be filled in: once typed in inches, once as the same lengths in millimetres.
struct Lengths {
  std::string first_depth, last_depth, division, turn, wanted, set, service, low, out_of_round, per, per_length, journal, pin;
};

const Lengths kInches = {"0.5 in",   "3.75 in",  "0.0001 in", "0.01 in",   "3.3070 in", "3.307 in", "3.3105 in",
                         "3.3060 in", "0.0015 in", "0.0005 in", "1 in",      "2.4975 in", "2.4981 in"};
// Each times 25.4, by hand: 3.3105 in = 84.0867 mm, 3.306 in = 83.9724 mm, 2.4975 in = 63.4365 mm, 2.4981 in = 63.45174 mm ...
const Lengths kMillimetres = {"12.7 mm",    "95.25 mm",  "0.00254 mm", "0.254 mm", "83.9978 mm", "83.9978 mm", "84.0867 mm",
                              "83.9724 mm", "0.0381 mm", "0.0127 mm",  "25.4 mm",  "63.4365 mm", "63.45174 mm"};

std::string with_limit(const std::string& id, const std::string& kind, const std::string& definition, const std::string& side,
                       const std::string& bound, const std::string& more = {}) {
  return "[[limit]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\ndefinition = \"" + definition +
         "\"\nrole = \"service\"\nside = \"" + side + "\"\nbound = \"" + bound + "\"\nbook = \"b\"\npage = \"1\"\n" + more;
}

std::string with_part(const std::string& id, const std::string& kind) {
  return "[[part]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\nstep = \"standard\"\ncondition = \"worn\"\n";
}

std::string two_unit_job(const Lengths& of) {
  return "[job]\nid = \"j\"\nname = \"n\"\ndecimal_mark = \"point\"\n"
         "[[layout]]\nkind = \"cylinder-bore\"\nstation = [{ id = \"top\", role = \"first\", depth = \"" +
         of.first_depth + "\" }, { id = \"low\", role = \"last\", depth = \"" + of.last_depth + "\" }]\n" +
         with_part("bore-1", "cylinder-bore") + with_part("main-1", "main-journal") +
         "[[gauge]]\nid = \"mic\"\npreset = \"outside-micrometer-3-4-in\"\n"
         "[[gauge]]\nid = \"small\"\npreset = \"outside-micrometer-2-3-in\"\n"
         "[[gauge]]\nid = \"bg\"\npreset = \"dial-bore-gauge-0-0001-in\"\npressed_in = \"clockwise\"\ndivision = \"" +
         of.division + "\"\nturn = \"" + of.turn + "\"\n[[setting]]\nid = \"s\"\ngauge = \"bg\"\nmaster = \"mic\"\nwanted = \"" +
         of.wanted + "\"\nset = \"" + of.set + "\"\nclosing_zero = \"1 acw\"\n[[setting]]\nid = \"m\"\ngauge = \"small\"\n" +
         with_limit("size", "cylinder-bore", "size-1", "at-most", of.service) +
         with_limit("low", "cylinder-bore", "size-3", "at-least", of.low) +
         with_limit("round", "cylinder-bore", "oor-1", "at-most", of.out_of_round) +
         with_limit("taper", "cylinder-bore", "tap-6", "at-most", of.per, "per = \"" + of.per_length + "\"\n") +
         with_limit("journal", "main-journal", "size-1", "at-least", of.journal);
}

std::string two_unit_readings(const Lengths& of) {
  return "part,station,direction,reading,unit,setting,order\n"
         "bore-1,top,thrust,31 acw,div,s,1\nbore-1,top,pin,27.5 acw,div,s,2\n"
         "bore-1,low,thrust,12 acw,div,s,3\nbore-1,low,pin,11 acw,div,s,4\n"
         "main-1,front,vertical," + of.pin + ",,m,1\nmain-1,front,horizontal," + of.pin + ",,m,2\n";
}

/// Ids are digests of what was typed, so the two jobs differ in them; here the same places get the same ids.
Job with_plain_ids(Job job) {
  int number = 10;
  for (auto& reading : job.readings) reading.event = "r" + std::to_string(number++);
  return job;
}

JudgedJob judged_with_plain_ids(const Lengths& of) {
  return judged(with_plain_ids(job_of({"f", two_unit_job(of), two_unit_readings(of)})));
}

TEST(Sceptic, InchesAndMillimetresGiveTheSameDigits) {
  const JudgedJob inch = judged_with_plain_ids(kInches);
  const JudgedJob metric = judged_with_plain_ids(kMillimetres);
  ASSERT_EQ(inch.judgement.verdicts.size(), 5U);
  ASSERT_EQ(metric.judgement.verdicts.size(), 5U);
  // 3.307 in + 31 · 0.0001 in = 3.3101 in = 84.07654 mm.
  EXPECT_EQ(verdict_of(metric, "bore-1", "size").as_measured, Ratio(840'765'400));
  for (std::size_t i = 0; i < 5; ++i) {
    const Verdict& a = inch.judgement.verdicts[i];
    const Verdict& b = metric.judgement.verdicts[i];
    EXPECT_EQ(a.word, b.word) << a.limit;
    EXPECT_EQ(a.bound, b.bound) << a.limit;
    EXPECT_EQ(a.as_measured, b.as_measured) << a.limit;
    ASSERT_TRUE(a.doubt && b.doubt && a.plain && b.plain) << a.limit;
    // Bit for bit: both jobs hold the same whole counts, so every sum is the same sum.
    EXPECT_EQ(a.doubt->estimate, b.doubt->estimate) << a.limit;
    EXPECT_EQ(a.doubt->standard_uncertainty, b.doubt->standard_uncertainty) << a.limit;
    EXPECT_EQ(a.plain->value, b.plain->value) << a.limit;
  }
}

constexpr std::string_view kBoreJob = R"(
[job]
id = "j"
name = "n"
decimal_mark = "point"
[[gauge]]
id = "mic"
preset = "outside-micrometer-75-100-mm"
MIC
[[gauge]]
id = "bg"
preset = "dial-bore-gauge-0-001-mm"
pressed_in = "clockwise"
BG
[[setting]]
id = "s"
gauge = "bg"
master = "mic"
set = "84.00 mm"
master_temperature = "20 °C"
part_temperature = "20 °C"
[[setting]]
id = "m"
gauge = "mic"
master_temperature = "20 °C"
part_temperature = "20 °C"
)";

/// `mic` and `bore_gauge` are further lines of the two gauges.
std::string bore_job(const std::string& mic = {}, const std::string& bore_gauge = {}) {
  std::string out(kBoreJob);
  out.replace(out.find("MIC"), 3, mic);
  return out.replace(out.find("BG\n"), 2, bore_gauge);
}

constexpr const char* kHeader = "part,station,direction,reading,unit,setting\n";
const std::string kFour = std::string(kHeader) +
                          "bore-1,top,thrust,57 acw,,s\nbore-1,top,pin,48 acw,,s\n"
                          "bore-1,bottom,thrust,19 acw,,s\nbore-1,bottom,pin,18 acw,,s\n";
const std::string kBoreLimits = with_limit("size", "cylinder-bore", "size-1", "at-most", "84.100 mm") +
                                with_limit("round", "cylinder-bore", "oor-1", "at-most", "0.050 mm") +
                                with_limit("taper", "cylinder-bore", "tap-2", "at-most", "0.100 mm");

JudgedJob with_finding_zero(const std::string& half_width) {
  const std::string component =
      "component = [{ id = \"finding-zero\", scope = \"setting\", shape = \"rectangular\", half_width = \"" + half_width + "\" }]";
  return judged(bore_job({}, component) + with_part("bore-1", "cylinder-bore") + kBoreLimits, kFour);
}

TEST(Sceptic, ASettingErrorWidensSizesAndLeavesDifferencesAlone) {
  const JudgedJob usual = with_finding_zero("5 µm");
  const JudgedJob wide = with_finding_zero("50 µm");
  // A rectangle of half-width a has the variance a²/3 (JCGM 100, 4.3.7): (50² − 5²)/3 µm² = 825 µm² more.
  const double more = std::pow(u_of(wide, "bore-1", "size"), 2) - std::pow(u_of(usual, "bore-1", "size"), 2);
  EXPECT_NEAR(more, 825e-6, 1e-12);
  EXPECT_EQ(u_of(wide, "bore-1", "round"), u_of(usual, "bore-1", "round"));
  EXPECT_EQ(u_of(wide, "bore-1", "taper"), u_of(usual, "bore-1", "taper"));
}

const std::string kBoreAndJournal = with_part("bore-1", "cylinder-bore") + with_part("main-1", "main-journal");
const std::string kOneOfEach = std::string(kHeader) + "bore-1,top,thrust,57 acw,,s\nmain-1,front,vertical,83.96 mm,,m\n";

const Size& size_on(const JudgedJob& job, const std::string& part) {
  const auto& sizes = job.sizes.sizes;
  return *std::find_if(sizes.begin(), sizes.end(), [&](const Size& each) { return each.part == part; });
}

/// Coefficients of bore minus journal, by source.
std::vector<double> clearance_terms(const JudgedJob& job) {
  std::vector<double> out(job.sizes.sources.size(), 0.0);
  for (const ErrorTerm& term : size_on(job, "bore-1").terms) out[term.source] += term.coefficient;
  for (const ErrorTerm& term : size_on(job, "main-1").terms) out[term.source] -= term.coefficient;
  return out;
}

TEST(Sceptic, OneMicrometerCancelsBetweenBoreAndJournal) {
  const JudgedJob job = judged(bore_job() + kBoreAndJournal, kOneOfEach);
  const std::vector<double> terms = clearance_terms(job);
  double variance = 0.0;
  int shared = 0;
  for (std::size_t i = 0; i < terms.size(); ++i) {
    const ErrorSource& source = job.sizes.sources[i];
    if (source.id == "master:mic:limit-of-error") {
      EXPECT_EQ(terms[i], 0.0);
      ++shared;
    }
    if (source.component == "temperature" || source.component == "thermometer") continue;
    variance += std::pow(terms[i] * source.standard_uncertainty, 2);
  }
  EXPECT_EQ(shared, 1);  // one source of that name, not one for each part
  // By hand from the presets, half-widths in µm: the bore has flex 3, finding zero 5, dial 5, repeat 3, rounding 0.5; the journal
  // feel 3 and rounding 5. The micrometer's 5 is on both sides and gone. (9 + 25 + 25 + 9 + 0.25 + 9 + 25)/3 = 34.0833 µm².
  EXPECT_NEAR(variance, 102.25e-6 / 3.0, 1e-12);
}

TEST(Sceptic, AMicrometerThatReadsHighMovesBothAndNotTheClearance) {
  const JudgedJob job = judged(bore_job() + kBoreAndJournal, kOneOfEach);
  const JudgedJob high = judged(bore_job("reads = \"75.01 mm\"\non_standard = \"75.00 mm\"") + kBoreAndJournal, kOneOfEach);
  // Shows 75.01 on 75.00: 0.01 mm = 100,000 counts too much, taken off both.
  EXPECT_EQ(size_on(job, "bore-1").as_measured - size_on(high, "bore-1").as_measured, Ratio(100'000));
  EXPECT_EQ(size_on(job, "main-1").as_measured - size_on(high, "main-1").as_measured, Ratio(100'000));
}

const std::string kBore = with_part("bore-1", "cylinder-bore");

/// The codes of everything that stands in the way of judging, from the first stage that refuses.
std::vector<std::string> codes_of(const std::string& job, const std::string& readings) {
  const Imported imported = import_folder({"f", job, readings});
  Problems problems = imported.problems;
  if (problems.empty()) {
    const Result<JudgedJob> result = judge_job(fold(imported.events).job, {{}, usual_accuracy()});
    if (!result.ok()) problems = result.problems();
  }
  std::vector<std::string> out;
  for (const Problem& problem : problems) out.push_back(problem.code);
  return out;
}

using Codes = std::vector<std::string>;

TEST(Sceptic, AReadingWithoutItsSettingIsRefusedAndNeverASize) {
  const std::string row = "bore-1,top,thrust,57 acw,div,nobody\n";
  EXPECT_EQ(codes_of(bore_job() + kBore + kBoreLimits, kHeader + row), Codes{"gauging.unknown_setting"});
  EXPECT_EQ(codes_of(bore_job() + kBore + kBoreLimits, kHeader + std::string("bore-1,top,thrust,57 acw,div,\n")),
            Codes{"job.cell_empty"});
}

TEST(Sceptic, NoFigureIsMadeOfWhatIsNone) {
  const auto reading = [](const std::string& text) {
    return codes_of(bore_job() + kBore + kBoreLimits, kHeader + std::string("bore-1,top,thrust,") + text + ",div,s\n");
  };
  for (const char* text : {"NaN", "nan acw", "inf acw", "-inf acw", "Infinity acw"}) {
    EXPECT_EQ(reading(text), Codes{"entry.not_a_number"}) << text;
  }
  EXPECT_EQ(reading("57"), Codes{"entry.no_side"});
  EXPECT_EQ(reading(""), Codes{"job.cell_empty"});
}

TEST(Sceptic, AHugeLineIsRefusedAndNotRead) {
  const std::string note(100'000, 'x');  // a line may have 64 KiB
  const std::string header = "part,station,direction,reading,unit,setting,note\n";
  const std::string rows = "bore-1,top,thrust,57 acw,div,s," + note + "\nbore-1,top,pin,48 acw,div,s,\n";
  EXPECT_EQ(codes_of(bore_job() + kBore + kBoreLimits, header + rows), Codes{"entry.table_line_too_long"});
}

TEST(Sceptic, WithoutALimitNothingIsWithin) {
  const JudgedJob job = judged(bore_job() + kBore, kFour);
  EXPECT_TRUE(job.judgement.verdicts.empty());
  EXPECT_EQ(job.judgement.states.at(0).word, StateWord::not_judged);
  EXPECT_EQ(job.judgement.joint.word, VerdictWord::not_judged);
  EXPECT_FALSE(job.judgement.joint.plain);
}

TEST(Sceptic, ASingleReadingGivesASizeAndNoForm) {
  const JudgedJob job = judged(bore_job() + kBore + kBoreLimits, kHeader + std::string("bore-1,top,thrust,57 acw,div,s\n"));
  EXPECT_EQ(verdict_of(job, "bore-1", "size").as_measured, Ratio(840'570'000));  // 84.00 mm + 57 · 0.001 mm
  for (const char* form : {"round", "taper"}) {
    const Verdict& verdict = verdict_of(job, "bore-1", form);
    EXPECT_EQ(verdict.word, VerdictWord::not_judged) << form;
    EXPECT_FALSE(verdict.as_measured || verdict.doubt || verdict.plain) << form;  // unknown is nothing, never zero
    EXPECT_FALSE(verdict.reasons.empty()) << form;
  }
}

/// The demo's folder without two of its four heights, in the layout and in the readings.
FolderTexts half_the_stations() {
  FolderTexts texts = read_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3").value();
  for (const char* gone : {"mid", "bottom"}) {
    const auto from = texts.job_toml.find(std::string("  { id = \"") + gone);
    FETTLE_ASSERT(from != std::string::npos, gone);
    texts.job_toml.erase(from, texts.job_toml.find('\n', from) + 1 - from);
  }
  std::istringstream rows(texts.readings_csv);
  std::string kept;
  for (std::string row; std::getline(rows, row);) {
    if (row.find(",mid,") == std::string::npos && row.find(",bottom,") == std::string::npos) kept += row + "\n";
  }
  texts.readings_csv = kept;
  return texts;
}

TEST(Sceptic, HalfTheStationsDeletedIsJudgedAsFarAsItGoes) {
  const JudgedJob half = judged(job_of(half_the_stations()));
  const JudgedJob whole = judged(open_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3").value());
  // What the top alone can tell is told, a little less sure than with all heights; what needs the bottom is not guessed.
  EXPECT_EQ(verdict_of(half, "bore-2", "bore-service").word, VerdictWord::beyond);
  EXPECT_EQ(verdict_of(half, "bore-3", "bore-service").as_measured, verdict_of(whole, "bore-3", "bore-service").as_measured);
  EXPECT_NEAR(verdict_of(half, "bore-3", "bore-service").chance->value, verdict_of(whole, "bore-3", "bore-service").chance->value, 0.1);
  for (const char* limit : {"bore-taper", "bore-out-of-round"}) {
    const Verdict& verdict = verdict_of(half, "bore-3", limit);
    EXPECT_EQ(verdict.word, VerdictWord::not_judged) << limit;
    EXPECT_FALSE(verdict.reasons.empty()) << limit;
    EXPECT_FALSE(verdict.as_measured || verdict.chance || verdict.forecast) << limit;
  }
}

TEST(Sceptic, ReadingsOfDeletedStationsAreRefusedOneByOne) {
  FolderTexts texts = half_the_stations();
  texts.readings_csv = read_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3").value().readings_csv;
  const Problems problems = import_folder(texts).problems;
  EXPECT_EQ(problems.size(), 12U);  // three bores, two heights, two directions
  for (const Problem& each : problems) EXPECT_EQ(each.code, "gauging.unknown_station");
}

TEST(Sceptic, ABoreThatWasNotReadIsNotJudgedByItsNeighbour) {
  const std::string both = bore_job() + kBore + with_part("bore-2", "cylinder-bore") + kBoreLimits;
  const JudgedJob alone = judged(bore_job() + kBore + kBoreLimits, kFour);
  const JudgedJob beside = judged(both, kFour);
  EXPECT_EQ(beside.judgement.states.at(0).word, alone.judgement.states.at(0).word);
  EXPECT_EQ(u_of(beside, "bore-1", "size"), u_of(alone, "bore-1", "size"));
  EXPECT_EQ(beside.judgement.states.at(1).word, StateWord::not_judged);
  EXPECT_FALSE(verdict_of(beside, "bore-2", "size").as_measured);
}

}  // namespace
}  // namespace fettle
