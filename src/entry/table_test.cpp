#include "entry/table.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

Table sound_table(std::string_view text) {
  Problems problems;
  Table table = read_table(text, "r.csv", problems);
  EXPECT_TRUE(problems.empty()) << (problems.empty() ? "" : problems.front().code);
  return table;
}

std::vector<std::string> codes(std::string_view text) {
  Problems problems;
  (void)read_table(text, "r.csv", problems);
  std::vector<std::string> out;
  for (const Problem& each : problems) out.push_back(each.code);
  return out;
}

TEST(Table, ReadsEverySpreadsheetsDialect) {
  for (std::string_view text : {"part,reading\nbore-1,\"84,02\"\n", "part;reading\r\nbore-1;84,02\r\n", "part\treading\nbore-1\t84,02", "part;reading\rbore-1;84,02\r", "# a remark\rpart;reading\rbore-1;84,02",
                                "\xEF\xBB\xBF" "part;reading\n\n# a remark\nbore-1; 84,02 \n"}) {
    const Table table = sound_table(text);
    EXPECT_EQ(table.header, (std::vector<std::string>{"part", "reading"})) << text;
    ASSERT_EQ(table.rows.size(), 1U) << text;
    EXPECT_EQ(table.rows[0].cells[0].text, "bore-1") << text;
    EXPECT_EQ(table.rows[0].cells[1].text, "84,02") << text;
  }
}

TEST(Table, QuotesHoldInchMarksAndLineBreaks) {
  const Table table = sound_table("reading,note\n\"3.308\"\"\",\"two\nlines\"\n1,after\n");
  ASSERT_EQ(table.rows.size(), 2U);
  EXPECT_EQ(table.rows[0].cells[0].text, "3.308\"");
  EXPECT_EQ(table.rows[0].cells[1].text, "two\nlines");
  EXPECT_EQ(table.rows[1].line, 4);
}

TEST(Table, PlacesCountCharacters) {
  const Table table = sound_table("a;b\nµµ;x\n");
  EXPECT_EQ(table.place(table.rows[0], 1), (Place{"r.csv", 2, 4}));
}

TEST(Table, HasAnEnd) {
  std::string text = "a\n";
  for (int i = 0; i < 200'001; ++i) text += "1\n";
  EXPECT_EQ(codes(text), (std::vector<std::string>{"entry.table_too_many_rows"}));
}

TEST(Table, ShortRowsAreFilled) { EXPECT_EQ(sound_table("a,b,c\n1\n").rows[0].cells.size(), 3U); }

TEST(Table, RefusesAllAtOnce) {
  EXPECT_EQ(codes(""), (std::vector<std::string>{"entry.table_empty"}));
  EXPECT_EQ(codes("a,a,\n"), (std::vector<std::string>{"entry.table_column_twice", "entry.table_column_unnamed"}));
  EXPECT_EQ(codes("a,b\n1,2,3\n4,5,6\n"),
            (std::vector<std::string>{"entry.table_too_many_cells", "entry.table_too_many_cells"}));
  EXPECT_EQ(codes("a,b\n\"1,2\n"), (std::vector<std::string>{"entry.table_open_quote"}));
  EXPECT_EQ(codes("a,b\n\"1\"x,2\n"), (std::vector<std::string>{"entry.table_quote_inside"}));
  EXPECT_EQ(codes("a\n" + std::string(70'000, 'x') + "\n"), (std::vector<std::string>{"entry.table_line_too_long"}));
  EXPECT_EQ(codes("a\xff\n"), (std::vector<std::string>{"entry.table_not_utf8"}));
}

}  // namespace
}  // namespace fettle
