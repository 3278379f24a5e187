#pragma once

#include <type_traits>

#include "job/events.h"

// Inside `wire` only: the keys of every payload, said once for writing and for reading. Each `describe` takes its
// struct apart by name of every member, so that a member added in `job` does not compile here until the log knows it.
// `walk(key, member)` writes or reads one member; an optional member is left out where there is nothing.
namespace fettle::json {

/// T is Of, or a constant Of.
template <class T, class Of>
concept Either = std::is_same_v<std::remove_const_t<T>, Of>;

template <class Walk, Either<Quantity> T>
void describe(Walk& walk, T& quantity) {
  auto& [value, unit] = quantity;
  walk("value", value);
  walk("unit", unit);
}

template <class Walk, Either<JobOpened> T>
void describe(Walk& walk, T& opened) {
  auto& [name, decimal_mark, trade_words, shown_unit, remark] = opened;
  walk("name", name);
  walk("decimal_mark", decimal_mark);
  walk("trade_words", trade_words);
  walk("shown_unit", shown_unit);
  walk("remark", remark);
}

template <class Walk, Either<EngineDescribed> T>
void describe(Walk& walk, T& engine) {
  auto& [name, cylinders, banks, number_one_end, turns, seen_from, thrust_side, remark, serial] = engine;
  walk("name", name);
  walk("cylinders", cylinders);
  walk("banks", banks);
  walk("number_one_end", number_one_end);
  walk("turns", turns);
  walk("seen_from", seen_from);
  walk("thrust_side", thrust_side);
  walk("remark", remark);
  walk("serial", serial);
}

template <class Walk, Either<Station> T>
void describe(Walk& walk, T& station) {
  auto& [id, role, counted, depth, member, quantity, group, span] = station;
  (void)member;  // of an assembly's places, which are made and never chosen
  walk("id", id);
  walk("role", role);
  walk("counted", counted);
  walk("depth", depth);
  walk("quantity", quantity);
  walk("group", group);
  walk("span", span);
}

template <class Walk, Either<Direction> T>
void describe(Walk& walk, T& direction) {
  auto& [id, angle_degrees, counted, quantity, offset] = direction;
  walk("id", id);
  walk("angle_degrees", angle_degrees);
  walk("counted", counted);
  walk("quantity", quantity);
  walk("offset", offset);
}

template <class Walk, Either<LayoutChosen> T>
void describe(Walk& walk, T& chosen) {
  auto& [kind, layout] = chosen;
  auto& [stations, directions, absent] = layout;
  (void)absent;  // likewise
  walk("kind", kind);
  walk("stations", stations);
  walk("directions", directions);
}

template <class Walk, Either<Step> T>
void describe(Walk& walk, T& step) {
  auto& [kind, offset, seen_where] = step;
  walk("kind", kind);
  walk("offset", offset);
  walk.stands_only_if("offset", offset.has_value(), kind == StepKind::offset);
  walk("seen", seen_where);
}

template <class Walk, Either<Member> T>
void describe(Walk& walk, T& member) {
  auto& [role, part] = member;
  walk("role", role);
  walk("part", part);
}

template <class Walk, Either<PartEntered> T>
void describe(Walk& walk, T& entered) {
  auto& [part] = entered;
  auto& [id, kind, position, material, step, condition, members] = part;
  walk("id", id);
  walk("kind", kind);
  walk("position", position);
  walk("material", material);
  walk("step", step);
  walk("condition", condition);
  walk("members", members);
}

template <class Walk, Either<FindingSeen> T>
void describe(Walk& walk, T& seen) {
  auto& [finding] = seen;
  auto& [part, what, weight, where, depth, sort, test, outcome, station, direction, photo] = finding;
  walk("part", part);
  walk("what", what);
  walk("weight", weight);
  walk("where", where);
  walk("depth", depth);
  walk("sort", sort);
  walk("test", test);
  walk("outcome", outcome);
  walk("station", station);
  walk("direction", direction);
  walk("photo", photo);
}

template <class Walk, Either<ErrorComponent> T>
void describe(Walk& walk, T& component) {
  auto& [id, scope, shape, spread, spread_as_typed, degrees_of_freedom, use, set_on, mark, origin] = component;
  walk("id", id);
  walk("scope", scope);
  walk("shape", shape);
  walk("spread", spread);
  walk("spread_as_typed", spread_as_typed);
  walk("degrees_of_freedom", degrees_of_freedom);
  walk("use", use);
  walk("set_on", set_on);
  walk("mark", mark);
  walk("origin", origin);
}

template <class Walk, Either<GaugeKit> T>
void describe(Walk& walk, T& kit) {
  auto& [rods, washers, extensions, rods_reach, travel, least_pressed, range_from, range_to] = kit;
  walk("rods", rods);
  walk("washers", washers);
  walk("extensions", extensions);
  walk("rods_reach", rods_reach);
  walk("travel", travel);
  walk("least_pressed", least_pressed);
  walk("range_from", range_from);
  walk("range_to", range_to);
}

template <class Walk, Either<GaugeRegistered> T>
void describe(Walk& walk, T& registered) {
  auto& [gauge] = registered;
  auto& [id, preset, division, turn, pressed_in, reads, on_standard, marked, replaced, kit] = gauge;
  walk("id", id);
  walk("preset", preset);
  walk("division", division);
  walk("turn", turn);
  walk("pressed_in", pressed_in);
  walk("reads", reads);
  walk("on_standard", on_standard);
  walk("marked", marked);
  walk("replaced", replaced);
  walk("kit", kit);
}

template <class Walk, Either<ZeroCheck> T>
void describe(Walk& walk, T& check) {
  auto& [round, after_order, shows] = check;
  walk("round", round);
  walk("after_order", after_order);
  walk("shows", shows);
}

template <class Walk, Either<SettingMade> T>
void describe(Walk& walk, T& made) {
  auto& [setting] = made;
  auto& [id, gauge, master, wanted, set, opening_zero, closing_zero, plus_means, master_temperature, part_temperature,
         opening_zeros, checks, locked_on, afresh_of] = setting;
  walk("id", id);
  walk("gauge", gauge);
  walk("master", master);
  walk("wanted", wanted);
  walk("set", set);
  walk("opening_zero", opening_zero);
  walk("opening_zeros", opening_zeros);
  walk("closing_zero", closing_zero);
  walk("plus_means", plus_means);
  walk("master_temperature", master_temperature);
  walk("part_temperature", part_temperature);
  walk("checks", checks);
  walk("locked_on", locked_on);
  walk("afresh_of", afresh_of);
}

template <class Walk, Either<GaugeFoundOut> T>
void describe(Walk& walk, T& found_out) {
  auto& [found] = found_out;
  auto& [gauge, last_good, good_again, shows_too_much, may_be_off, what] = found;
  walk("gauge", gauge);
  walk("last_good", last_good);
  walk("good_again", good_again);
  walk("shows_too_much", shows_too_much);
  walk("may_be_off", may_be_off);
  walk("what", what);
}

template <class Walk, Either<ReadingTaken> T>
void describe(Walk& walk, T& taken) {
  auto& [reading] = taken;
  auto& [part, station, direction, quantity, setting, round, order, repeat, temperature, flag, note, supersedes, why, read_by] =
      reading;
  walk("part", part);
  walk("station", station);
  walk("direction", direction);
  walk("quantity", quantity);
  walk("setting", setting);
  walk("round", round);
  walk("order", order);
  walk("repeat", repeat);
  walk("temperature", temperature);
  walk("flag", flag);
  walk("note", note);
  walk("supersedes", supersedes);
  walk("why", why);
  walk("read_by", read_by);
}

template <class Walk, Either<LimitOrigin> T>
void describe(Walk& walk, T& origin) {
  auto& [book, edition, page, decision, rule_of_thumb, accepted, sheet] = origin;
  (void)sheet;  // of limits that a sheet gives: the event of the sheet says it
  walk("book", book);
  walk("edition", edition);
  walk("page", page);
  walk("decision", decision);
  walk("rule_of_thumb", rule_of_thumb);
  walk("accepted", accepted);
}

template <class Walk, Either<LimitEntered> T>
void describe(Walk& walk, T& entered) {
  auto& [limit] = entered;
  auto& [id, kind, definition, role, side, bound, per, standard, origin] = limit;
  walk("id", id);
  walk("kind", kind);
  walk("definition", definition);
  walk("role", role);
  walk("side", side);
  walk("bound", bound);
  walk("per", per);
  walk("standard", standard);
  walk("origin", origin);
}

template <class Walk, Either<Printed> T>
void describe(Walk& walk, T& printed) {
  auto& [metric, inch] = printed;
  walk("metric", metric);
  walk("inch", inch);
}

template <class Walk, Either<PrintedRange> T>
void describe(Walk& walk, T& range) {
  auto& [from, to] = range;
  walk("from", from);
  walk("to", to);
}

template <class Walk, Either<SheetRow> T>
void describe(Walk& walk, T& row) {
  auto& [id, what, kind, characteristic, definition, page, step, grade, fresh, wear, worn, per, standard, fit, stages, sequence, quantity, once, follows, choose,
         note, place] = row;
  (void)place;
  walk("id", id);
  walk("what", what);
  walk("kind", kind);
  walk("characteristic", characteristic);
  walk("definition", definition);
  walk("page", page);
  walk("step", step);
  walk("grade", grade);
  walk("new", fresh);
  walk("wear", wear);
  walk("worn", worn);
  walk("per", per);
  walk("standard", standard);
  walk("fit", fit);
  walk("stages", stages);
  walk("sequence", sequence);
  walk("quantity", quantity);
  walk("once", once);
  walk("from", follows);
  walk("choose", choose);
  walk("note", note);
}

template <class Walk, Either<SheetDecision> T>
void describe(Walk& walk, T& decision) {
  auto& [rule, row, field, printed, decided, to, who, when] = decision;
  walk("rule", rule);
  walk("row", row);
  walk("field", field);
  walk("printed", printed);
  walk("decided", decided);
  walk("to", to);
  walk("who", who);
  walk("when", when);
}

template <class Walk, Either<SheetEntered> T>
void describe(Walk& walk, T& entered) {
  auto& [sheet, of, why] = entered;
  auto& [book, edition, original, rows, decisions] = of;
  walk("sheet", sheet);
  walk("book", book);
  walk("edition", edition);
  walk("original", original);
  walk("rows", rows);
  walk("decisions", decisions);
  walk("why", why);
}

template <class Walk, Either<RuleChosen> T>
void describe(Walk& walk, T& chosen) {
  auto& [rule] = chosen;
  auto& [kind, level, tie] = rule;
  walk("kind", kind);
  walk("level", level);
  walk("tie", tie);
}

template <class Walk, Either<EventWithdrawn> T>
void describe(Walk& walk, T& withdrawn) {
  auto& [event, why] = withdrawn;
  walk("event", event);
  walk("why", why);
}

template <class Walk, Either<FileAttached> T>
void describe(Walk& walk, T& attached) {
  auto& [hash, type, name, part, note] = attached;
  walk("hash", hash);
  walk("type", type);
  walk("name", name);
  walk("part", part);
  walk("note", note);
}

template <class Walk, Either<ZeroLooked> T>
void describe(Walk& walk, T& looked) {
  auto& [setting, round, after_order, shows, closes] = looked;
  walk("setting", setting);
  walk("round", round);
  walk("after_order", after_order);
  walk("shows", shows);
  walk("closes", closes);
}

template <class Walk, Either<TemperaturesTaken> T>
void describe(Walk& walk, T& taken) {
  auto& [setting, part, master] = taken;
  walk("setting", setting);
  walk("part", part);
  walk("master", master);
}

template <class Walk, Either<VerdictTaken> T>
void describe(Walk& walk, T& taken) {
  auto& [part, limit, word, why, program_word] = taken;
  walk("part", part);
  walk("limit", limit);
  walk("word", word);
  walk("why", why);
  walk("program_word", program_word);
}

template <class Walk, Either<StepSeen> T>
void describe(Walk& walk, T& seen) {
  auto& [parts, step] = seen;
  walk("parts", parts);
  walk("step", step);
}

template <class Walk, Either<StripStepAnswered> T>
void describe(Walk& walk, T& answered) {
  auto& [step, answer, note] = answered;
  walk("step", step);
  walk("answer", answer);
  walk("note", note);
}

template <class Walk, Either<QuestionAnswered> T>
void describe(Walk& walk, T& answered) {
  auto& [part, station, direction, setting, reading, mistake, in_100, answer, second] = answered;
  walk("part", part);
  walk("station", station);
  walk("direction", direction);
  walk("setting", setting);
  walk("reading", reading);
  walk("mistake", mistake);
  walk("in_100", in_100);
  walk("answer", answer);
  walk("second", second);
}

template <class Walk, Either<PartsReady> T>
void describe(Walk& walk, T& ready) {
  auto& [parts, state, at] = ready;
  walk("parts", parts);
  walk("state", state);
  walk("at", at);
}

template <class Walk, Either<GaugeStudied> T>
void describe(Walk& walk, T& studied) {
  auto& [study] = studied;
  auto& [gauge, person, repeatability, degrees_of_freedom, method, parts, people, readings, when, data, remark] = study;
  walk("gauge", gauge);
  walk("person", person);
  walk("repeatability", repeatability);
  walk("degrees_of_freedom", degrees_of_freedom);
  walk("method", method);
  walk("parts", parts);
  walk("people", people);
  walk("readings", readings);
  walk("when", when);
  walk("data", data);
  walk("remark", remark);
}

/// All but type, version and payload, which need the table of types.
template <class Walk, Either<EventEnvelope> T>
void describe_envelope(Walk& walk, T& event) {
  auto& [id, job, device, device_sequence, made_at, who, payload] = event;
  static_cast<void>(payload);
  walk("id", id);
  walk("job", job);
  walk("device", device);
  walk("device_sequence", device_sequence);
  walk("made_at", made_at);
  walk("who", who);
}

}  // namespace fettle::json
