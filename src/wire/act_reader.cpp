#include "wire/act_reader.h"

#include <utility>

#include "wire/act_head.h"
#include "wire/event_id.h"
#include "wire/event_json.h"
#include "wire/event_reader.h"
#include "wire/sheet_draft_fields.h"

namespace fettle {
namespace json {

constexpr WordTable<UnitId, 2> kShownUnitWords{{{"mm", UnitId::millimetre}, {"in", UnitId::inch}}};

void describe(EventReader& walk, ActHead& head) {
  walk("id", head.id);
  walk("device", head.device);
  walk("sequence", head.sequence);
  walk("made_at", head.made_at);
  walk("who", head.who);
}
void describe(EventReader& walk, ReadingAct& act) {
  walk("part", act.part);
  walk("station", act.station);
  walk("direction", act.direction);
  walk("text", act.text);
  walk("unit", act.unit);
  walk("setting", act.setting);
  walk("round", act.round);
  walk("order", act.order);
  walk("repeat", act.repeat);
  walk("flag", act.flag);
  walk("note", act.note);
  walk("supersedes", act.supersedes);
  walk("why", act.why);
  walk("read_by", act.read_by);
  walk("temperature", act.temperature);
}
void describe(EventReader& walk, SettingAct& act) {
  walk("setting", act.setting);
  walk("gauge", act.gauge);
  walk("master", act.master);
  walk("wanted", act.wanted);
  walk("set", act.set);
  walk("zeros", act.zeros);
  walk("master_temperature", act.master_temperature);
  walk("part_temperature", act.part_temperature);
  walk("locked_on", act.locked_on);
  walk("afresh_of", act.afresh_of);
}
void describe(EventReader& walk, GaugeAct& act) {
  walk("gauge", act.gauge);
  walk("preset", act.preset);
  walk("division", act.division);
  walk("turn", act.turn);
  walk("pressed_in", act.pressed_in);
  walk("reads", act.reads);
  walk("on_standard", act.on_standard);
  walk("marked", act.marked);
}
void describe(EventReader& walk, ZeroAct& act) {
  walk("setting", act.setting);
  walk("round", act.round);
  walk("after_order", act.after_order);
  walk("shows", act.shows);
  walk("closes", act.closes);
}
void describe(EventReader& walk, TemperaturesAct& act) {
  walk("setting", act.setting);
  walk("part", act.part);
  walk("master", act.master);
}
void describe(EventReader& walk, LimitAct& act) {
  walk("limit", act.limit);
  walk("kind", act.kind);
  walk("definition", act.definition);
  walk("role", act.role);
  walk("side", act.side);
  walk("bound", act.bound);
  walk("book", act.book);
  walk("edition", act.edition);
  walk("page", act.page);
  walk("thumb", act.thumb);
}
void describe(EventReader& walk, FindingAct& act) {
  walk("part", act.part);
  walk("what", act.what);
  walk("weight", act.weight);
  walk("where", act.where);
  walk("depth", act.depth);
  walk("sort", act.sort);
  walk("test", act.test);
  walk("outcome", act.outcome);
  walk("station", act.station);
  walk("direction", act.direction);
  walk("photo", act.photo);
}
void describe(EventReader& walk, StepSeenAct& act) {
  walk("parts", act.parts);
  walk("step", act.step);
  walk("offset", act.offset);
  walk("seen", act.seen);
}
void describe(EventReader& walk, StripStepAct& act) {
  walk("step", act.step);
  walk("answer", act.answer);
  walk("note", act.note);
}
void describe(EventReader& walk, ReadyAct& act) {
  walk("parts", act.parts);
  walk("state", act.state);
}
void describe(EventReader& walk, AnswerAct& act) {
  walk("part", act.part);
  walk("station", act.station);
  walk("direction", act.direction);
  walk("setting", act.setting);
  walk("reading", act.reading);
  walk("mistake", act.mistake);
  walk("in_100", act.in_100);
  walk("answer", act.answer);
}
void describe(EventReader& walk, TakeVerdictAct& act) {
  walk("part", act.part);
  walk("limit", act.limit);
  walk("word", act.word);
  walk("why", act.why);
}
void describe(EventReader& walk, WithdrawAct& act) {
  walk("event", act.event);
  walk("why", act.why);
}
void describe(EventReader& walk, SheetAct& act) {
  walk("sheet", act.sheet);
  walk("draft", act.draft);
  walk("why", act.why);
}
void describe(EventReader& walk, NewEngineAct::Group& group) {
  walk("kind", group.kind);
  walk("count", group.count);
}
void describe(EventReader& walk, NewEngineAct::Answer& answer) {
  walk("question", answer.question);
  walk("answer", answer.answer);
}

}  // namespace json

namespace {

using json::EventReader;
using json::Read;
using json::Spot;

constexpr std::string_view kActWords[] = {"reading", "setting", "gauge", "zero", "temperatures", "limit", "finding", "take-verdict", "withdraw", "sheet",
                                              "step-seen", "strip-step", "ready", "answer"};
static_assert(std::size(kActWords) == std::variant_size_v<ActBody>);

std::string known_acts() {
  std::string out;
  for (const std::string_view each : kActWords) out += (out.empty() ? "" : ", ") + std::string(each);
  return out;
}

template <std::size_t... I>
bool read_body(EventReader& reader, const std::string& name, ActBody& body, std::index_sequence<I...>) {
  const auto one = [&](auto index) {
    if (kActWords[index] != name) return false;
    json::describe(reader, body.emplace<decltype(index)::value>());
    return true;
  };
  return (one(std::integral_constant<std::size_t, I>{}) || ...);
}

/// Counts within a round start at 1; what comes after the zeroth came before the first.
void check_counts(const ActBody& body, const Spot& spot) {
  const auto check = [&](const char* key, std::int64_t value, std::int64_t least) {
    if (value < least || value > 1'000'000) spot.inside(key).add("wire.out_of_range", {verbatim("least", std::to_string(least)), verbatim("most", "1000000")});
  };
  if (const auto* reading = std::get_if<ReadingAct>(&body)) {
    check("order", reading->order, 1);
    if (reading->repeat) check("repeat", *reading->repeat, 1);
  }
  if (const auto* zero = std::get_if<ZeroAct>(&body)) check("after_order", zero->after_order, 0);
  if (const auto* answer = std::get_if<AnswerAct>(&body)) check("in_100", answer->in_100, 0);
}

void check_head(const ActHead& head, const Spot& spot) {
  if (!json::is_event_id(head.id)) spot.inside("id").add("wire.not_an_id");
}

Act read_act(const Read& node, const Spot& spot) {
  Act act{};
  const std::size_t before = spot.problems.size();
  EventReader reader(node, spot);
  json::describe(reader, act.head);
  if (spot.problems.size() == before) check_head(act.head, spot);
  const std::size_t before_body = spot.problems.size();
  std::string name;
  reader("act", name);
  // Of an act that is not known nothing else can be said.
  const bool named = spot.problems.size() == before || !name.empty();
  if (!node.is_object() || !named) return act;
  if (!read_body(reader, name, act.body, std::make_index_sequence<std::variant_size_v<ActBody>>{})) {
    spot.inside("act").add("wire.unknown_act", {verbatim("act", name), verbatim("known", known_acts())});
    return act;
  }
  reader.finish();
  if (spot.problems.size() == before_body) check_counts(act.body, spot);
  return act;
}

template <class T, class Fill>
Result<T> read_whole(std::string_view body, const Fill& fill) {
  Problems problems;
  const Place place;
  const auto node = json::read_line(body, place, problems);
  if (!node) return problems;
  T out{};
  fill(*node, Spot{"", place, problems}, out);
  if (!problems.empty()) return problems;
  return out;
}

}  // namespace

Result<std::vector<Act>> read_acts(std::string_view body) {
  return read_whole<std::vector<Act>>(body, [](const Read& node, const Spot& spot, std::vector<Act>& out) {
    EventReader reader(node, spot);
    const Read* acts = reader.required("acts");
    reader.finish();
    if (acts == nullptr) return;
    if (!acts->is_array()) return spot.inside("acts").wrong_kind("wire.a_list");
    if (acts->empty()) return spot.inside("acts").add("wire.no_acts");
    if (acts->size() > std::size_t{kMostActs}) return spot.inside("acts").add("wire.too_many_acts", {count("most", kMostActs)});
    for (std::size_t i = 0; i < acts->size() && !spot.full(); ++i) out.push_back(read_act((*acts)[i], spot.inside("acts").item(i)));
  });
}

Result<ReadingAct> read_understood(std::string_view body) {
  return read_whole<ReadingAct>(body, [](const Read& node, const Spot& spot, ReadingAct& out) {
    EventReader reader(node, spot);
    json::describe(reader, out);
    reader.finish();
    if (spot.problems.empty()) check_counts(out, spot);
  });
}

Result<NewEngineAct> read_new_engine(std::string_view body) {
  return read_whole<NewEngineAct>(body, [](const Read& node, const Spot& spot, NewEngineAct& out) {
    Read given = node;
    if (given.is_object() && given.contains("decimal_mark") && given["decimal_mark"].is_null()) given.erase("decimal_mark");
    EventReader reader(given, spot);
    json::describe(reader, out.head);
    if (spot.problems.empty()) {
      check_head(out.head, spot);
      const Problems of_head = problems_of_head(out.head);
      spot.problems.insert(spot.problems.end(), of_head.begin(), of_head.end());
    }
    reader("name", out.name);
    reader("engine", out.engine);
    if (const Read* unit = reader.required("shown_unit")) json::read_word(*unit, spot.inside("shown_unit"), json::kShownUnitWords, out.shown_unit);
    reader("decimal_mark", out.decimal_mark);
    reader("groups", out.groups);
    reader("number_one_end", out.number_one_end);
    reader("turns", out.turns);
    reader("seen_from", out.seen_from);
    reader("thrust_side", out.thrust_side);
    reader("answers", out.answers);
    reader("left_out", out.left_out);
    reader.finish();
  });
}

}  // namespace fettle
