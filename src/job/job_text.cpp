#include "job/job_text.h"

#include "job/job_words.h"
#include "base/toml_text.h"
#include "job/typed_alone.h"
#include "units/exact_decimal.h"

namespace fettle {
namespace {

/// "key = value" of a table that stands on one line.
std::string entry(std::string_view key, std::string_view text) { return toml_key(key) + " = " + toml_text(text); }

std::string entry_of_truth(std::string_view key, bool truth) { return toml_key(key) + (truth ? " = true" : " = false"); }

class JobWriter {
 public:
  explicit JobWriter(const Job& job) : job_(job) {
    if (job.opened) marks_ = {job.opened->value.decimal_mark, job.opened->value.trade_words};
  }

  std::string write(const std::vector<std::string>& heading) {
    for (const std::string& line : heading) toml_.comment(line);
    write_job();
    if (job_.engine) write_engine(job_.engine->value);
    for (const auto& each : job_.layouts) write_layout(each.value);
    for (const auto& each : job_.parts) write_part(each.value);
    for (const auto& each : job_.findings) write_finding(each.value);
    for (const auto& each : job_.strip_answers) write_strip(each.value);
    for (const auto& each : job_.ready) write_ready(each.value);
    for (const auto& each : job_.answers) write_answer(each.value);
    for (const auto& each : job_.gauges) write_gauge(each.value);
    for (const auto& each : job_.settings) write_setting(each.value);
    for (const auto& each : job_.found_out) write_found_out(each.value);
    for (const auto& each : job_.studies) write_study(each.value);
    for (const auto& each : job_.limits) {
      if (!each.value.origin.sheet) write_limit(each.value);
    }
    for (const auto& each : job_.sheets) write_sheet(each.value);
    if (job_.rule != usual_rule()) write_rule(job_.rule);
    return toml_.all();
  }

  std::string write(const StudiedGauge& study) {
    write_study(study);
    return toml_.all();
  }

  std::string write(const Limit& limit, const std::vector<std::string>& remarks) {
    for (const std::string& line : remarks) toml_.comment(line);
    write_limit(limit);
    return toml_.all();
  }

 private:
  template <class E, std::size_t N>
  void word(std::string_view key, const WordTable<E, N>& table, std::optional<E> value) {
    if (value) toml_.text(key, word_of(table, *value).value_or(""));
  }

  void quantity(std::string_view key, const std::optional<TypedQuantity>& typed) {
    if (typed) toml_.text(key, typed_alone(*typed, marks_));
  }

  [[nodiscard]] std::vector<std::string> texts(const std::vector<TypedQuantity>& typed) const {
    std::vector<std::string> out;
    for (const TypedQuantity& each : typed) out.push_back(typed_alone(each, marks_));
    return out;
  }

  [[nodiscard]] std::string length_text(Length length) const {
    return figure_text(length.ratio() / Ratio(Length::kCountsPerMillimetre), UnitId::millimetre, marks_);
  }

  void write_job() {
    toml_.table("[job]");
    toml_.text("id", job_.id);
    if (!job_.opened) return toml_.text("name", job_.id);
    const JobOpened& opened = job_.opened->value;
    toml_.text("name", opened.name);
    word("decimal_mark", kMarkWords, opened.decimal_mark);
    word("trade_words", kTradeWords, opened.trade_words);
    if (opened.shown_unit != UnitId::millimetre) word("shown_unit", kShownUnits, std::optional(opened.shown_unit));
    toml_.text("remark", opened.remark);
  }

  void write_sheet(const SheetEntered& sheet) {
    toml_.table("[[sheet]]");
    toml_.text("id", sheet.sheet);
    toml_.text("file", sheet_file_name(sheet));
  }

  void write_engine(const EngineDescribed& engine) {
    toml_.table("[engine]");
    toml_.text("name", engine.name);
    if (engine.serial) toml_.text("serial", *engine.serial);
    if (engine.cylinders) toml_.whole("cylinders", *engine.cylinders);
    toml_.list("banks", engine.banks);
    toml_.text("number_one_end", engine.number_one_end);
    word("turns", kSides, engine.turns);
    toml_.text("seen_from", engine.seen_from);
    toml_.text("thrust_side", engine.thrust_side);
    toml_.text("remark", engine.remark);
  }

  void write_layout(const LayoutChosen& chosen) {
    toml_.table("[[layout]]");
    toml_.text("kind", chosen.kind);
    std::vector<std::vector<std::string>> stations;
    for (const Station& each : chosen.layout.stations) stations.push_back(station_entries(each));
    toml_.tables("station", stations);
    std::vector<std::vector<std::string>> directions;
    for (const Direction& each : chosen.layout.directions) directions.push_back(direction_entries(each));
    toml_.tables("direction", directions);
  }

