#include "job/job_file.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/digest.h"
#include "base/joined.h"
#include "catalogue/file_words.h"
#include "catalogue/mistakes.h"
#include "catalogue/strip_steps.h"
#include "catalogue/table_reader.h"
#include "entry/spell.h"
#include "job/job_words.h"
#include "job/limits_of_sheets.h"

namespace fettle {
namespace {

constexpr std::size_t kMostPlaces = 24;  // heights, and directions: what the two-lobe fit is made for

/// A node as one text that does not depend on where it stands in the file.
struct Canonical {
  std::string operator()(const std::string& text) const { return digest({"text", text}); }
  std::string operator()(std::int64_t whole) const { return "i" + std::to_string(whole); }
  std::string operator()(bool truth) const { return truth ? "yes" : "no"; }
  std::string operator()(const DocumentNode::BareFloat&) const { return "float"; }
  std::string operator()(const DocumentNode::Array& array) const {
    std::string out = "[";
    for (const auto& item : array) out += std::visit(*this, item.value) + ",";
    return out + "]";
  }
  std::string operator()(const DocumentNode::Table& table) const {
    std::vector<std::string> entries;
    for (const auto& [key, node] : table) entries.push_back(key + "=" + std::visit(*this, node.value));
    std::sort(entries.begin(), entries.end());
    std::string out = "{";
    for (const auto& entry : entries) out += entry + ",";
    return out + "}";
  }
};

class JobFileReader {
 public:
  JobFileReader(const DocumentNode& root, const Catalogue& known, Problems& problems)
      : root_(root), known_(known), problems_(problems) {}

  JobFile run() {
    TableReader top(root_, problems_);
    if (const auto* node = required_table(top, "job")) read_job(*node);
    if (const auto* node = top.node("engine")) read_engine(*node);
    for (const auto* node : top.tables("layout")) read_layout(*node);
    for (const auto* node : top.tables("part")) read_part(*node);
    check_members();
    for (const auto* node : top.tables("finding")) read_finding(*node);
    for (const auto* node : top.tables("strip")) read_strip(*node);
    for (const auto* node : top.tables("answer")) read_answer(*node);
    for (const auto* node : top.tables("ready")) read_ready(*node);
    for (const auto* node : top.tables("gauge")) read_gauge(*node);
    for (const auto* node : top.tables("setting")) read_setting(*node);
    for (const auto* node : top.tables("found_out")) read_found_out(*node);
    for (const auto* node : top.tables("study")) read_study(*node);
    for (const auto* node : top.tables("limit")) read_limit(*node);
    if (const auto* node = top.node("rule")) read_rule(*node);
    for (const auto* node : top.tables("sheet")) read_sheet(*node);
    top.finish();
    return std::move(out_);
  }

 private:
  const DocumentNode* required_table(TableReader& top, std::string_view key) {
    const DocumentNode* node = top.node(key);
    if (node == nullptr) top.missing(key);
    return node;
  }

  void keep(const DocumentNode& node, Payload payload) {
    const std::string content = digest({type_of(payload).name, out_.job, std::visit(Canonical{}, node.value)});
    out_.payloads.push_back({content, std::move(payload)});
  }

  /// Ids of one sort must differ; the place of the second one is the problem.
  std::string unique_id(TableReader& reader, const char* what) {
    const std::string id = reader.text("id");
    if (!id.empty() && !ids_.insert(std::string(what) + " " + id).second) {
      problems_.push_back(Problem{"job.two_ids", reader.place(), {word("what", std::string("job.") + what), verbatim("id", id)}});
    }
    return id;
  }

  TypingContext context(Dimension dimension) const {
    return {std::nullopt, dimension, out_.decimal_mark, out_.trade_words, false, std::nullopt};
  }

  std::optional<TypedQuantity> quantity(TableReader& reader, std::string_view key, const TypingContext& context) {
    const DocumentNode* node = reader.node(key);
    return node == nullptr ? std::nullopt : quantity_of(*node, key, context);
  }

