#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "wire/border_json.h"

namespace fettle {

// What is understood of a page of a book while it is typed, in words (docs/HTTP.md).

struct SheetDraftPage {
  struct Cell {
    std::string column;
    std::optional<std::string> understood;
    std::vector<SaidProblem> problems;
  };
  struct Row {
    std::string row;                  ///< id of the draft
    std::string name;                 ///< by which other rows name it; empty: it is blank
    std::vector<Cell> cells;          ///< of which there is something to say
    std::vector<SaidProblem> problems;
    std::optional<std::string> waits; ///< for rows that cannot be read yet
    std::int64_t limits;              ///< that it gives
    bool open;                        ///< one of them rests on a figure that is asked about
    std::optional<std::string> unused;  ///< why it gives none
  };
  struct Place {
    std::string row;
    std::string field;
  };
  struct PutRight {
    Place at;
    std::string where;    ///< in words
    std::string printed;  ///< there, for the decision
    std::string to;       ///< for the decision
    std::string said;     ///< for the key
  };
  struct Finding {
    std::string rule;
    std::string sure;
    std::string sure_words;
    std::string arithmetic;
    std::vector<Place> spots;
    std::vector<std::string> spot_words;
    std::string printed;       ///< at the first spot, for the decision
    std::string printed_said;
    std::vector<PutRight> likeliest;
    std::optional<std::int64_t> decided;  ///< which of the decisions answers it
  };
  struct Decision {
    std::string said;
    bool holds;
  };
  std::vector<SaidProblem> problems;
  std::vector<Row> rows;
  std::vector<Finding> findings;
  std::vector<Decision> decisions;  ///< in the order of the draft
  std::int64_t limits;
  std::string sentence;
};

/// sheet-draft-proof.schema.json
[[nodiscard]] std::string sheet_draft_json(const SheetDraftPage& page);

struct DefinitionListPage {
  struct Choice {
    std::string id;
    std::string name;
    bool usual;  ///< the kind's own places are enough
    std::string picture;
  };
  struct Characteristic {
    std::string id;
    std::string name;
    bool must_name;  ///< each definition is a figure of its own: the book must say which
    std::vector<Choice> definitions;
  };
  std::string kind;
  std::string name;
  std::vector<Characteristic> characteristics;
};

/// definition-list.schema.json
[[nodiscard]] std::string definition_list_json(const DefinitionListPage& page);

}  // namespace fettle
