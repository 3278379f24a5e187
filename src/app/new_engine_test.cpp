#include "app/new_engine.h"

#include <gtest/gtest.h>

#include "app/acts_on_bench.h"
#include "app/example_engine.h"

namespace fettle {
namespace {

std::vector<std::string> part_ids(const Job& job) {
  std::vector<std::string> out;
  for (const auto& each : job.parts) out.push_back(each.value.id);
  return out;
}

TEST(NewEngine, HasItsPartsAndWhatWasSaidOfIt) {
  ActsOnBench bench;
  EXPECT_EQ(bench.job, "linnet-4");
  const Job job = bench.recorded().job;
  EXPECT_EQ(job.opened->value.name, "Linnet 4");
  EXPECT_EQ(job.opened->value.decimal_mark, DecimalMark::point);
  EXPECT_EQ(job.engine->value.cylinders, 4);
  EXPECT_EQ(job.engine->value.number_one_end, "pulley end");
  EXPECT_EQ(part_ids(job), (std::vector<std::string>{"bore-1", "bore-2", "bore-3", "bore-4", "main-1", "main-2", "main-3", "main-4", "main-5"}));
  EXPECT_EQ(job.parts[2].value.position, "3");
  EXPECT_TRUE(bench.jobs.judged(bench.job).ok());
}

TEST(NewEngine, TheSameActAgainIsTheSameEngineAndAnotherOfItsNameGetsANumber) {
  ActsOnBench bench;
  const NewEngineAct second = bench.engine("Linnet 4");
  EXPECT_EQ(new_engine(bench.store, second).value(), "linnet-4-2");
  EXPECT_EQ(new_engine(bench.store, second).value(), "linnet-4-2");
  EXPECT_EQ(new_engine(bench.store, bench.engine("Linnet 4")).value(), "linnet-4-3");
  EXPECT_EQ(bench.store.jobs().size(), 3U);
}

TEST(NewEngine, IdsAreMadeOfWhatANameHas) {
  EXPECT_EQ(id_of_name("  Grüner Öler, No. 7! "), "gruener-oeler-no-7");
  EXPECT_EQ(id_of_name("日本"), "engine");
  EXPECT_EQ(id_of_name(std::string(100, 'x')).size(), 40U);
  EXPECT_EQ(id_of_part("crankpin", 3), "pin-3");
  EXPECT_EQ(id_of_part("piston", 1), "piston-1");
}

TEST(NewEngine, EverythingWrongIsToldAtOnce) {
  ActsOnBench bench;
  NewEngineAct act = bench.engine("  ");
  act.groups = {{"cylinder-bore", 0}, {"cylinder-bore", 2}, {"no-kind", 1}, {"bore-and-piston", 1}};
  const auto refusal = new_engine(bench.store, act);
  ASSERT_FALSE(refusal.ok());
  EXPECT_EQ(codes_of(refusal.problems()), "acts.name_empty acts.parts_range acts.group_twice job.kind_unknown acts.assembly_group");
  act.groups.clear();
  EXPECT_EQ(codes_of(new_engine(bench.store, act).problems()), "acts.name_empty acts.no_groups");
  EXPECT_EQ(bench.store.jobs().size(), 1U) << "nothing was made";
}

TEST(ExampleEngine, IsTheFolderOfTheExamplesAndTakenInOnce) {
  const FolderTexts folder = read_folder(kExample).value();
  EXPECT_EQ(example_folder().job_toml, folder.job_toml);
  EXPECT_EQ(example_folder().readings_csv, folder.readings_csv);
  WoundClock clock;
  MemoryStore store(clock);
  const Doing doing{"", "2031-05-04T08:12:00.000000Z"};
  EXPECT_EQ(take_example_in(store, doing).value(), "tern-curlew-3");
  const std::size_t events = store.events("tern-curlew-3", 0).size();
  EXPECT_EQ(take_example_in(store, doing).value(), "tern-curlew-3");
  EXPECT_EQ(store.events("tern-curlew-3", 0).size(), events);
}

}  // namespace
}  // namespace fettle
