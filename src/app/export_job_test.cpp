#include "app/export_job.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "app/open_folder.h"
#include "app/readings_table.h"
#include "app/verdicts_table.h"
#include "entry/table.h"
#include "job/fold.h"

namespace fettle {
namespace {

std::vector<EventEnvelope> events_of(const std::string& folder) {
  return import_folder(read_folder(std::string(FETTLE_SOURCE_DIR) + "/" + folder).value()).events;
}

JudgedJob judged(const std::vector<EventEnvelope>& events) { return judge_job(fold(events).job, {{}, usual_accuracy()}).value(); }

std::string cell(const DataTable& table, std::size_t row, const std::string& column) {
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    if (table.columns[c].name == column) return table.rows.at(row)[c].value_or("nothing");
  }
  return "no such column";
}

std::size_t row_with(const DataTable& table, const std::vector<std::pair<std::string, std::string>>& wanted) {
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    if (std::all_of(wanted.begin(), wanted.end(), [&](const auto& each) { return cell(table, r, each.first) == each.second; })) return r;
  }
  ADD_FAILURE() << wanted.front().second;
  return 0;
}

TEST(ReadingsTable, SaysWhatWasTypedAndWhatSizeItGives) {
  const auto events = events_of("examples/curlew-3");
  const DataTable table = readings_table(events, judged(events));
  ASSERT_EQ(table.rows.size(), 25U);
  const std::size_t row = row_with(table, {{"part", "bore-2"}, {"station", "top"}, {"direction", "thrust"}});
  EXPECT_EQ(cell(table, row, "as_typed"), "144 acw");
  EXPECT_EQ(cell(table, row, "value"), "-144");
  EXPECT_EQ(cell(table, row, "unit"), "div");
  EXPECT_EQ(cell(table, row, "reading_mm"), "-0.144");
  EXPECT_EQ(cell(table, row, "gauge"), "bore-gauge");
  EXPECT_EQ(cell(table, row, "master"), "mic-3-4");
  // 3.307 in is 83.9978 mm; anticlockwise is larger. At 19.5 °C iron and micrometer have shrunk unlike: 0.03 µm.
  EXPECT_EQ(cell(table, row, "as_measured_mm"), "84.1417714");
  EXPECT_EQ(cell(table, row, "size_mm").substr(0, 5), "84.14");
  EXPECT_EQ(cell(table, row, "size_uncertainty_mm").substr(0, 4), "0.00");
  EXPECT_EQ(cell(table, row, "corrected_by"), "nothing");
}

TEST(ReadingsTable, AFlaggedReadingGivesNoSize) {
  const auto events = events_of("examples/curlew-3");
  const DataTable table = readings_table(events, judged(events));
  const std::size_t row = row_with(table, {{"flag", "deposit"}});
  EXPECT_EQ(cell(table, row, "as_typed"), "51 acw");
  EXPECT_EQ(cell(table, row, "note"), "carbon; cleaned and read again");
  EXPECT_EQ(cell(table, row, "size_mm"), "nothing");
}

TEST(ReadingsTable, ACorrectedReadingStaysAndNamesWhatCorrectsIt) {
  auto events = events_of("examples/curlew-3");
  EventEnvelope correction = events.back();
  std::get<ReadingTaken>(correction.payload).reading.supersedes = events.back().id;
  correction.id = std::string(32, 'a');
  correction.who = "M";
  correction.made_at = "later";
  events.push_back(correction);
  const DataTable table = readings_table(events, judged(events));
  ASSERT_EQ(table.rows.size(), 26U);
  EXPECT_EQ(cell(table, 24, "corrected_by"), correction.id);
  EXPECT_EQ(cell(table, 24, "size_mm"), "nothing");
  EXPECT_EQ(cell(table, 25, "who"), "M");
  EXPECT_EQ(cell(table, 25, "when"), "later");
  EXPECT_NE(cell(table, 25, "size_mm"), "nothing");
}

TEST(ReadingsTable, WhatIsNoLengthHasItsOwnUnit) {
  const auto events = events_of("tests/cli/jobs/every-kind");
  const DataTable table = readings_table(events, judged(events));
  const std::size_t row = row_with(table, {{"as_typed", "10 °"}});
  EXPECT_EQ(cell(table, row, "other_size"), "10.00");
  EXPECT_EQ(cell(table, row, "other_unit"), "°");
  EXPECT_EQ(cell(table, row, "reading_mm"), "nothing");
  EXPECT_EQ(cell(table, row, "size_mm"), "nothing");
}