  std::optional<TypedQuantity> quantity_of(const DocumentNode& node, std::string_view key, const TypingContext& context) {
    if (node.text() == nullptr) {
      problems_.push_back(Problem{"job.quantity_not_quoted", node.place, {verbatim("key", std::string(key))}});
      return std::nullopt;
    }
    // The node stands at its opening quote; the text begins behind it.
    Place place = node.place;
    if (place.column) ++*place.column;
    return take(read_quantity(*node.text(), context, place), problems_);
  }

  std::optional<TypedQuantity> length(TableReader& reader, std::string_view key) {
    return quantity(reader, key, context(Dimension::length));
  }

  /// A list of quantities; none where there is no such key.
  std::vector<TypedQuantity> listed(TableReader& reader, std::string_view key, const TypingContext& context) {
    std::vector<TypedQuantity> out;
    const DocumentNode* node = reader.node(key);
    if (node == nullptr) return out;
    if (node->array() == nullptr) {
      problems_.push_back(Problem{"job.not_a_list", node->place, {verbatim("key", std::string(key))}});
      return out;
    }
    for (const DocumentNode& each : *node->array()) {
      if (auto typed = quantity_of(each, key, context)) out.push_back(std::move(*typed));
    }
    return out;
  }

  std::vector<TypedQuantity> lengths(TableReader& reader, std::string_view key) {
    return listed(reader, key, context(Dimension::length));
  }

  TypingContext dial(std::optional<NeedleSide> plus) const {
    TypingContext dial = context(Dimension::divisions);
    dial.unit = UnitId::division;
    dial.on_a_dial = true;
    dial.plus_means = plus;
    return dial;
  }

  void read_job(const DocumentNode& node) {
    TableReader reader(node, problems_);
    out_.job = reader.text("id");
    out_.decimal_mark = reader.optional_word("decimal_mark", kMarkWords);
    out_.trade_words = reader.optional_word("trade_words", kTradeWords);
    JobOpened opened{reader.text("name"), out_.decimal_mark, out_.trade_words,
                     reader.optional_word("shown_unit", kShownUnits).value_or(UnitId::millimetre),
                     reader.optional_text("remark").value_or("")};
    reader.finish();
    keep(node, std::move(opened));
  }

  void read_engine(const DocumentNode& node) {
    TableReader reader(node, problems_);
    EngineDescribed engine{};
    engine.name = reader.text("name");
    engine.cylinders = reader.optional_whole("cylinders");
    engine.banks = reader.texts("banks");
    engine.number_one_end = reader.optional_text("number_one_end").value_or("");
    engine.turns = reader.optional_word("turns", kSides);
    engine.seen_from = reader.optional_text("seen_from").value_or("");
    engine.thrust_side = reader.optional_text("thrust_side").value_or("");
    engine.serial = reader.optional_text("serial");
    engine.remark = reader.optional_text("remark").value_or("");
    reader.finish();
    keep(node, std::move(engine));
  }

  const Kind* known_kind(TableReader& reader) {
    const std::string id = reader.text("kind");
    const Kind* kind = known_.kind(id);
    if (kind == nullptr && !id.empty()) {
      problems_.push_back(Problem{"job.kind_unknown", reader.place(), {verbatim("kind", id), verbatim("known", joined_ids(known_.kinds))}});
    }
    return kind;
  }

  void read_layout(const DocumentNode& node) {
    TableReader reader(node, problems_);
    const Kind* kind = known_kind(reader);
    Layout layout;
    for (const auto* station : reader.tables("station")) layout.stations.push_back(read_station(*station));
    for (const auto* direction : reader.tables("direction")) layout.directions.push_back(read_direction(*direction));
    reader.finish();
    if (kind == nullptr) return;
    if (layout.stations.empty()) layout.stations = kind->layout.stations;
    if (layout.directions.empty()) layout.directions = kind->layout.directions;
    if (!layouts_.insert(kind->id).second) {
      problems_.push_back(Problem{"job.layout_twice", node.place, {verbatim("kind", kind->id)}});
    }
    if (layout.stations.size() > kMostPlaces || layout.directions.size() > kMostPlaces) {
      problems_.push_back(Problem{"job.layout_too_large", node.place, {count("most", static_cast<std::int64_t>(kMostPlaces))}});
    }
    const Problems found = layout_problems(layout, node.place);
    problems_.insert(problems_.end(), found.begin(), found.end());
    keep(node, LayoutChosen{kind->id, std::move(layout)});
  }

