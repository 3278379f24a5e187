#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "job/events.h"
#include "limits/sheet_draft.h"

namespace fettle {

// What a device sends: what was typed, never what it means (docs/HTTP.md).

struct ReadingAct {
  std::string part;
  std::string station;
  std::string direction;
  std::string text;
  std::optional<UnitId> unit;  ///< of a text that has none of its own
  std::string setting;
  std::string round;
  std::int64_t order;
  std::optional<std::int64_t> repeat;
  std::optional<ReadingFlag> flag;
  std::optional<std::string> note;
  std::optional<std::string> supersedes;
  std::optional<std::string> why;
  std::optional<std::string> read_by;
  std::optional<std::string> temperature;
};
struct SettingAct {
  std::string setting;
  std::string gauge;
  std::optional<std::string> master;
  std::optional<std::string> wanted;
  std::optional<std::string> set;
  std::optional<std::vector<std::string>> zeros;
  std::optional<std::string> master_temperature;
  std::optional<std::string> part_temperature;
  std::optional<std::string> locked_on;
  std::optional<std::string> afresh_of;
};
struct GaugeAct {
  std::string gauge;
  std::string preset;
  std::optional<std::string> division;
  std::optional<std::string> turn;
  std::optional<NeedleSide> pressed_in;
  std::optional<std::string> reads;
  std::optional<std::string> on_standard;
  std::optional<std::string> marked;
};
struct ZeroAct {
  std::string setting;
  std::string round;
  std::int64_t after_order;
  std::string shows;
  bool closes;
};
struct TemperaturesAct {
  std::string setting;
  std::optional<std::string> part;
  std::optional<std::string> master;
};
struct LimitAct {
  std::string limit;
  std::string kind;
  std::string definition;
  LimitRole role;
  LimitSide side;
  std::string bound;
  std::optional<std::string> book;
  std::optional<std::string> edition;
  std::optional<std::string> page;
  std::optional<std::string> thumb;  ///< id of an offer of a rule of thumb that is accepted (app/thumb_offers.h); then no book is asked
};
struct FindingAct {
  std::string part;
  std::string what;
  FindingWeight weight;
  std::optional<std::string> where;
  std::optional<std::string> depth;
  std::optional<FindingSort> sort = {};
  std::optional<FindingTest> test = {};
  std::optional<TestOutcome> outcome = {};
  std::optional<std::string> station = {};
  std::optional<std::string> direction = {};
  std::optional<std::string> photo = {};
};
/// The present step of parts, and where it was seen.
struct StepSeenAct {
  std::vector<std::string> parts;
  StepKind step;
  std::optional<std::string> offset;  ///< of an oversize or undersize, with its sign
  std::optional<std::string> seen;
};
struct StripStepAct {
  std::string step;
  StripAnswer answer;
  std::optional<std::string> note;
};
/// Parts were cleaned, dried, rested ...: at the time of the act.
struct ReadyAct {
  std::vector<std::string> parts;
  MeasuredWhen state;
};
/// What a person says of a reading that was asked about, without reading it again: that it stands, or that the question is put off.
struct AnswerAct {
  std::string part;
  std::string station;
  std::string direction;
  std::string setting;
  std::string reading;  ///< as it was typed
  std::string mistake;  ///< what was asked about
  std::int64_t in_100;  ///< chance of a mistake, as it was shown
  QuestionAnswer answer;
};
struct TakeVerdictAct {
  std::string part;
  std::optional<std::string> limit;
  TakenWord word;
  std::optional<std::string> why;
};
/// A page of a book; of the same id the next version of it.
struct SheetAct {
  std::string sheet;
  SheetDraft draft;
  std::optional<std::string> why;  ///< of a next version
};
struct WithdrawAct {
  std::string event;
  std::string why;
};

using ActBody = std::variant<ReadingAct, SettingAct, GaugeAct, ZeroAct, TemperaturesAct, LimitAct, FindingAct, TakeVerdictAct, WithdrawAct, SheetAct,
                             StepSeenAct, StripStepAct, ReadyAct, AnswerAct>;

/// By whom, where and when; the id is the event's to be.
struct ActHead {
  std::string id;
  std::string device;
  std::int64_t sequence;
  std::string made_at;
  std::string who;
};

struct Act {
  ActHead head;
  ActBody body;
};

/// A new rebuild, as the first page asks for it.
struct NewEngineAct {
  struct Group {
    std::string kind;
    std::int64_t count;
  };
  /// To one of the questions of catalogue/engine_plan.h.
  struct Answer {
    std::string question;
    std::string answer;
  };
  ActHead head;
  std::string name;
  std::string engine;
  UnitId shown_unit;
  std::optional<DecimalMark> decimal_mark;
  std::vector<Group> groups;
  std::optional<std::string> number_one_end;
  std::optional<NeedleSide> turns;
  std::optional<std::string> seen_from;
  std::optional<std::string> thrust_side;
  std::optional<std::vector<Answer>> answers = {};         ///< the parts follow from them; `groups` come on top
  std::optional<std::vector<std::string>> left_out = {};   ///< kinds that follow and are not wanted
};

}  // namespace fettle