  [[nodiscard]] std::vector<std::string> station_entries(const Station& station) const {
    std::vector<std::string> out = {entry("id", station.id), entry("role", word_of(kRoles, station.role).value_or(""))};
    const bool usually_counted = station.role != StationRole::reference;
    if (station.counted != usually_counted) out.push_back(entry_of_truth("counted", station.counted));
    if (station.depth) out.push_back(entry("depth", length_text(*station.depth)));
    if (station.quantity) out.push_back(entry("quantity", word_of(kQuantities, *station.quantity).value_or("")));
    if (station.group) out.push_back(entry("group", *station.group));
    if (station.span) out.push_back(entry("span", length_text(*station.span)));
    return out;
  }

  [[nodiscard]] std::vector<std::string> direction_entries(const Direction& direction) const {
    std::vector<std::string> out = {entry("id", direction.id), entry("angle", figure_text(direction.angle_degrees, UnitId::degree, marks_))};
    if (!direction.counted) out.push_back(entry_of_truth("counted", false));
    if (direction.quantity) out.push_back(entry("quantity", word_of(kQuantities, *direction.quantity).value_or("")));
    if (direction.offset) out.push_back(entry("offset", length_text(*direction.offset)));
    return out;
  }

  void write_part(const Part& part) {
    toml_.table("[[part]]");
    toml_.text("id", part.id);
    toml_.text("kind", part.kind);
    toml_.text("position", part.position);
    toml_.text_if("material", part.material);
    write_step(part.step);
    // An assembly is worn unless it says another word; all else has to say it.
    if (!part.members || part.condition != Condition::worn) word("condition", kConditions, std::optional(part.condition));
    if (part.members) toml_.table_on_a_line("members", member_entries(*part.members));
  }

  void write_step(const Step& step) {
    switch (step.kind) {
      case StepKind::standard: toml_.text("step", "standard"); break;
      case StepKind::offset: quantity("step", step.offset); break;
      case StepKind::unknown: break;
    }
    toml_.text("step_seen", step.seen_where);
  }

  static std::vector<std::string> member_entries(const std::vector<Member>& members) {
    std::vector<std::string> out;
    for (const Member& each : members) out.push_back(entry(each.role, each.part));
    return out;
  }

  void write_finding(const Finding& finding) {
    toml_.table("[[finding]]");
    toml_.text("part", finding.part);
    toml_.text("what", finding.what);
    word("weight", kWeights, std::optional(finding.weight));
    toml_.text("where", finding.where);
    quantity("depth", finding.depth);
    word("sort", kFindingSorts, finding.sort);
    word("test", kFindingTests, finding.test);
    word("outcome", kTestOutcomes, finding.outcome);
    if (finding.station) toml_.text("station", *finding.station);
    if (finding.direction) toml_.text("direction", *finding.direction);
  }

  void write_strip(const StripStepAnswered& answered) {
    toml_.table("[[strip]]");
    toml_.text("step", answered.step);
    word("answer", kStripAnswers, std::optional(answered.answer));
    if (!answered.note.empty()) toml_.text("note", answered.note);
  }

  void write_ready(const PartsReady& ready) {
    toml_.table("[[ready]]");
    toml_.list("parts", ready.parts);
    word("state", kMeasuredWhen, std::optional(ready.state));
    if (!ready.at.empty()) toml_.text("at", ready.at);
  }

  void write_answer(const QuestionAnswered& answered) {
    toml_.table("[[answer]]");
    toml_.text("part", answered.part);
    toml_.text("station", answered.station);
    toml_.text("direction", answered.direction);
    toml_.text("setting", answered.setting);
    toml_.text("reading", answered.reading);
    toml_.text("mistake", answered.mistake);
    toml_.text("in_100", std::to_string(answered.in_100));
    word("answer", kQuestionAnswers, std::optional(answered.answer));
    if (answered.second) toml_.text("second", *answered.second);
  }

  void write_gauge(const Gauge& gauge) {
    toml_.table("[[gauge]]");
    toml_.text("id", gauge.id);
    toml_.text("preset", gauge.preset);
    quantity("division", gauge.division);
    quantity("turn", gauge.turn);
    word("pressed_in", kSides, gauge.pressed_in);
    quantity("reads", gauge.reads);
    quantity("on_standard", gauge.on_standard);
    quantity("marked", gauge.marked);
    std::vector<std::vector<std::string>> components;
    for (const ErrorComponent& each : gauge.replaced) components.push_back(component_entries(each));
    toml_.tables("component", components);
    if (gauge.kit) write_kit(*gauge.kit);
  }

