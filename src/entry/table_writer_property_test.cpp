#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "entry/table.h"
#include "entry/table_writer.h"

namespace fettle {
namespace {

/// Pieces that a table could trip over.
std::string any_cell() {
  const auto piece = rc::gen::element<std::string>(",", ";", "\t", "\"", "\n", " ", "#", "'", "=", "+", "-", "@", "\\", "a", "Ø", "é", "\u2028",
                                                   "\xEF\xBB\xBF", "\x01", "\x7F", "1,5", "\"\"");
  std::string out;
  for (const std::string& each : *rc::gen::resize(6, rc::gen::container<std::vector<std::string>>(piece))) out += each;
  return out;
}

RC_GTEST_PROP(TableWriterProperty, TheReaderReadsWhatWasWritten, ()) {
  const char separator = *rc::gen::element(',', ';', '\t');
  const auto columns = *rc::gen::inRange<std::size_t>(2, 6);
  TableWriter writer(separator, *rc::gen::element<std::string>("\n", "\r\n"));
  std::vector<std::vector<std::string>> rows(1);
  for (std::size_t c = 0; c < columns; ++c) rows[0].push_back("column " + std::to_string(c));
  const auto more = *rc::gen::inRange<std::size_t>(0, 5);
  for (std::size_t r = 0; r < more; ++r) {
    rows.emplace_back();
    for (std::size_t c = 0; c < columns; ++c) rows.back().push_back(any_cell());
  }
  for (const auto& row : rows) writer.row(row);

  Problems problems;
  const Table table = read_table(writer.text(), "t", problems);
  RC_ASSERT(problems.empty());
  RC_ASSERT(table.header == rows.front());
  RC_ASSERT(table.rows.size() == more);
  for (std::size_t r = 0; r < more; ++r) {
    for (std::size_t c = 0; c < columns; ++c) RC_ASSERT(table.rows[r].cells[c].text == rows[r + 1][c]);
  }
}

}  // namespace
}  // namespace fettle
