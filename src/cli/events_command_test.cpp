#include <gtest/gtest.h>

#include "app/open_folder.h"
#include "cli/commands.h"
#include "job/fold.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

const std::string kExamples = std::string(FETTLE_SOURCE_DIR) + "/examples/";

std::vector<EventEnvelope> imported_events(const std::string& folder) {
  std::vector<EventEnvelope> out;
  for (const EventEnvelope& each : import_folder(read_folder(folder).value()).events)
    out.push_back(without_places(each));
  return out;
}

std::vector<EventEnvelope> read_lines(const std::string& text) {
  std::vector<EventEnvelope> out;
  std::size_t begin = 0;
  for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', begin)) {
    auto read =
        read_event(std::string_view(text).substr(begin, end - begin), {"log", static_cast<int>(out.size()) + 1, {}});
    EXPECT_TRUE(read.ok()) << read.problems().front().code;
    if (read.ok()) out.push_back(std::move(read).value());
    begin = end + 1;
  }
  EXPECT_EQ(begin, text.size());
  return out;
}

void expect_same_job(const Job& a, const Job& b) {
  EXPECT_EQ(a.id, b.id);
  EXPECT_TRUE(a.opened == b.opened);
  EXPECT_TRUE(a.engine == b.engine);
  EXPECT_TRUE(a.layouts == b.layouts);
  EXPECT_TRUE(a.parts == b.parts);
  EXPECT_TRUE(a.findings == b.findings);
  EXPECT_TRUE(a.gauges == b.gauges);
  EXPECT_TRUE(a.settings == b.settings);
  EXPECT_TRUE(a.readings == b.readings);
  EXPECT_TRUE(a.superseded_readings == b.superseded_readings);
  EXPECT_TRUE(a.limits == b.limits);
  EXPECT_TRUE(a.rule == b.rule);
}

TEST(EventsCommand, TheLinesFoldToTheJobOfTheFolder) {
  for (const char* name : {"curlew-3", "curlew-3-set-afresh"}) {
    SCOPED_TRACE(name);
    const RunResult result = run({"events", kExamples + name}, false);
    EXPECT_EQ(result.exit_code, 0);
    EXPECT_TRUE(result.error.empty());
    const Folded from_lines = fold(read_lines(result.out));
    const Folded from_folder = fold(imported_events(kExamples + name));
    EXPECT_TRUE(from_lines.problems.empty());
    expect_same_job(from_lines.job, from_folder.job);
  }
}

TEST(EventsCommand, EveryRowIsOneLine) {
  // Three bores with four heights and two directions, and one reading taken again: 25 rows.
  std::size_t readings = 0;
  for (const EventEnvelope& event : read_lines(run({"events", kExamples + "curlew-3"}, false).out)) {
    if (std::holds_alternative<ReadingTaken>(event.payload)) ++readings;
  }
  EXPECT_EQ(readings, 25U);
}

TEST(EventsCommand, TheSameFolderGivesTheSameBytes) {
  EXPECT_EQ(run({"events", kExamples + "curlew-3"}, false).out, run({"events", kExamples + "curlew-3"}, true).out);
}

TEST(EventsCommand, ARefusedFolderGivesNoLine) {
  const RunResult result = run({"events", kExamples + "no-such-folder"}, false);
  EXPECT_EQ(result.exit_code, 2);
  EXPECT_TRUE(result.out.empty());
  EXPECT_NE(result.error.find("There is no folder"), std::string::npos);  // app.no_folder
  EXPECT_EQ(run({"events"}, false).exit_code, 2);
}

}  // namespace
}  // namespace fettle