  [[nodiscard]] std::vector<std::string> component_entries(const ErrorComponent& component) const {
    const bool normal = component.shape == ErrorShape::normal;
    const TypedQuantity spread{component.spread_as_typed, component.spread, 0, {}, {}};
    std::vector<std::string> out = {entry("id", component.id), entry("scope", word_of(kScopes, component.scope).value_or("")),
                                    entry("shape", word_of(kShapes, component.shape).value_or("")),
                                    entry(normal ? "standard_uncertainty" : "half_width", typed_alone(spread, marks_))};
    if (component.degrees_of_freedom) out.push_back("degrees_of_freedom = " + std::to_string(*component.degrees_of_freedom));
    if (component.origin != kStatedInTheJob) out.push_back(entry("origin", component.origin));
    return out;
  }

  void write_kit(const GaugeKit& kit) {
    toml_.table("[gauge.kit]");
    toml_.list("rods", texts(kit.rods));
    toml_.list("washers", texts(kit.washers));
    toml_.list("extensions", texts(kit.extensions));
    word("rods_reach", kRodsReach, std::optional(kit.rods_reach));
    quantity("travel", kit.travel);
    quantity("least_pressed", kit.least_pressed);
    if (kit.range_from && kit.range_to) toml_.list("range", texts({*kit.range_from, *kit.range_to}));
  }

  void write_setting(const Setting& setting) {
    toml_.table("[[setting]]");
    toml_.text("id", setting.id);
    toml_.text("gauge", setting.gauge);
    toml_.text_if("master", setting.master);
    quantity("wanted", setting.wanted);
    quantity("set", setting.set);
    toml_.text_if("locked_on", setting.locked_on);
    toml_.text_if("afresh_of", setting.afresh_of);
    word("plus_means", kSides, setting.plus_means);
    quantity("opening_zero", setting.opening_zero);
    if (setting.opening_zeros) toml_.list("opening_zero", texts(*setting.opening_zeros));
    quantity("closing_zero", setting.closing_zero);
    quantity("master_temperature", setting.master_temperature);
    quantity("part_temperature", setting.part_temperature);
    if (!setting.checks) return;
    for (const ZeroCheck& each : *setting.checks) {
      toml_.table("[[setting.check]]");
      toml_.whole("after_order", each.after_order);
      quantity("shows", each.shows);
      toml_.text("round", each.round);
    }
  }

  void write_found_out(const FoundOut& found) {
    toml_.table("[[found_out]]");
    toml_.text("gauge", found.gauge);
    toml_.text("what", found.what);
    toml_.text_if("last_good", found.last_good);
    toml_.text_if("good_again", found.good_again);
    quantity("shows_too_much", found.shows_too_much);
    quantity("may_be_off", found.may_be_off);
  }

  void write_study(const StudiedGauge& study) {
    toml_.table("[[study]]");
    toml_.text("gauge", study.gauge);
    toml_.text_if("person", study.person);
    quantity("repeatability", study.repeatability);
    toml_.whole("degrees_of_freedom", study.degrees_of_freedom);
    word("method", kStudyMethods, std::optional(study.method));
    if (study.parts) toml_.whole("parts", *study.parts);
    if (study.people) toml_.whole("people", *study.people);
    if (study.readings) toml_.whole("readings", *study.readings);
    toml_.text("when", study.when);
    toml_.text("data", study.data);
    toml_.text("remark", study.remark);
  }

  void write_limit(const Limit& limit) {
    toml_.table("[[limit]]");
    toml_.text("id", limit.id);
    toml_.text("kind", limit.kind);
    toml_.text("definition", limit.definition);
    word("role", kLimitRoles, std::optional(limit.role));
    word("side", kLimitSides, std::optional(limit.side));
    quantity("bound", limit.bound);
    quantity("per", limit.per);
    quantity("standard", limit.standard);
    toml_.text("book", limit.origin.book);
    toml_.text("edition", limit.origin.edition);
    toml_.text("page", limit.origin.page);
    toml_.text("decision", limit.origin.decision);
    if (limit.origin.rule_of_thumb) toml_.truth("rule_of_thumb", true);
    if (limit.origin.accepted) toml_.truth("accepted", true);
  }

  void write_rule(const Rule& rule) {
    toml_.table("[rule]");
    word("kind", kRuleKinds, std::optional(rule.kind));
    const auto level = exact_decimal(rule.level);
    toml_.text("level", level ? *level : to_text(rule.level.numerator()) + "/" + to_text(rule.level.denominator()));
    word("tie", kTieRules, std::optional(rule.tie));
  }

  const Job& job_;
  JobMarks marks_{};
  TomlText toml_;
};

}  // namespace

std::string job_text(const Job& job, const std::vector<std::string>& heading) { return JobWriter(job).write(heading); }

std::string sheet_file_name(const SheetEntered& sheet) { return "limits-" + sheet.sheet + ".toml"; }

std::string limit_text(const Limit& limit, const std::vector<std::string>& remarks) {
  const Job none{};
  return JobWriter(none).write(limit, remarks);
}

std::string study_text(const StudiedGauge& study) {
  const Job none{};
  return JobWriter(none).write(study);
}

}  // namespace fettle
