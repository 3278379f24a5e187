#include "store_sqlite/find.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "store_sqlite/job_rows.h"
#include "store_sqlite/schema.h"

namespace fettle::sqlite {
namespace {

using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::Not;

/// A middling store: 2,000 jobs of 20 parts, in memory.
class FindPlan : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    shared = std::make_unique<Connection>(":memory:", Access::create, std::chrono::milliseconds(0));
    for (std::int64_t from = 0; from < kSchemaVersion; ++from) upgrade_one(*shared, from);
    Transaction transaction(*shared, Begins::writing);
    for (int job = 0; job < 2000; ++job) keep_job_row(*shared, row_of(job));
    transaction.commit();
  }
  static void TearDownTestSuite() { shared.reset(); }

  static JobRow row_of(int job) {
    const std::string number = std::to_string(job);
    JobRow row{"job-" + number, "Engine " + number, "Curlew " + std::to_string(job % 7), number, "2031-05-01", "2031-05-02", {"Ada"}, 100, 90,
               "beyond", {}};
    for (int part = 1; part <= 20; ++part) {
      row.parts.push_back({"bore-" + std::to_string(part), "bore", (part + job) % 3 == 0 ? "beyond" : "as-new"});
    }
    return row;
  }

  static std::vector<std::string> plan(const FindQuery& query) {
    const FindQuestion question = find_question(query);
    Statement asked = shared->statement("explain query plan " + question.sql);
    for (const std::string& value : question.values) asked.text(value);
    std::vector<std::string> out;
    while (asked.step()) out.push_back(asked.bytes(3));
    return out;
  }

  static inline std::unique_ptr<Connection> shared;
};

const FindQuery kAll{{}, {}, {}, {}, {}, {}, 0, 50};

/// Every one of the 64 ways to ask: what is given, one bit each.
FindQuery asking(unsigned bits) {
  FindQuery query = kAll;
  if ((bits & 1U) != 0) query.engine = "curlew";
  if ((bits & 2U) != 0) query.part = "bore-3";
  if ((bits & 4U) != 0) query.state = "beyond";
  if ((bits & 8U) != 0) query.from = "2031-05-01";
  if ((bits & 16U) != 0) query.until = "2031-05-09";
  if ((bits & 32U) != 0) query.person = "Ada";
  return query;
}

TEST_F(FindPlan, NoQuestionSortsOrScansAnythingButTheNarrowIndexOfJobs) {
  for (unsigned bits = 0; bits < 64; ++bits) {
    SCOPED_TRACE(find_question(asking(bits)).sql);
    const auto steps = plan(asking(bits));
    EXPECT_THAT(steps, Each(Not(HasSubstr("TEMP B-TREE"))));
    const bool by_part_or_person = (bits & (2U | 4U | 32U)) != 0;
    for (const std::string& step : steps) {
      if (step.starts_with("SCAN")) {
        EXPECT_FALSE(by_part_or_person) << step;
        EXPECT_THAT(step, HasSubstr("COVERING INDEX job_scan"));
      }
    }
  }
}

TEST_F(FindPlan, PartAndStateAreOneStretchOfTheirTable) {
  EXPECT_THAT(plan(asking(6)), testing::ElementsAre("SEARCH w USING PRIMARY KEY (named=? AND state=?)"));
  EXPECT_THAT(plan(asking(2)), testing::ElementsAre("SEARCH w USING PRIMARY KEY (named=? AND state=?)"));
  EXPECT_THAT(plan(asking(32)), testing::ElementsAre("SEARCH p USING COVERING INDEX job_of_person (person=?)"));
}

TEST_F(FindPlan, ARowIsReadByItsKey) {
  for (const char* sql : {"select found from job_row where job = ?", "select person from job_person where job = ? order by person",
                          "select part, kind, state from job_part where job = ? order by nth"}) {
    Statement asked = shared->statement(std::string("explain query plan ") + sql);
    ASSERT_TRUE(asked.step());
    EXPECT_THAT(asked.bytes(3), HasSubstr("SEARCH")) << sql;
    EXPECT_FALSE(asked.step()) << sql;
  }
}

TEST_F(FindPlan, EventsAreReadByTheirPlace) {
  for (const char* sql : {"select line from event where place > ? and place < ? order by place",
                          "select line from event where place > ? and place < ? order by place desc limit 1"}) {
    Statement asked = shared->statement(std::string("explain query plan ") + sql);
    ASSERT_TRUE(asked.step());
    EXPECT_EQ(asked.bytes(3), "SEARCH event USING INTEGER PRIMARY KEY (rowid>? AND rowid<?)");
    EXPECT_FALSE(asked.step());
  }
}

TEST_F(FindPlan, FindsTheSameInAMiddlingStore) {
  FindQuery query = asking(6);
  EXPECT_EQ(find_jobs(*shared, query).all, 2000 / 3 + 1);
  query = kAll;
  query.engine = "CURLEW 6";
  EXPECT_EQ(find_jobs(*shared, query).all, 285);
  EXPECT_EQ(find_jobs(*shared, query).rows.size(), 50U);
}

}  // namespace
}  // namespace fettle::sqlite