  Station read_station(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Station station{};
    station.id = reader.text("id");
    station.role = reader.word("role", kRoles);
    station.counted = reader.optional_truth("counted").value_or(station.role != StationRole::reference);
    station.quantity = reader.optional_word("quantity", kQuantities);
    station.group = reader.optional_text("group");
    if (const auto span = length(reader, "span")) station.span = exact_length(span->quantity);
    if (const auto depth = length(reader, "depth")) station.depth = exact_length(depth->quantity);
    reader.finish();
    return station;
  }

  Direction read_direction(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Direction direction{};
    direction.id = reader.text("id");
    direction.counted = reader.optional_truth("counted").value_or(true);
    direction.quantity = reader.optional_word("quantity", kQuantities);
    if (const auto offset = length(reader, "offset")) direction.offset = exact_length(offset->quantity);
    const auto angle = quantity(reader, "angle", context(Dimension::angle));
    if (angle) {
      direction.angle_degrees = angle->quantity.in_base();
    } else if (reader.node("angle") == nullptr) {
      reader.missing("angle");
    }
    reader.finish();
    return direction;
  }

  Step read_step(TableReader& reader) {
    Step step{StepKind::unknown, std::nullopt, reader.optional_text("step_seen").value_or("")};
    const auto text = reader.optional_text("step");
    if (!text || *text == "unknown") return step;
    if (*text == "standard") {
      step.kind = StepKind::standard;
    } else {
      step.kind = StepKind::offset;
      step.offset = length(reader, "step");
      // An undersize without its minus would move the limits of a shaft the wrong way.
      const bool is_signed = text->starts_with("+") || text->starts_with("-") || text->starts_with("−");
      if (!is_signed) problems_.push_back(Problem{"job.step_unsigned", reader.node("step")->place, {verbatim("text", *text)}});
    }
    return step;
  }

  void read_part(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Part part{};
    part.id = unique_id(reader, "part");
    const Kind* kind = known_kind(reader);
    part.kind = kind == nullptr ? "" : kind->id;
    part.position = reader.optional_text("position").value_or("");
    part.material = reader.optional_text("material");
    if (part.material && known_.material(*part.material) == nullptr) {
      problems_.push_back(Problem{"job.material_unknown", reader.place(), {verbatim("material", *part.material)}});
    }
    part.step = read_step(reader);
    const bool assembly = kind != nullptr && !kind->members.empty();
    if (assembly) {
      part.condition = reader.optional_word("condition", kConditions).value_or(Condition::worn);
      part.members = read_members(reader, *kind);
    } else {
      part.condition = reader.word("condition", kConditions);
    }
    reader.finish();
    parts_.emplace(part.id, part.kind);
    keep(node, PartEntered{std::move(part)});
  }

  /// members = { bore = "bore-1", piston = "piston-1" }, every place of the kind taken.
  std::vector<Member> read_members(TableReader& reader, const Kind& kind) {
    std::vector<Member> out;
    const DocumentNode* node = reader.node("members");
    if (node == nullptr) {
      reader.missing("members");
      return out;
    }
    TableReader table(*node, problems_);
    for (const KindMember& member : kind.members) {
      out.push_back({member.role, table.text(member.role)});
      wanted_members_.push_back({out.back(), member.kinds, node->place});
    }
    table.finish();
    return out;
  }

