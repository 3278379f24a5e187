#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "catalogue/kind.h"
#include "catalogue/layout.h"
#include "catalogue/words.h"
#include "gauging/found_out.h"
#include "gauging/gauge.h"
#include "gauging/part.h"
#include "gauging/reading.h"
#include "gauging/setting.h"
#include "gauging/studied_gauge.h"
#include "limits/limit.h"
#include "limits/sheet.h"
#include "verdict/finding.h"
#include "verdict/rule.h"
#include "verdict/verdict.h"

namespace fettle {

// Every event type, in one file. A payload never changes its meaning: a new meaning is a new version.

struct JobOpened {
  std::string name;
  std::optional<DecimalMark> decimal_mark;
  std::optional<TradeWords> trade_words;
  UnitId shown_unit;  ///< lengths in results
  std::string remark;
  bool operator==(const JobOpened&) const = default;
};

/// Enough to point at the thrust side of a cylinder: which end is number 1, the banks, which way it turns and seen from where.
struct EngineDescribed {
  std::string name;
  std::optional<std::int64_t> cylinders;
  std::vector<std::string> banks;
  std::string number_one_end;
  std::optional<NeedleSide> turns;  ///< clockwise or anticlockwise ...
  std::string seen_from;            ///< ... seen from here
  std::string thrust_side;          ///< what a person standing at the engine sees there
  std::string remark;
  std::optional<std::string> serial = {};  ///< as stamped: by it an engine is known again at its next rebuild
  bool operator==(const EngineDescribed&) const = default;
};

/// The places where parts of a kind are read in this job, in place of the catalogue's.
struct LayoutChosen {
  std::string kind;
  Layout layout;
  bool operator==(const LayoutChosen&) const = default;
};

struct PartEntered {
  Part part;
  bool operator==(const PartEntered&) const = default;
};
struct FindingSeen {
  Finding finding;
  bool operator==(const FindingSeen&) const = default;
};
struct GaugeRegistered {
  Gauge gauge;
  bool operator==(const GaugeRegistered&) const = default;
};
struct SettingMade {
  Setting setting;
  bool operator==(const SettingMade&) const = default;
};
struct GaugeFoundOut {
  FoundOut found;
  bool operator==(const GaugeFoundOut&) const = default;
};
struct ReadingTaken {
  Reading reading;
  bool operator==(const ReadingTaken&) const = default;
};
struct LimitEntered {
  Limit limit;
  bool operator==(const LimitEntered&) const = default;
};
/// A sheet of limits as typed from a book, whole. A later one of the same id is its next version and takes its place; this one stays for ever.
struct SheetEntered {
  std::string sheet;  ///< id in the job
  LimitSheet of;
  std::string why;    ///< of a next version; may be empty
  bool operator==(const SheetEntered&) const = default;
};
struct RuleChosen {
  Rule rule;
  bool operator==(const RuleChosen&) const = default;
};

/// An event that shall count no longer: typed wrong, or taken back. It stays in the log for ever. Withdrawing a withdrawal brings back
/// what it took away.
struct EventWithdrawn {
  std::string event;
  std::string why;
  bool operator==(const EventWithdrawn&) const = default;
};

/// A photo or a paper that belongs to the job; its bytes are kept by their hash.
struct FileAttached {
  std::string hash;                 ///< 64 hexadecimal digits
  std::string type;                 ///< image/jpeg, image/png, application/pdf
  std::string name;                 ///< as the person's file was called; may be empty
  std::optional<std::string> part;  ///< nothing: of the engine
  std::string note;
  bool operator==(const FileAttached&) const = default;
};

/// A look at the zero while a gauge is in use: back on the same locked master, the rim untouched, the needle read.
struct ZeroLooked {
  std::string setting;
  std::string round;         ///< as the readings have it; may be empty
  std::int64_t after_order;  ///< after the reading of this order in the round; 0: before the first
  TypedQuantity shows;       ///< needle place
  bool closes;               ///< at the end of the round
  bool operator==(const ZeroLooked&) const = default;
};

/// How warm the parts and the master were while a setting was in use. What is left out stays as the setting has it.
struct TemperaturesTaken {
  std::string setting;
  std::optional<TypedQuantity> part;
  std::optional<TypedQuantity> master;
  bool operator==(const TemperaturesTaken&) const = default;
};

enum class TakenWord { within, beyond };

/// What a person decided of a part, or of one limit of it. The last one of the two counts.
struct VerdictTaken {
  std::string part;
  std::optional<std::string> limit;  ///< nothing: of the part as a whole
  TakenWord word;
  std::string why;           ///< may be empty where the program says the same
  VerdictWord program_word;  ///< what the program said then
  bool operator==(const VerdictTaken&) const = default;
};

/// The step at which parts stand now, and where it was seen. In place of the step with which they were entered.
struct StepSeen {
  std::vector<std::string> parts;
  Step step;
  bool operator==(const StepSeen&) const = default;
};

/// What became of one step of taking the engine apart. The last answer of each step counts.
enum class StripAnswer { done, not_wanted, cannot };
inline constexpr WordTable<StripAnswer, 3> kStripAnswers{
    {{"done", StripAnswer::done}, {"not-wanted", StripAnswer::not_wanted}, {"cannot", StripAnswer::cannot}}};
struct StripStepAnswered {
  std::string step;  ///< id in the catalogue
  StripAnswer answer;
  std::string note;  ///< may be empty
  bool operator==(const StripStepAnswered&) const = default;
};

/// That parts were brought into a state in which they can be measured: cleaned, dried, rested, clamped.
struct PartsReady {
  std::vector<std::string> parts;
  MeasuredWhen state;
  std::string at;  ///< when, as typed with its offset; may be empty
  bool operator==(const PartsReady&) const = default;
};

/// What became of a question whether a reading is a mistake of a hand. agrees_with_first: read again, the same. agrees_with_expectation: read
/// again, and the other reading is what was expected. stands: a person said so. later: put off. The last answer of each reading counts; a
/// reading is known by its place, its setting and its text, so that a readable copy can say it too.
enum class QuestionAnswer { agrees_with_first, agrees_with_expectation, stands, later };
inline constexpr WordTable<QuestionAnswer, 4> kQuestionAnswers{{{"agrees-with-first", QuestionAnswer::agrees_with_first},
                                                                {"agrees-with-expectation", QuestionAnswer::agrees_with_expectation},
                                                                {"stands", QuestionAnswer::stands},
                                                                {"later", QuestionAnswer::later}}};
struct QuestionAnswered {
  std::string part;
  std::string station;
  std::string direction;
  std::string setting;
  std::string reading;   ///< as it was typed
  std::string mistake;   ///< code of what was asked about: "needle-side"
  std::int64_t in_100;   ///< chance of a mistake when it was asked; 0: not known
  QuestionAnswer answer;
  std::optional<std::string> second;  ///< the second reading, as it was typed
  bool operator==(const QuestionAnswered&) const = default;
};
[[nodiscard]] inline bool answers_same(const QuestionAnswered& a, const QuestionAnswered& b) {
  return a.part == b.part && a.station == b.station && a.direction == b.direction && a.setting == b.setting && a.reading == b.reading;
}

/// What a gauge study found: from then on it stands for the repeatability of its gauge in its person's hand.
struct GaugeStudied {
  StudiedGauge study;
  bool operator==(const GaugeStudied&) const = default;
};

using Payload = std::variant<JobOpened, EngineDescribed, LayoutChosen, PartEntered, FindingSeen, GaugeRegistered, SettingMade,
                             GaugeFoundOut, ReadingTaken, LimitEntered, RuleChosen, EventWithdrawn, FileAttached, ZeroLooked,
                             TemperaturesTaken, VerdictTaken, SheetEntered, StepSeen, StripStepAnswered, PartsReady,
                             GaugeStudied, QuestionAnswered>;

struct EventType {
  std::string_view name;
  int version;
};

[[nodiscard]] EventType type_of(const Payload& payload);

/// One thing that happened. Never changed after it was accepted.
struct EventEnvelope {
  std::string id;               ///< unique in the job: 32 hexadecimal digits
  std::string job;
  std::string device;           ///< where it was made
  std::int64_t device_sequence; ///< the person's order
  std::string made_at;          ///< as typed, with its offset; may be empty. Decides nothing
  std::string who;              ///< may be empty
  Payload payload;
  bool operator==(const EventEnvelope&) const = default;
};

}  // namespace fettle
