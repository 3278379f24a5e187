#include "cli/commands.h"

#include <optional>

#include "app/judge_job.h"
#include "app/open_folder.h"
#include "app/own_catalogue.h"
#include "app/proof_sheets.h"
#include "app/recorded_job.h"
#include "app/set_gauge.h"
#include "app/sheet_change.h"
#include "app/strip_list.h"
#include "cli/next_command.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "catalogue/figure.h"
#include "cli/asked.h"
#include "cli/asked_again_command.h"
#include "cli/exit_code.h"
#include "cli/export_command.h"
#include "cli/judgement_text.h"
#include "cli/kinds_command.h"
#include "cli/proof_command.h"
#include "cli/serve_command.h"
#include "cli/set_text.h"
#include "cli/sheet_change_text.h"
#include "cli/simulate_command.h"
#include "cli/table.h"
#include "job/fold.h"
#include "text/sentence.h"
#include "wire/event_json.h"
#include "wire/json_text.h"
#include "wire/sheet_change_json.h"

namespace fettle {
namespace {

class Commands {
 public:
  Commands(Asked asked, bool terminal, const World& world)
      : asked_(std::move(asked)), world_(world), look_{find_language(asked_.language).value_or(Language::english), terminal, asked_.all_definitions} {}

  RunResult refused(const Problems& problems) {
    refuse(problems);
    return std::move(result_);
  }

  RunResult judge() {
    auto judged = judged_job();
    if (!judged) return std::move(result_);
    result_.out = asked_.json ? judgement_json(view_of(*judged)) : judgement_text(*judged, look_) + not_ready_lines(judged->job) + no_limit_line(judged->job, "", look_.language);
    const bool all_within = judged->judgement.joint.word == VerdictWord::within;
    result_.exit_code = all_within ? kFine : kNotAllWithin;
    return std::move(result_);
  }

  RunResult why() {
    auto judged = judged_job();
    if (!judged) return std::move(result_);
    const auto text = why_text(*judged, asked_.part, asked_.limit, look_);
    if (!text) {
      refuse({Problem{"cli.no_such_verdict", {}, {verbatim("part", asked_.part), verbatim("limit", asked_.limit)}}});
      return std::move(result_);
    }
    result_.out = *text + no_limit_line(judged->job, find_part(judged->parts, asked_.part)->part.kind, look_.language);
    return std::move(result_);
  }

  RunResult understand() {
    Problems problems;
    const auto context = typing_context(problems);
    if (!problems.empty()) {
      refuse(problems);
      return std::move(result_);
    }
    for (const std::string& text : asked_.texts) {
      const Result<TypedQuantity> read = read_quantity(text, context, {});
      if (!read.ok()) {
        refuse(read.problems());
      } else {
        result_.out += asked_.json ? typed_quantity_json(read.value()) : understood(read.value());
      }
    }
    return std::move(result_);
  }

  RunResult definitions() {
    const Catalogue& known = catalogue();
    if (asked_.json) {
      result_.out = definitions_json(known.definitions);
      return std::move(result_);
    }
    std::vector<std::vector<std::string>> rows;
    for (const Definition& definition : known.definitions) {
      std::vector<std::string> needs;
      for (const std::string& need : definition.needs) needs.push_back(word_for("need." + need, look_.language));
      rows.push_back({definition.id, word_for("definition." + definition.id, look_.language),
                      needs.empty() ? definition.origin : sentence(Message{"cli.needs", {verbatim("needs", joined(needs))}}, look_.language)});
    }
    result_.out = columns(rows, 0);
    return std::move(result_);
  }

  RunResult events() {
    if (!asked_.record.record.empty()) return accepted_lines();
    const Result<std::vector<EventEnvelope>> events = job_events();
    if (!events.ok()) {
      refuse(events.problems());
      return std::move(result_);
    }
    for (const EventEnvelope& event : events.value()) result_.out += event_json(event) + "\n";
    return std::move(result_);
  }

  RunResult exported() {
    const Result<std::vector<EventEnvelope>> events = job_events();
    if (events.ok()) return run_export(asked_.exported, events.value(), look_.language);
    refuse(events.problems());
    return std::move(result_);
  }

  RunResult set() {
    const Result<Job> job = open_job();
    if (!job.ok()) {
      refuse(job.problems());
      return std::move(result_);
    }
    const auto given = [](const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); };
    const Result<SettingUp> found = set_gauge(job.value(), {asked_.gauge, asked_.what_for, given(asked_.size), given(asked_.master)});
    if (!found.ok()) {
      refuse(found.problems());
      return std::move(result_);
    }
    const UnitId unit = job.value().opened ? job.value().opened->value.shown_unit : UnitId::millimetre;
    result_.out = asked_.json ? setting_up_json(found.value(), unit) : setting_up_text(found.value(), unit, look_.language);
    return std::move(result_);
  }