  /// Members may be written after the assembly.
  void check_members() {
    for (const auto& [member, kinds, place] : wanted_members_) {
      if (member.part.empty()) continue;  // told as a missing key
      const auto found = parts_.find(member.part);
      if (found == parts_.end()) {
        problems_.push_back(Problem{"job.part_unknown", place, {verbatim("part", member.part)}});
      } else if (!found->second.empty() && std::find(kinds.begin(), kinds.end(), found->second) == kinds.end()) {
        problems_.push_back(Problem{"job.member_kind", place, {verbatim("part", member.part), verbatim("role", member.role),
                                                               verbatim("kind", found->second), verbatim("known", joined(kinds))}});
      }
    }
  }

  void read_finding(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Finding finding{};
    finding.part = reader.text("part");
    if (!finding.part.empty() && !parts_.contains(finding.part)) {
      problems_.push_back(Problem{"job.part_unknown", node.place, {verbatim("part", finding.part)}});
    }
    finding.what = reader.text("what");
    finding.weight = reader.word("weight", kWeights);
    finding.where = reader.optional_text("where").value_or("");
    finding.depth = length(reader, "depth");
    finding.sort = reader.optional_word("sort", kFindingSorts);
    finding.test = reader.optional_word("test", kFindingTests);
    finding.outcome = reader.optional_word("outcome", kTestOutcomes);
    finding.station = reader.optional_text("station");
    finding.direction = reader.optional_text("direction");
    reader.finish();
    if (std::find(findings_.begin(), findings_.end(), finding) != findings_.end()) {
      problems_.push_back(Problem{"job.finding_twice", node.place, {verbatim("what", finding.what)}});
    }
    findings_.push_back(finding);
    keep(node, FindingSeen{std::move(finding)});
  }

  void read_strip(const DocumentNode& node) {
    TableReader reader(node, problems_);
    StripStepAnswered answered{reader.text("step"), reader.word("answer", kStripAnswers), reader.optional_text("note").value_or("")};
    reader.finish();
    if (answered.step.empty()) return;
    if (strip_step(answered.step) == nullptr) problems_.push_back(Problem{"job.strip_step_unknown", node.place, {verbatim("step", answered.step)}});
    if (!strip_steps_.insert(answered.step).second) problems_.push_back(Problem{"job.strip_step_twice", node.place, {verbatim("step", answered.step)}});
    keep(node, std::move(answered));
  }

  void read_answer(const DocumentNode& node) {
    TableReader reader(node, problems_);
    QuestionAnswered answered{reader.text("part"), reader.text("station"), reader.text("direction"), reader.text("setting"), reader.text("reading"),
                              reader.text("mistake"), 0, QuestionAnswer::stands, {}};
    answered.in_100 = static_cast<std::int64_t>(reader.figure("in_100").to_double());
    answered.answer = reader.word("answer", kQuestionAnswers);
    answered.second = reader.optional_text("second");
    reader.finish();
    if (!answered.part.empty() && !parts_.contains(answered.part)) problems_.push_back(Problem{"job.part_unknown", node.place, {verbatim("part", answered.part)}});
    const bool known = mistake_kind(answered.mistake) != nullptr || answered.mistake == "far-off";
    if (!answered.mistake.empty() && !known) problems_.push_back(Problem{"acts.mistake_unknown", node.place, {verbatim("mistake", answered.mistake)}});
    keep(node, std::move(answered));
  }

  void read_ready(const DocumentNode& node) {
    TableReader reader(node, problems_);
    PartsReady ready{reader.texts("parts"), reader.word("state", kMeasuredWhen), reader.optional_text("at").value_or("")};
    if (ready.parts.empty()) reader.missing("parts");
    reader.finish();
    for (const std::string& part : ready.parts) {
      if (!parts_.contains(part)) problems_.push_back(Problem{"job.part_unknown", node.place, {verbatim("part", part)}});
    }
    keep(node, std::move(ready));
  }

