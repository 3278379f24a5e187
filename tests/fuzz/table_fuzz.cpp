#include <cstddef>
#include <cstdint>
#include <string>

#include "base/assertion.h"
#include "entry/table.h"
#include "text/sentence.h"

namespace {

/// What table.h promises of every table, whatever the text was.
void check_promises(const fettle::Table& table) {
  for (const fettle::Row& row : table.rows) {
    FETTLE_ASSERT(row.cells.size() == table.header.size(), "a row has as many cells as the header");
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const fettle::Place place = table.place(row, i);
      FETTLE_ASSERT(place.line >= row.line && place.column >= 1, "a cell stands in its row");
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fettle::Problems problems;
  check_promises(fettle::read_table(std::string(data, data + size), "f", problems));
  for (const fettle::Problem& problem : problems) {
    for (fettle::Language language : {fettle::Language::english, fettle::Language::german}) {
      (void)fettle::sentence(problem, language);
    }
  }
  return 0;
}
