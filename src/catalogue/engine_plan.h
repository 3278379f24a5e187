#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/layout.h"

namespace fettle {

/// Holds where the question was answered by one of the words.
struct EngineCondition {
  std::string question;
  std::vector<std::string> any_of;
  bool operator==(const EngineCondition&) const = default;
};

/// One thing to know of an engine before it is known which parts it has. Text keys "engine_question." + id, and "engine_choice." + word.
struct EngineQuestion {
  std::string id;
  std::vector<std::string> choices;  ///< words, the usual one first; empty: a count
  int least = 0;
  int most = 0;
  std::string usual;                 ///< of a count: a number, or one of the scopes of a planned part
  int usual_more = 0;                ///< on top of it
  std::vector<EngineCondition> when;
  bool operator==(const EngineQuestion&) const = default;
};

/// Which planned part takes a place in an assembly.
struct EnginePartMember {
  std::string role;
  std::string name;   ///< of the planned part that takes it
  bool next = false;  ///< the one after the part of the same number
  bool operator==(const EnginePartMember&) const = default;
};
/// Parts of which an engine has one per engine, head, bank, cylinder, gap (between neighbours), pin, main, valve, inlet, exhaust, camshaft or
/// cam-bearing.
struct EnginePart {
  std::string kind;
  std::string name;                    ///< the ids begin with it: "bore-1"
  std::string per;
  std::string mark;                    ///< behind the position where a kind comes twice: "upper"; may be empty
  std::vector<EngineCondition> when;
  std::vector<EnginePartMember> members;
  std::string stations_per;            ///< the kind's stations are numbered, as many as there are of this scope; may be empty
  std::vector<std::string> only;       ///< of the kind's stations these alone; empty: all
  bool operator==(const EnginePart&) const = default;
};

/// engine_parts.toml.
struct EngineData {
  std::vector<EngineQuestion> questions;
  std::vector<EnginePart> parts;
};

/// Answers by question; a question that is not in it has its usual answer.
using EngineAnswers = std::map<std::string, std::string>;

struct PlannedMember {
  std::string role;
  std::string part;
  bool operator==(const PlannedMember&) const = default;
};
struct PlannedPart {
  std::string id;
  std::string kind;
  std::string position;
  std::vector<PlannedMember> members;
  bool operator==(const PlannedPart&) const = default;
};
struct PlannedLayout {
  std::string kind;
  Layout layout;
  bool operator==(const PlannedLayout&) const = default;
};

/// An engine as its answers describe it.
struct EnginePlan {
  EngineAnswers answers;                ///< to all questions that play a part, the usual ones filled in
  std::vector<PlannedPart> parts;
  std::vector<PlannedLayout> layouts;   ///< where the catalogue's own is for another number of cylinders or mains
  std::vector<std::string> banks;       ///< letters; empty: one bank
  int cylinders = 0;
};

/// The questions in the order in which they are asked, and the parts in the order of the file. Built in, read once.
[[nodiscard]] const EngineData& engine_data();

/// The engine of these answers. Problems, all at once: engine.question_unknown, engine.question_idle (an answer that plays no part with the
/// others), engine.choice_unknown, engine.count_bad, engine.banks_uneven.
[[nodiscard]] Result<EnginePlan> plan_engine(const EngineAnswers& answers);

/// "bore-2": as the parts of a kind are called; the kind's own id where no engine plan has it.
[[nodiscard]] std::string part_name_of_kind(std::string_view kind);

}  // namespace fettle