  void read_gauge(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Gauge gauge{};
    gauge.id = unique_id(reader, "gauge");
    gauge.preset = reader.text("preset");
    if (!gauge.preset.empty() && known_.gauge_preset(gauge.preset) == nullptr) {
      problems_.push_back(
          Problem{"gauging.unknown_preset", node.place, {verbatim("gauge", gauge.id), verbatim("preset", gauge.preset)}});
    }
    if (const GaugePreset* preset = known_.gauge_preset(gauge.preset)) measures_.emplace(gauge.id, preset->measures);
    gauge.division = length(reader, "division");
    gauge.turn = length(reader, "turn");
    gauge.pressed_in = reader.optional_word("pressed_in", kSides);
    gauge.reads = length(reader, "reads");
    gauge.on_standard = length(reader, "on_standard");
    gauge.marked = length(reader, "marked");
    if (const auto* kit = reader.node("kit")) gauge.kit = read_kit(*kit);
    const GaugePreset* preset = known_.gauge_preset(gauge.preset);
    for (const auto* component : reader.tables("component")) {
      gauge.replaced.push_back(read_component(*component));
      check_component(gauge, preset, component->place);
    }
    reader.finish();
    keep(node, GaugeRegistered{std::move(gauge)});
  }

  /// Nothing, and a problem, where the travel is not known: nothing can be put together then.
  std::optional<GaugeKit> read_kit(const DocumentNode& node) {
    TableReader reader(node, problems_);
    GaugeKit kit{};
    kit.rods = lengths(reader, "rods");
    kit.washers = lengths(reader, "washers");
    kit.extensions = lengths(reader, "extensions");
    kit.rods_reach = reader.word("rods_reach", kRodsReach);
    const auto travel = length(reader, "travel");
    if (reader.node("travel") == nullptr) reader.missing("travel");
    kit.least_pressed = length(reader, "least_pressed");
    const auto range = lengths(reader, "range");
    if (!range.empty() && range.size() != 2) problems_.push_back(Problem{"job.range_of_two", node.place, {}});
    if (range.size() == 2) {
      kit.range_from = range[0];
      kit.range_to = range[1];
    }
    reader.finish();
    if (!travel) return std::nullopt;
    kit.travel = *travel;
    return kit;
  }

  /// A component replaces the preset's of its id, or is a new one; a misspelt id would add where it should replace.
  void check_component(const Gauge& gauge, const GaugePreset* preset, const Place& place) {
    const ErrorComponent& own = gauge.replaced.back();
    const auto same_id = [&](const ErrorComponent& each) { return each.id == own.id; };
    if (std::count_if(gauge.replaced.begin(), gauge.replaced.end(), same_id) > 1) {
      problems_.push_back(Problem{"job.component_twice", place, {verbatim("id", own.id)}});
    }
    if (own.spread.value.sign() < 0) problems_.push_back(Problem{"job.component_negative", place, {verbatim("id", own.id)}});
    if (own.degrees_of_freedom && *own.degrees_of_freedom < 1) {
      problems_.push_back(Problem{"job.no_freedom", place, {verbatim("id", own.id)}});
    }
    if (preset == nullptr || std::any_of(preset->components.begin(), preset->components.end(), same_id)) return;
    std::vector<std::string> ids;
    for (const ErrorComponent& each : preset->components) ids.push_back(each.id);
    if (const auto near = nearest_word(own.id, ids)) {
      problems_.push_back(Problem{"job.component_misspelt", place, {verbatim("id", own.id), verbatim("near", *near)}});
    }
  }

  ErrorComponent read_component(const DocumentNode& node) {
    TableReader reader(node, problems_);
    ErrorComponent component{};
    component.id = reader.text("id");
    component.scope = reader.word("scope", kScopes);
    component.shape = reader.word("shape", kShapes);
    const bool normal = component.shape == ErrorShape::normal;
    const std::string_view key = normal ? "standard_uncertainty" : "half_width";
    if (const auto spread = length(reader, key)) {
      component.spread = spread->quantity;
      component.spread_as_typed = spread->text;
    } else {
      if (reader.node(key) == nullptr) reader.missing(key);
      component.spread = {Ratio(), UnitId::micrometre};
    }
    component.degrees_of_freedom = reader.optional_whole("degrees_of_freedom");
    component.use = ComponentUse::always;
    component.mark = Mark::common_practice;
    component.origin = reader.optional_text("origin").value_or(std::string(kStatedInTheJob));
    reader.finish();
    return component;
  }

