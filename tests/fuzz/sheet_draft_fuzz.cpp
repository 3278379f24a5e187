#include <cstddef>
#include <cstdint>
#include <string>

#include "app/proof_draft.h"
#include "text/sentence.h"
#include "wire/sheet_draft_reader.h"

namespace {

void say_all(const fettle::Problems& problems) {
  for (const fettle::Problem& problem : problems) {
    for (fettle::Language language : {fettle::Language::english, fettle::Language::german}) (void)fettle::sentence(problem, language);
  }
}

}  // namespace

/// The body of a page of a book as somebody types it: read, proof-read, and typed back.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto draft = fettle::read_draft_body(std::string(data, data + size));
  if (!draft.ok()) {
    say_all(draft.problems());
    return 0;
  }
  const fettle::DraftProof proof = fettle::proof_draft(draft.value(), fettle::catalogue());
  say_all(proof.read.problems);
  std::size_t readable = 0;
  for (const fettle::DraftRowRead& row : proof.read.rows) {
    readable += row.readable ? 1U : 0U;
    say_all(row.problems);
    for (const fettle::DraftCellRead& cell : row.cells) {
      say_all(cell.problems);
      for (const fettle::Message& each : cell.understood) (void)fettle::sentence(each, fettle::Language::german);
    }
  }
  FETTLE_ASSERT(readable == proof.read.sheet.rows.size(), "a readable row is a row of the sheet");
  FETTLE_ASSERT(proof.hold.size() == proof.read.sheet.decisions.size(), "of each decision whether it holds");
  const fettle::SheetDraftRead again = fettle::read_sheet_draft(fettle::draft_of(proof.read.sheet), fettle::catalogue());
  FETTLE_ASSERT(again.sheet.rows.size() == readable, "what was read is read again");
  return 0;
}