  RunResult changed() {
    Problems problems;
    const auto sheet = read_sheet(asked_.limits.sheet, problems);
    const Result<Job> job = open_job();
    if (!job.ok()) problems.insert(problems.end(), job.problems().begin(), job.problems().end());
    if (!problems.empty()) {
      refuse(problems);
      return std::move(result_);
    }
    const SheetEntered version{sheet_id(asked_.limits.id, asked_.limits.sheet), *sheet, ""};
    const JudgeOptions options = judge_options(job.value(), problems);
    const Result<LimitsChanged> found = problems.empty() ? sheet_change(job.value(), version, options) : Result<LimitsChanged>(problems);
    if (!found.ok()) {
      refuse(found.problems());
      return std::move(result_);
    }
    result_.out = asked_.json ? sheet_change_json(version.sheet, found.value()) : sheet_change_text(version.sheet, found.value(), look_) + unused_rows_text(version.of, look_.language);
    return std::move(result_);
  }

  RunResult strip() {
    const Result<Job> job = open_job();
    if (!job.ok()) {
      refuse(job.problems());
      return std::move(result_);
    }
    Problems unjudged;
    const JudgeOptions options = judge_options(job.value(), unjudged);
    const auto judged = judge_job(job.value(), options);
    return run_strip(job.value(), judged.ok() ? &judged.value() : nullptr, asked_.json, look_.language);
  }

  RunResult next() {
    const Result<Job> job = open_job();
    Problems problems = job.ok() ? Problems{} : job.problems();
    if (!problems.empty()) {
      refuse(problems);
      return std::move(result_);
    }
    const JudgeOptions options = judge_options(job.value(), problems);
    const auto judged = problems.empty() ? judge_job(job.value(), options) : Result<JudgedJob>(problems);
    if (judged.ok()) return run_next(judged.value(), asked_.json, look_.language);
    refuse(judged.problems());
    return std::move(result_);
  }

  RunResult asked_again() {
    Problems problems;
    const Result<Job> job = open_job();
    if (!job.ok()) {
      refuse(job.problems());
      return std::move(result_);
    }
    const JudgeOptions options = judge_options(job.value(), problems);
    const auto judged = judge_job(job.value(), options);
    if (judged.ok() && problems.empty()) return run_asked_again(judged.value(), asked_.json, look_.language);
    if (!judged.ok()) problems.insert(problems.end(), judged.problems().begin(), judged.problems().end());
    refuse(problems);
    return std::move(result_);
  }

  RunResult thumb() {
    asked_.job = asked_.thumb.job;
    asked_.json = asked_.thumb.json;
    const Result<Job> job = open_job();
    if (job.ok()) return run_thumb_offers(asked_.thumb, job.value(), thumb_command(), look_.language);
    refuse(job.problems());
    return std::move(result_);
  }

  RunResult gauges() {
    std::vector<std::vector<std::string>> rows;
    for (const GaugePreset& preset : catalogue().gauge_presets) {
      rows.push_back({preset.id, word_for("gauge_preset." + preset.id, look_.language)});
      for (const ErrorComponent& component : preset.components) {
        rows.push_back({"", "  " + word_for("error." + component.id, look_.language),
                        "± " + component.spread_as_typed, word_for("scope." + std::string(scope_name(component.scope)), look_.language),
                        component.origin});
      }
    }
    result_.out = columns(rows, 0);
    return std::move(result_);
  }

 private:
  [[nodiscard]] std::string not_ready_lines(const Job& job) const {
    std::string out;
    for (const Message& each : read_without_ticks(job)) out += sentence(each, look_.language) + "\n";
    return out;
  }

  /// By which the job's offers are listed; a name with blanks in quotes.
  [[nodiscard]] std::string thumb_command() const {
    const auto quoted = [](const std::string& text) { return text.find_first_of(" \t&()'") == std::string::npos ? text : "\"" + text + "\""; };
    const std::string& record = asked_.record.record;
    return "fettle thumb --job " + quoted(asked_.job) + (record.empty() ? "" : " --record " + quoted(record));
  }

  void refuse(const Problems& problems) {
    result_.exit_code = kInput;
    if (asked_.json) {
      result_.out += problems_json(problems);
      return;
    }
    for (const Problem& problem : problems) result_.error += sentence(problem, look_.language) + "\n";
  }

  /// Of a folder, or of a record where one was named.
  [[nodiscard]] Result<Job> open_job() const {
    if (asked_.record.record.empty()) return open_folder(asked_.job);
    Result<RecordedJob> recorded = with_record();
    if (!recorded.ok()) return recorded.problems();
    return std::move(recorded).value().job;
  }

