#include "entry/table.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

Table sound_table(std::string_view text) {
  Problems problems;
  Table table = read_table(text, "r.csv", problems);
  EXPECT_TRUE(problems.empty()) << text << (problems.empty() ? "" : problems.front().code);
  return table;
}

Problems problems_of(std::string_view text) {
  Problems problems;
  (void)read_table(text, "r.csv", problems);
  return problems;
}

std::vector<std::string> codes(std::string_view text) {
  std::vector<std::string> out;
  for (const Problem& each : problems_of(text)) out.push_back(each.code);
  return out;
}

std::vector<Place> places(std::string_view text) {
  std::vector<Place> out;
  for (const Problem& each : problems_of(text)) out.push_back(each.place);
  return out;
}

TEST(Table, ReadsEverySpreadsheetsDialect) {
  for (std::string_view text : {"part,reading\nbore-1,\"84,02\"\n", "part;reading\r\nbore-1;84,02\r\n", "part\treading\nbore-1\t84,02",
                                "\xEF\xBB\xBF" "part;reading\n\n# a remark\nbore-1; 84,02 \n", "# remark\rpart;reading\rbore-1;84,02\r",
                                "part, reading\nbore-1, \"84,02\" \n", "\"part\";\"reading\"\n\"bore-1\";\"84,02\""}) {
    const Table table = sound_table(text);
    EXPECT_EQ(table.header, (std::vector<std::string>{"part", "reading"})) << text;
    ASSERT_EQ(table.rows.size(), 1U) << text;
    EXPECT_EQ(table.rows[0].cells[0].text, "bore-1") << text;
    EXPECT_EQ(table.rows[0].cells[1].text, "84,02") << text;
  }
}

TEST(Table, TheHeaderTellsTheSeparator) {
  EXPECT_EQ(sound_table("part,\"a;b;c\",x\n").separator, ',');
  EXPECT_EQ(sound_table("part;size, mm\n").separator, ';');
  EXPECT_EQ(sound_table("reading\n84.02\n").separator, ',');
}

TEST(Table, QuotesHoldInchMarksAndLineBreaks) {
  const Table table = sound_table("reading,note\n\"3.308\"\"\",\"two\nlines\"\n3.309\",after\n");
  ASSERT_EQ(table.rows.size(), 2U);
  EXPECT_EQ(table.rows[0].cells[0].text, "3.308\"");
  EXPECT_EQ(table.rows[0].cells[1].text, "two\nlines");
  EXPECT_EQ(table.rows[1].line, 4);
  EXPECT_EQ(table.rows[1].cells[0].text, "3.309\"");
}

TEST(Table, PlacesCountCharacters) {
  const Table table = sound_table("a;b\nµµ;x\n\"µ\";  y\n\"1\r\n2\";z\n");
  EXPECT_EQ(table.place(table.rows[0], 1), (Place{"r.csv", 2, 4}));
  EXPECT_EQ(table.place(table.rows[1], 0), (Place{"r.csv", 3, 2}));  // the character, not its quote
  EXPECT_EQ(table.place(table.rows[1], 1), (Place{"r.csv", 3, 7}));  // nor its blanks
  EXPECT_EQ(table.place(table.rows[2], 1), (Place{"r.csv", 5, 4}));
}

TEST(Table, ShortRowsAreFilled) {
  const Table table = sound_table("a,b,c\n1\n1,,,,\n");
  EXPECT_EQ(table.rows[0].cells.size(), 3U);
  EXPECT_EQ(table.rows[1].cells.size(), 3U);
}

TEST(Table, FindsColumns) {
  const Table table = sound_table("part,reading\n");
  EXPECT_EQ(table.find_column("reading"), 1U);
  EXPECT_EQ(table.find_column("Reading"), std::nullopt);
}

TEST(Table, RefusesAllAtOnce) {
  EXPECT_EQ(codes(""), (std::vector<std::string>{"entry.table_empty"}));
  EXPECT_EQ(codes("# only\n\n"), (std::vector<std::string>{"entry.table_empty"}));
  EXPECT_EQ(codes("a,a,\n"), (std::vector<std::string>{"entry.table_column_twice", "entry.table_column_unnamed"}));
  EXPECT_EQ(codes("a,b\n1,2,3\n4,5,6\n"), (std::vector<std::string>{"entry.table_too_many_cells", "entry.table_too_many_cells"}));
  EXPECT_EQ(places("a,b\n1,2,3\n"), (std::vector<Place>{{"r.csv", 2, 5}}));
  EXPECT_EQ(codes("a,b\n\"1\"x,2\n"), (std::vector<std::string>{"entry.table_quote_inside"}));
  EXPECT_EQ(codes("a\n" + std::string(70'000, 'x') + "\n"), (std::vector<std::string>{"entry.table_line_too_long"}));
  EXPECT_EQ(codes(std::string(70'000, 'x') + "\na,b\n"), (std::vector<std::string>{"entry.table_line_too_long"}));
}

TEST(Table, AnOpenQuoteHidesNoLaterProblem) {
  const std::string text = "a,b\n1,\"2\n3,4,5\n6,7\n";
  EXPECT_EQ(codes(text), (std::vector<std::string>{"entry.table_open_quote", "entry.table_too_many_cells"}));
  EXPECT_EQ(places(text), (std::vector<Place>{{"r.csv", 2, 3}, {"r.csv", 3, 5}}));
  Problems problems;
  EXPECT_EQ(read_table(text, "r.csv", problems).rows.size(), 1U);
}

TEST(Table, BytesThatAreNoTextArePointedAt) {
  EXPECT_EQ(codes("a,b\nµ\xff,1\n"), (std::vector<std::string>{"entry.table_not_utf8"}));
  EXPECT_EQ(places("a,b\nµ\xff,1\n"), (std::vector<Place>{{"r.csv", 2, 2}}));
}

TEST(Table, HasALargestNumberOfRows) {
  std::string text = "a\n";
  for (int i = 0; i < 200'000; ++i) text += "1\n";
  EXPECT_EQ(sound_table(text).rows.size(), 200'000U);
  Problems problems;
  EXPECT_TRUE(read_table(text + "1\n", "r.csv", problems).rows.empty());
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].code, "entry.table_too_many_rows");
  EXPECT_EQ(problems[0].place.line, 200'002);
}

}  // namespace
}  // namespace fettle