TEST(VerdictsTable, SaysTheLimitItsOriginAndTheVerdict) {
  const auto events = events_of("examples/curlew-3");
  const JudgedJob job = judged(events);
  const DataTable table = verdicts_table(job);
  ASSERT_EQ(table.rows.size(), job.judgement.verdicts.size());
  const std::size_t row = row_with(table, {{"part", "bore-2"}, {"limit", "bore-service"}});
  EXPECT_EQ(cell(table, row, "word"), "beyond");
  EXPECT_EQ(cell(table, row, "as_measured_mm"), "84.1417714");
  EXPECT_EQ(cell(table, row, "role"), "service");
  EXPECT_EQ(cell(table, row, "side"), "at-most");
  EXPECT_EQ(cell(table, row, "rule"), "probability");
  EXPECT_EQ(cell(table, row, "level"), "0.95");
  EXPECT_EQ(cell(table, row, "chance").size(), std::string("0.0000").size());
  EXPECT_EQ(cell(table, row, "stations"), "top");
  EXPECT_EQ(cell(table, row, "directions"), "thrust");
  EXPECT_NE(cell(table, row, "book"), "nothing");
  EXPECT_NE(cell(table, row, "page"), "nothing");
}

TEST(VerdictsTable, WhatIsNotJudgedSaysWhy) {
  const DataTable table = verdicts_table(judged(events_of("tests/cli/jobs/every-kind")));
  const std::size_t row = row_with(table, {{"word", "not-judged"}});
  EXPECT_EQ(cell(table, row, "reasons"), "verdict.places_missing");
  EXPECT_EQ(cell(table, row, "bound_as_typed"), "0.008 in");
  EXPECT_EQ(cell(table, row, "bound_mm"), "0.2032");
}

TEST(VerdictsTable, WhatIsNoLengthHasItsOwnUnit) {
  const DataTable table = verdicts_table(judged(events_of("tests/cli/jobs/every-kind")));
  std::size_t others = 0;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const bool other = cell(table, r, "other_unit") != "nothing";
    if (other) ++others;
    EXPECT_EQ(cell(table, r, "bound_mm") == "nothing", other) << r;
    EXPECT_EQ(cell(table, r, "other_bound") != "nothing", other) << r;
  }
  EXPECT_GT(others, 0U);
}

TEST(ExportJob, EveryTableIsReadBackAsItWas) {
  const auto events = events_of("tests/cli/jobs/every-kind");
  const JudgedJob job = judged(events);
  for (const DataTable& table : {readings_table(events, job), verdicts_table(job)}) {
    Problems problems;
    const Table read = read_table(data_table_text(table, DecimalMark::point), "t", problems);
    EXPECT_TRUE(problems.empty());
    ASSERT_EQ(read.rows.size(), table.rows.size());
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
      for (std::size_t c = 0; c < table.columns.size(); ++c) EXPECT_EQ(read.rows[r].cells[c].text, table.rows[r][c].value_or("")) << r << " " << read.header[c];
    }
  }
}

TEST(ExportJob, TheFolderAmongTheFilesJudgesTheSame) {
  const auto events = events_of("tests/cli/jobs/found-out");
  const ExportedJob out = export_job(events, {{{}, usual_accuracy()}, DecimalMark::point}).value();
  ASSERT_EQ(out.files.size(), exported_names().size());
  EXPECT_TRUE(out.left_out.empty());
  const Imported again = import_folder({"f", out.files[0].text, out.files[1].text});
  ASSERT_TRUE(again.problems.empty());
  EXPECT_TRUE(judgement_json(view_of(judged(events))) == judgement_json(view_of(judged(again.events))));
}

TEST(ExportJob, WhatIsLeftOutStandsOnTop) {
  auto events = events_of("examples/curlew-3");
  events.front().who = "M";
  const ExportedJob out = export_job(events, {{{}, usual_accuracy()}, DecimalMark::point}).value();
  ASSERT_EQ(out.left_out.size(), 1U);
  EXPECT_TRUE(out.files[0].text.starts_with("# Left out: Who made 1 entry that is no reading, or when.\n# A readable copy"));
  EXPECT_TRUE(import_folder({"f", out.files[0].text, out.files[1].text}).problems.empty());
}

TEST(ExportJob, WhatCannotBeSaidAtAllIsAProblem) {
  auto events = events_of("examples/curlew-3");
  std::get<ReadingTaken>(events.back().payload).reading.note = std::string("a\0b", 3);
  const auto out = export_job(events, {{{}, usual_accuracy()}, DecimalMark::point});
  ASSERT_FALSE(out.ok());
  EXPECT_EQ(out.problems().front().code, "entry.table_not_utf8");
}

}  // namespace
}  // namespace fettle