  std::optional<ZeroCheck> read_check(const DocumentNode& node, const TypingContext& needle) {
    TableReader reader(node, problems_);
    const std::string round = reader.optional_text("round").value_or("");
    const auto after = reader.optional_whole("after_order");
    if (reader.node("after_order") == nullptr) reader.missing("after_order");
    const auto shows = quantity(reader, "shows", needle);
    if (reader.node("shows") == nullptr) reader.missing("shows");
    reader.finish();
    if (!after || !shows) return std::nullopt;
    return ZeroCheck{round, *after, *shows};
  }

  void read_setting(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Setting setting{};
    setting.id = unique_id(reader, "setting");
    setting.gauge = reader.text("gauge");
    setting.master = reader.optional_text("master");
    setting.wanted = length(reader, "wanted");
    setting.set = length(reader, "set");
    setting.plus_means = reader.optional_word("plus_means", kSides);
    const TypingContext needle = dial(setting.plus_means);
    if (const auto* zero = reader.node("opening_zero"); zero != nullptr && zero->array() != nullptr) {
      setting.opening_zeros = listed(reader, "opening_zero", needle);
    } else {
      setting.opening_zero = quantity(reader, "opening_zero", needle);
    }
    setting.closing_zero = quantity(reader, "closing_zero", needle);
    setting.locked_on = reader.optional_text("locked_on");
    if (setting.locked_on && !parts_.contains(*setting.locked_on)) {
      problems_.push_back(Problem{"job.part_unknown", node.place, {verbatim("part", *setting.locked_on)}});
    }
    setting.afresh_of = reader.optional_text("afresh_of");
    for (const auto* check : reader.tables("check")) {
      if (!setting.checks) setting.checks.emplace();
      if (auto read = read_check(*check, needle)) setting.checks->push_back(std::move(*read));
    }
    setting.master_temperature = quantity(reader, "master_temperature", context(Dimension::temperature));
    setting.part_temperature = quantity(reader, "part_temperature", context(Dimension::temperature));
    reader.finish();
    keep(node, SettingMade{std::move(setting)});
  }

  /// Only a gauge of the job says what it measures; gauging tells of one that is not there.
  void read_found_out(const DocumentNode& node) {
    TableReader reader(node, problems_);
    FoundOut found{};
    found.gauge = reader.text("gauge");
    const auto measures = measures_.find(found.gauge);
    const TypingContext how_far = context(measures == measures_.end() ? Dimension::length : measures->second);
    found.last_good = reader.optional_text("last_good");
    found.good_again = reader.optional_text("good_again");
    found.shows_too_much = quantity(reader, "shows_too_much", how_far);
    found.may_be_off = quantity(reader, "may_be_off", how_far);
    found.what = reader.text("what");
    reader.finish();
    keep(node, GaugeFoundOut{std::move(found)});
  }

  /// [[study]]: what a gauge study found. Of one gauge and person the last one counts.
  void read_study(const DocumentNode& node) {
    TableReader reader(node, problems_);
    StudiedGauge study{};
    study.gauge = reader.text("gauge");
    study.person = reader.optional_text("person");
    const auto measures = measures_.find(study.gauge);
    const auto repeatability = quantity(reader, "repeatability", context(measures == measures_.end() ? Dimension::length : measures->second));
    if (reader.node("repeatability") == nullptr) reader.missing("repeatability");
    const auto degrees = reader.optional_whole("degrees_of_freedom");
    if (reader.node("degrees_of_freedom") == nullptr) reader.missing("degrees_of_freedom");
    study.method = reader.word("method", kStudyMethods);
    study.parts = reader.optional_whole("parts");
    study.people = reader.optional_whole("people");
    study.readings = reader.optional_whole("readings");
    study.when = reader.optional_text("when").value_or("");
    study.data = reader.optional_text("data").value_or("");
    study.remark = reader.optional_text("remark").value_or("");
    reader.finish();
    if (!repeatability || !degrees) return;
    study.repeatability = *repeatability;
    study.degrees_of_freedom = *degrees;
    keep(node, GaugeStudied{std::move(study)});
  }

