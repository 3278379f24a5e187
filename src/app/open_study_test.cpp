#include "app/open_study.h"

#include <gtest/gtest.h>

#include "app/judge_job.h"
#include "app/open_folder.h"
#include "job/fold.h"
#include "job/folder.h"
#include "job/folder_text.h"
#include "job/job_text.h"

namespace fettle {
namespace {

const std::string kStudy = std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3/bore-gauge-study.toml";

TEST(OpenStudy, ReckonsTheExample) {
  const auto opened = open_study(kStudy, std::nullopt);
  ASSERT_TRUE(opened.ok()) << opened.problems().front().code;
  EXPECT_EQ(opened.value().study.readings, 42U);
  ASSERT_TRUE(opened.value().for_job);
  EXPECT_FALSE(opened.value().for_job->person);
  EXPECT_EQ(opened.value().for_job->data.size(), 64U);
  EXPECT_EQ(opened.value().for_job->when, "2031-05-01");
}

TEST(OpenStudy, OfOnePersonAlone) {
  const auto all = open_study(kStudy, std::nullopt).value().study;
  const auto anna = open_study(kStudy, "Anna");
  ASSERT_TRUE(anna.ok());
  EXPECT_EQ(anna.value().for_job->person, "Anna");
  EXPECT_EQ(anna.value().for_job->degrees_of_freedom, 14);
  EXPECT_NEAR(anna.value().study.by_variances.spreads.repeatability, all.people[0].repeatability, 1e-12);
  const auto nobody = open_study(kStudy, "Clara");
  ASSERT_FALSE(nobody.ok());
  EXPECT_EQ(nobody.problems().front().code, "app.study_no_person");
}

TEST(OpenStudy, RefusesWhatIsNotThere) {
  EXPECT_EQ(open_study(kStudy + "x", std::nullopt).problems().front().code, "app.no_file");
}

/// The demo's job with a study of its bore gauge.
FolderTexts demo_with(const std::string& lines) {
  const Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3").value();
  FolderTexts out = folder_texts(job, {}, {});
  out.job_toml += "\n" + lines;
  return out;
}

Job demo_job(const std::string& lines) { return fold(import_folder(demo_with(lines)).events).job; }

std::string gauge_read() {
  const Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3").value();
  const std::string setting = job.readings.front().value.setting;
  for (const auto& each : job.settings) {
    if (each.value.id == setting) return each.value.gauge;
  }
  return {};
}

std::string lines_of(double um, int degrees) {
  return "[[study]]\ngauge = \"" + gauge_read() + "\"\nrepeatability = \"" + std::to_string(um).substr(0, 4) + " µm\"\ndegrees_of_freedom = " + std::to_string(degrees) +
         "\nmethod = \"variances\"\n";
}

// A study changes what a reading carries, and the judgement says so.
TEST(OpenStudy, AStudyStandsForTheRepeatabilityInAJob) {
  const auto plain = judge_job(demo_job(""), {std::nullopt, usual_accuracy(), JudgeDetail::verdicts});
  const auto studied = judge_job(demo_job(lines_of(9.25, 30)), {std::nullopt, usual_accuracy(), JudgeDetail::verdicts});
  ASSERT_TRUE(plain.ok() && studied.ok());
  std::size_t changed = 0;
  for (const ErrorSource& each : studied.value().sizes.sources) {
    if (each.origin.find("gauge study") == std::string::npos) continue;
    ++changed;
    EXPECT_GE(each.degrees_of_freedom.value(), 30.0);
  }
  EXPECT_GT(changed, 0U);
  const auto told = [](const JudgedJob& judged) {
    return std::any_of(judged.notices.begin(), judged.notices.end(), [](const Message& each) { return each.key == "notice.studied"; });
  };
  EXPECT_TRUE(told(studied.value()));
  EXPECT_FALSE(told(plain.value()));
}

TEST(OpenStudy, AFolderKeepsItsStudies) {
  const FolderTexts texts = demo_with(lines_of(9.25, 30));
  const Imported read = import_folder(texts);
  ASSERT_TRUE(read.problems.empty());
  const Job job = fold(read.events).job;
  ASSERT_EQ(job.studies.size(), 1U);
  const auto written = written_folder(read.events);
  ASSERT_TRUE(written.ok());
  EXPECT_TRUE(written.value().refused.empty());
  EXPECT_NE(written.value().texts.job_toml.find(study_text(job.studies.front().value)), std::string::npos);
  for (const Message& each : written.value().left_out) EXPECT_NE(each.key, "folder.differs");
}

// Of one gauge and person the last study stands; taking it back brings the earlier one again.
TEST(OpenStudy, TheLastStudyStands) {
  const StudiedGauge first{"g", {}, {"4 µm", {Ratio(4), UnitId::micrometre}, 0, {}, {}}, 20, StudyMethod::variances, {}, {}, {}, "", "", ""};
  StudiedGauge second = first;
  second.degrees_of_freedom = 40;
  const auto event = [](const std::string& id, Payload payload) { return EventEnvelope{id, "job", "here", 1, {}, {}, std::move(payload)}; };
  std::vector<EventEnvelope> events = {event("e1", GaugeStudied{first}), event("e2", GaugeStudied{second})};
  const Job both = fold(events).job;
  ASSERT_EQ(both.studies.size(), 1U);
  EXPECT_EQ(both.studies[0].value.degrees_of_freedom, 40);
  events.push_back(event("e3", EventWithdrawn{"e2", "wrong gauge"}));
  EXPECT_EQ(fold(events).job.studies.at(0).value.degrees_of_freedom, 20);
}

}  // namespace
}  // namespace fettle
