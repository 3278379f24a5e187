#include "entry/data_table.h"

#include <gtest/gtest.h>

#include "entry/table.h"

namespace fettle {
namespace {

DataTable table(std::vector<std::optional<std::string>> row) {
  return {{{"note", ColumnSort::text}, {"as_typed", ColumnSort::typed}, {"size_mm", ColumnSort::decimal}, {"order", ColumnSort::whole}, {"word", ColumnSort::word}},
          {std::move(row)}};
}

TEST(DataTable, HasAHeaderAndLeavesEmptyWhatIsNotKnown) {
  EXPECT_EQ(data_table_text(table({"a", "31 cw", "-0.031", std::nullopt, "within"}), DecimalMark::point),
            "note,as_typed,size_mm,order,word\r\na,31 cw,-0.031,,within\r\n");
}

TEST(DataTable, ACommaAsMarkTakesSemicolons) {
  EXPECT_EQ(data_table_text(table({"1.5; 2,5", "+0,031 mm", "-0.031", "4", "a.b"}), DecimalMark::comma),
            "note;as_typed;size_mm;order;word\r\n\"1.5; 2,5\";+0,031 mm;-0,031;4;a.b\r\n");
}

TEST(DataTable, ANoteIsNoFormula) {
  for (const std::string note : {"=1+1", "@SUM(A1)", "+cmd", "-2", "\t=1", "\n=1"}) {
    Problems problems;
    const std::string text = data_table_text(table({note, "1 mm", "1", "1", "w"}), DecimalMark::point);
    EXPECT_EQ(read_table(text, "t", problems).rows.at(0).cells[0].text, "'" + note);
  }
  EXPECT_EQ(data_table_text(table({"a=b", "1 mm", "1", "1", "w"}), DecimalMark::point).find('\''), std::string::npos);
}

TEST(DataTable, ATypedQuantityStaysExact) {
  for (const char* typed : {"+0,031", "-0.010 in", "−3 div", "+1/64\"", "+0.3 × 0.001 in"}) {
    Problems problems;
    const std::string text = data_table_text(table({"n", typed, "1", "1", "w"}), DecimalMark::point);
    EXPECT_EQ(read_table(text, "t", problems).rows.at(0).cells[1].text, typed);
  }
  // No gauge shows this, but a log from elsewhere may hold it.
  EXPECT_NE(data_table_text(table({"n", "+A1|'x'!y", "1", "1", "w"}), DecimalMark::point).find("'+A1"), std::string::npos);
}

}  // namespace
}  // namespace fettle
