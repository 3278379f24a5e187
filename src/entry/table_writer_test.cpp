#include "entry/table_writer.h"

#include <gtest/gtest.h>

#include "entry/table.h"

namespace fettle {
namespace {

std::string written(const std::vector<std::string>& cells, char separator = ',') {
  TableWriter writer(separator, "\n");
  writer.row(cells);
  return writer.text();
}

TEST(TableWriter, QuotesOnlyWhatNeedsIt) {
  EXPECT_EQ(written({"bore-1", "+0,031", "31 cw", ""}, ';'), "bore-1;\"+0,031\";31 cw;\n");
  EXPECT_EQ(written({"3.308\"", "a\nb", " c", "d ", "\te"}), "\"3.308\"\"\",\"a\nb\",\" c\",\"d \",\"\te\"\n");
  EXPECT_EQ(written({"=1+1", "-2", "@"}), "=1+1,-2,@\n");
}

TEST(TableWriter, WhatWouldBeSkippedIsQuoted) {
  EXPECT_EQ(written({"#1", "#2"}), "\"#1\",\"#2\"\n");
  EXPECT_EQ(written({""}), "\"\"\n");
  EXPECT_EQ(written({"\xEF\xBB\xBFname"}), "\"\xEF\xBB\xBFname\"\n");
}

TEST(TableWriter, TheReaderFindsTheDialect) {
  TableWriter writer(';', "\r\n");
  writer.row({"a", "b,c,d", "e"});
  writer.row({"1,5", "", "x"});
  Problems problems;
  const Table table = read_table(writer.text(), "t", problems);
  EXPECT_TRUE(problems.empty());
  EXPECT_EQ(table.separator, ';');
  EXPECT_EQ(table.header, (std::vector<std::string>{"a", "b,c,d", "e"}));
  ASSERT_EQ(table.rows.size(), 1U);
  EXPECT_EQ(table.rows[0].cells[0].text, "1,5");
}

}  // namespace
}  // namespace fettle