  [[nodiscard]] Result<RecordedJob> with_record() const {
    Result<std::unique_ptr<Store>> store = world_.records.open(asked_.record.record, world_.clock, false);
    if (!store.ok()) return store.problems();
    return open_recorded(*store.value(), asked_.job);
  }

  /// The bytes as they were accepted.
  RunResult accepted_lines() {
    Result<std::unique_ptr<Store>> store = world_.records.open(asked_.record.record, world_.clock, false);
    const std::vector<AcceptedEvent> events = store.ok() ? store.value()->events(asked_.job, 0) : std::vector<AcceptedEvent>();
    if (!store.ok()) refuse(store.problems());
    if (store.ok() && events.empty()) refuse({Problem{"record.no_such_job", {}, {verbatim("job", asked_.job)}}});
    for (const AcceptedEvent& each : events) result_.out += each.envelope.line + "\n";
    return std::move(result_);
  }

  /// Sound ones, of a folder or of a record.
  [[nodiscard]] Result<std::vector<EventEnvelope>> job_events() const {
    if (!asked_.record.record.empty()) {
      Result<RecordedJob> recorded = with_record();
      if (!recorded.ok()) return recorded.problems();
      return std::move(recorded).value().events;
    }
    const Result<FolderTexts> texts = read_folder(asked_.job);
    if (!texts.ok()) return texts.problems();
    Imported imported = import_folder(texts.value());
    const Problems problems = imported.problems.empty() ? fold(imported.events).problems : imported.problems;
    if (!problems.empty()) return problems;
    return std::move(imported.events);
  }

  std::optional<JudgedJob> judged_job() {
    Problems problems;
    const Result<Job> job = open_job();
    if (!job.ok()) {
      refuse(job.problems());
      return std::nullopt;
    }
    const auto options = judge_options(job.value(), problems);
    if (!problems.empty()) {
      refuse(problems);
      return std::nullopt;
    }
    Result<JudgedJob> judged = judge_job(job.value(), options);
    if (!judged.ok()) {
      refuse(judged.problems());
      return std::nullopt;
    }
    return std::move(judged).value();
  }

  [[nodiscard]] JudgeOptions judge_options(const Job& job, Problems& problems) const {
    JudgeOptions options{std::nullopt, usual_accuracy()};
    options.accuracy.draws = asked_.draws;
    options.accuracy.chance_error = asked_.chance_error;
    if (asked_.all_definitions) options.detail = JudgeDetail::side_by_side;
    if (asked_.rule.empty() && asked_.level.empty()) return options;
    Rule rule = job.rule;
    if (asked_.rule == "reading") rule.kind = RuleKind::reading;
    if (asked_.rule == "probability") rule.kind = RuleKind::probability;
    if (!asked_.level.empty()) {
      const auto level = read_figure(asked_.level);
      if (!level || *level <= Ratio::of(1, 2) || *level >= Ratio(1)) {
        problems.push_back(Problem{"cli.level", {}, {verbatim("text", asked_.level)}});
      } else {
        rule.level = *level;
      }
    }
    options.rule = rule;
    return options;
  }

  [[nodiscard]] TypingContext typing_context(Problems& problems) const {
    TypingContext context{std::nullopt, std::nullopt, std::nullopt, std::nullopt, asked_.dial, std::nullopt};
    if (!asked_.unit.empty()) {
      const Unit* unit = find_unit(asked_.unit);
      if (unit == nullptr) {
        problems.push_back(Problem{"cli.unit", {}, {verbatim("unit", asked_.unit)}});
      } else {
        context.unit = unit->id;
        context.dimension = unit->dimension;
      }
    }
    if (!asked_.decimal_mark.empty()) {
      context.decimal_mark = asked_.decimal_mark == "comma" ? DecimalMark::comma : DecimalMark::point;
    }
    if (!asked_.trade_words.empty()) context.trade_words = asked_.trade_words == "inch" ? TradeWords::inch : TradeWords::metric;
    if (!asked_.plus_means.empty()) {
      context.plus_means = asked_.plus_means == "clockwise" ? NeedleSide::clockwise : NeedleSide::anticlockwise;
    }
    return context;
  }

  /// On a dial the side says what the sign would.
  static Ratio absolute_on_dial(const TypedQuantity& typed) {
    return typed.side ? absolute(typed.quantity.value) : typed.quantity.value;
  }