  /// [[sheet]] id = "book", file = "book.toml": a name beside job.toml, no path.
  void read_sheet(const DocumentNode& node) {
    TableReader reader(node, problems_);
    NamedSheet sheet{unique_id(reader, "sheet"), reader.text("file"), node.place};
    reader.finish();
    const Problems bad = sheet_id_problems(sheet.id, node.place);
    problems_.insert(problems_.end(), bad.begin(), bad.end());
    const bool plain = sheet.file.find_first_of("/\\") == std::string::npos && (sheet.file.ends_with(".toml") || sheet.file.ends_with(".csv"));
    if (!plain || sheet.file == "job.toml" || sheet.file == "readings.csv") problems_.push_back(Problem{"job.sheet_file_bad", node.place, {verbatim("file", sheet.file)}});
    out_.sheets.push_back(std::move(sheet));
  }

  void read_limit(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Limit limit{};
    limit.id = unique_id(reader, "limit");
    const Kind* kind = known_kind(reader);
    limit.definition = reader.text("definition");
    limit.role = reader.word("role", kLimitRoles);
    limit.side = reader.word("side", kLimitSides);
    const Definition* definition = known_.definition(limit.definition);
    const Dimension typed = definition == nullptr ? Dimension::length : typed_dimension(definition->dimension);
    TypingContext as_typed = context(typed);
    if (typed == Dimension::count) as_typed.unit = UnitId::piece;  // a pure number
    const auto bound = quantity(reader, "bound", as_typed);
    if (reader.node("bound") == nullptr) reader.missing("bound");
    limit.per = length(reader, "per");
    limit.standard = length(reader, "standard");
    limit.origin = {reader.optional_text("book").value_or(""),     reader.optional_text("edition").value_or(""),
                    reader.optional_text("page").value_or(""),     reader.optional_text("decision").value_or(""),
                    reader.optional_truth("rule_of_thumb").value_or(false), reader.optional_truth("accepted").value_or(false)};
    reader.finish();
    if (kind == nullptr || !bound) return;
    limit.kind = kind->id;
    limit.bound = *bound;
    const Problems found = limit_problems(limit, definition, kind->feature);
    problems_.insert(problems_.end(), found.begin(), found.end());
    keep(node, LimitEntered{std::move(limit)});
  }

  void read_rule(const DocumentNode& node) {
    TableReader reader(node, problems_);
    Rule rule = usual_rule();
    rule.kind = reader.word("kind", kRuleKinds);
    if (reader.node("level") != nullptr) rule.level = reader.figure("level");
    rule.tie = reader.optional_word("tie", kTieRules).value_or(TieRule::equal_is_within);
    reader.finish();
    if (rule.level <= Ratio::of(1, 2) || rule.level >= Ratio(1)) {
      problems_.push_back(Problem{"job.level_range", node.place, {}});
    }
    keep(node, RuleChosen{rule});
  }

  const DocumentNode& root_;
  const Catalogue& known_;
  Problems& problems_;
  JobFile out_;
  std::set<std::string> ids_;
  std::map<std::string, std::string> parts_;  ///< kind by id
  struct WantedMember {
    Member member;
    std::vector<std::string> kinds;
    Place place;
  };
  std::vector<WantedMember> wanted_members_;
  std::map<std::string, Dimension> measures_;  ///< by gauge
  std::set<std::string> layouts_;
  std::vector<Finding> findings_;
  std::set<std::string> strip_steps_;
};

}  // namespace

JobFile read_job_file(std::string_view text, const std::string& file, const Catalogue& known, Problems& problems) {
  const auto root = take(read_document(text, file), problems);
  if (!root) return {};
  return JobFileReader(*root, known, problems).run();
}

}  // namespace fettle
