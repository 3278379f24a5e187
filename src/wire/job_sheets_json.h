#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "limits/sheet_draft.h"
#include "wire/border_json.h"

namespace fettle {

// The sheets of a job, and what a version of one would do, in words (docs/HTTP.md).

struct JobSheetsPage {
  struct Unused {
    std::string row;
    std::string what;
    std::string why;
  };
  struct Sheet {
    std::string sheet;
    std::int64_t versions;
    std::int64_t limits;
    SheetDraft draft;  ///< of the version in force
    std::vector<Unused> unused;
  };
  std::int64_t position;
  std::vector<Sheet> sheets;
};
/// sheets.schema.json
[[nodiscard]] std::string job_sheets_json(const JobSheetsPage& page);

struct SheetEffectPage {
  struct Word {
    std::string state;
    std::string words;
  };
  struct Change {
    std::string name;
    bool other_word;
    std::optional<Word> before;  ///< nothing: there was none
    std::optional<Word> now;
  };
  std::vector<SaidProblem> problems;  ///< why it cannot be said; then nothing else is
  std::string sentence;
  std::vector<Change> verdicts;       ///< those with another word first
  std::vector<Change> parts;
  std::optional<Change> engine;
};
/// sheet-effect.schema.json
[[nodiscard]] std::string sheet_effect_json(const SheetEffectPage& page);

}  // namespace fettle