  [[nodiscard]] std::string understood(const TypedQuantity& typed) const {
    const Unit& unit = unit_definition(typed.quantity.unit);
    // As many decimals as were typed; a fraction shows what it takes, up to nine.
    constexpr int kMostDecimals = 9;
    const bool finite = (typed.quantity.value * Ratio::power_of_ten(typed.decimals)).is_whole();
    const int shown_decimals = finite ? typed.decimals : kMostDecimals;
    std::vector<Argument> arguments = {
        verbatim("text", typed.text), word("dimension", "dimension." + std::string(dimension_name(unit.dimension))),
        decimal("value", absolute_on_dial(typed).decimal(shown_decimals),
                std::string(unit.symbol))};
    std::string key = "cli.understood";
    if (const auto exact = exact_length(typed.quantity)) {
      key = "cli.understood_length";
      arguments.push_back(length_argument("mm", exact->ratio(), UnitId::millimetre, 7));
      arguments.push_back(count("counts", exact->counts()));
    }
    std::string out = sentence(Message{key, arguments}, look_.language);
    if (typed.side) {
      out += " " + word_for(*typed.side == NeedleSide::clockwise ? "side.clockwise" : "side.anticlockwise", look_.language);
    }
    return out + "\n";
  }

  Asked asked_;
  const World& world_;
  Look look_;
  RunResult result_{kFine, {}, {}};
};

RunResult run_asked(const std::vector<std::string>& arguments, bool terminal, const World& world) {
  Asked asked;
  CLI::App app("Fettle judges the parts of a used engine from readings taken with hand gauges.", "fettle");
  describe(app, asked);
  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    return {kFine, chosen.empty() ? app.help() : chosen.front()->help(), {}};
  } catch (const CLI::CallForAllHelp&) {
    return {kFine, app.help("", CLI::AppFormatMode::All), {}};
  } catch (const CLI::ParseError& error) {
    return {kInput, {}, std::string(error.what()) + "\nTry: fettle --help\n"};
  }
  const std::string command = app.get_subcommands().front()->get_name();
  if (!asked.catalogue.empty()) {
    if (const Problems problems = use_own_catalogue(asked.catalogue); !problems.empty()) return Commands(asked, terminal, world).refused(problems);
  }
  const Language language = find_language(asked.language).value_or(Language::english);
  if (command == "simulate") {
    asked.simulate.json = asked.json;
    return run_simulate(asked.simulate, language, world.progress);
  }
  if (command == "kinds") {
    return run_kinds({asked.kind, asked.json}, language);
  }
  if (command == "proof-read") {
    asked.proof.json = asked.json;
    return run_proof(asked.proof, language);
  }
  if (command == "limits") return run_limits(asked.limits, language);
  if (command == "thumb" && asked.thumb.job.empty()) return run_thumb(asked.thumb, language);
  if (command == "gauge-study") return run_gauge_study(asked.study, language);
  if (command == "iso-fit") return run_iso_fit(asked.iso_fit, language);
  if (command == "start") return run_start(asked.start, language);
  if (command == "serve") return run_serve(asked.serve, language, world);
  if (!asked.record.command.empty()) return run_record(asked.record, language, terminal, world);
  Commands commands(std::move(asked), terminal, world);
  if (command == "judge") return commands.judge();
  if (command == "why") return commands.why();
  if (command == "understand") return commands.understand();
  if (command == "definitions") return commands.definitions();
  if (command == "events") return commands.events();
  if (command == "export") return commands.exported();
  if (command == "set") return commands.set();
  if (command == "sheet-change") return commands.changed();
  if (command == "thumb") return commands.thumb();
  if (command == "strip") return commands.strip();
  if (command == "next") return commands.next();
  if (command == "asked-again") return commands.asked_again();
  return commands.gauges();
}

/// Where what was asked is no longer at hand.
Language language_of(const std::vector<std::string>& arguments) {
  for (std::size_t i = 0; i + 1 < arguments.size(); ++i) {
    if (arguments[i] == "--language") return find_language(arguments[i + 1]).value_or(Language::english);
  }
  return Language::english;
}

class NeverStops final : public Progress {
 public:
  [[nodiscard]] bool tell(long, long) override { return true; }
};

class NoTime final : public Clock {
 public:
  [[nodiscard]] std::string now() override { return {}; }
};

}  // namespace

RunResult run(const std::vector<std::string>& arguments, bool terminal) {
  NeverStops progress;
  return run(arguments, terminal, progress);
}

RunResult run(const std::vector<std::string>& arguments, bool terminal, Progress& progress) {
  NoTime time;
  return run(arguments, terminal, World{progress, time, {}, {}, {}});
}

RunResult run(const std::vector<std::string>& arguments, bool terminal, const World& world) {
  try {
    return run_asked(arguments, terminal, world);
  } catch (const InternalError& error) {
    return {kWeWereWrong, {}, std::string("A fault of this program, not of your input: ") + error.what() + "\n"};
  } catch (const StoreError& error) {
    return {kWorldFailed, {}, sentence(error.problem, language_of(arguments)) + "\n"};
  } catch (const std::exception& error) {
    return {kWorldFailed, {}, std::string(error.what()) + "\n"};
  }
}

}  // namespace fettle
