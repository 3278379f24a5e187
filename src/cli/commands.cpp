#include "cli/commands.h"

#include <CLI/CLI.hpp>
#include <optional>

#include "app/judge_job.h"
#include "app/open_folder.h"
#include "app/own_catalogue.h"
#include "app/set_gauge.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "catalogue/figure.h"
#include "cli/exit_code.h"
#include "cli/export_command.h"
#include "cli/judgement_text.h"
#include "cli/kinds_command.h"
#include "cli/set_text.h"
#include "cli/simulate_command.h"
#include "cli/table.h"
#include "job/fold.h"
#include "text/sentence.h"
#include "wire/event_json.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

/// Everything that can be asked on the command line.
struct Asked {
  std::string language = "en";
  bool json = false;
  std::string catalogue;
  std::string folder;
  std::string rule;
  std::string level;
  std::size_t draws = usual_accuracy().draws;
  double chance_error = usual_accuracy().chance_error;
  std::string part;
  std::string limit;
  std::vector<std::string> texts;
  std::string unit;
  std::string decimal_mark;
  std::string trade_words;
  std::string plus_means;
  bool dial = false;
  bool all_definitions = false;
  std::string gauge;
  std::string what_for;
  std::string size;
  std::string master;
  SimulateAsked simulate;
  ExportAsked exported;
  std::string kind;
};

class Commands {
 public:
  Commands(Asked asked, bool terminal)
      : asked_(std::move(asked)), look_{find_language(asked_.language).value_or(Language::english), terminal, asked_.all_definitions} {}

  RunResult refused(const Problems& problems) {
    refuse(problems);
    return std::move(result_);
  }

  RunResult judge() {
    auto judged = judged_folder();
    if (!judged) return std::move(result_);
    result_.out = asked_.json ? judgement_json(view_of(*judged)) : judgement_text(*judged, look_);
    const bool all_within = judged->judgement.joint.word == VerdictWord::within;
    result_.exit_code = all_within ? kFine : kNotAllWithin;
    return std::move(result_);
  }

  RunResult why() {
    auto judged = judged_folder();
    if (!judged) return std::move(result_);
    const auto text = why_text(*judged, asked_.part, asked_.limit, look_);
    if (!text) {
      refuse({Problem{"cli.no_such_verdict", {}, {verbatim("part", asked_.part), verbatim("limit", asked_.limit)}}});
      return std::move(result_);
    }
    result_.out = *text;
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
    const Result<FolderTexts> texts = read_folder(asked_.folder);
    if (!texts.ok()) {
      refuse(texts.problems());
      return std::move(result_);
    }
    const Imported imported = import_folder(texts.value());
    const Problems problems = imported.problems.empty() ? fold(imported.events).problems : imported.problems;
    if (!problems.empty()) {
      refuse(problems);
      return std::move(result_);
    }
    for (const EventEnvelope& event : imported.events) result_.out += event_json(event) + "\n";
    return std::move(result_);
  }

  RunResult set() {
    const Result<Job> job = open_folder(asked_.folder);
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
  void refuse(const Problems& problems) {
    result_.exit_code = kInput;
    if (asked_.json) {
      result_.out += problems_json(problems);
      return;
    }
    for (const Problem& problem : problems) result_.error += sentence(problem, look_.language) + "\n";
  }

  std::optional<JudgedJob> judged_folder() {
    Problems problems;
    const Result<Job> job = open_folder(asked_.folder);
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
  Look look_;
  RunResult result_{kFine, {}, {}};
};

void describe_simulate(CLI::App& app, Asked& asked) {
  CLI::App* simulate = app.add_subcommand("simulate", "make engines of known truth, measure and judge them through the whole chain, and score the verdicts");
  SimulateAsked& to = asked.simulate;
  simulate->add_option("--family", to.families, "ids of families (all unless named; see --list)");
  simulate->add_option("--hand", to.hands, "ids of hands, how well gauges are set and read (mid unless named)");
  simulate->add_option("--families", to.families_file, "a file of your own families, in place of the built-in ones");
  simulate->add_option("--hands", to.hands_file, "a file of your own hands");
  simulate->add_option("--engines", to.engines, "how many of each family under each hand")->check(CLI::Range(2, 1'000'000));
  simulate->add_option("--exact", to.exact, "for how many of them to reckon what nobody can beat: the posterior under the family's own law");
  simulate->add_option("--seed", to.seed, "the same seed makes the same engines everywhere");
  simulate->add_option("--threads", to.threads, "how many engines at a time; the result does not depend on it")->check(CLI::Range(1, 256));
  simulate->add_option("--chance-error", to.chance_error, "standard error wanted of every chance")->check(CLI::Range(0.00005, 0.05));
  simulate->add_option("--wrong-pass", to.wrong_pass, "what it costs to pass a bad engine")->check(CLI::PositiveNumber);
  simulate->add_option("--wrong-fail", to.wrong_fail, "what it costs to fail a good engine")->check(CLI::PositiveNumber);
  simulate->add_option("--report", to.report, "write the table, the JSON and the pictures (SVG) into this folder as well");
  simulate->add_option("--write", to.write, "write the engines into this folder as job folders with their truth, in place of scoring them");
  simulate->add_flag("--list", to.list, "list families and hands");
  simulate->add_flag("--json", asked.json, "write JSON (src/wire/schemas/simulation.schema.json)");
}

void describe_export(CLI::App& app, ExportAsked& to) {
  CLI::App* command = app.add_subcommand("export", "write a job folder anew, and its readings and verdicts as tables for spreadsheets and as JSON");
  command->add_option("folder", to.folder, "a job folder: job.toml and readings.csv")->required();
  command->add_option("--out", to.out, "a new or an empty folder that gets the files")->required();
  command->add_option("--decimal-mark", to.decimal_mark, "of the tables: point, or comma with semicolons between the cells (point unless given)")
      ->check(CLI::IsMember({"point", "comma"}));
}

/// Help is English only: it names commands and options, which are not translated.
void describe(CLI::App& app, Asked& asked) {
  app.require_subcommand(1);
  app.fallthrough();
  app.set_help_all_flag("--help-all", "the help of every command");
  app.add_option("--language", asked.language, "language of sentences: en or de")->check(CLI::IsMember({"en", "de"}));
  app.add_option("--catalogue", asked.catalogue,
                 "a folder with kinds, definitions, gauges or materials of your own (kinds.toml, definitions.toml, gauges.toml, materials.toml)");
  const auto add_folder = [&](CLI::App* command) {
    command->add_option("folder", asked.folder, "a job folder: job.toml and readings.csv")->required();
    command->add_option("--rule", asked.rule,
                        "probability: clear of the limit by the guard band; reading: what was read against the limit. "
                        "Left out: the job's own rule")
        ->check(CLI::IsMember({"probability", "reading"}));
    command->add_option("--level", asked.level, "probability that a verdict needs, between 0.5 and 1 (0.95 unless changed)");
    command->add_option("--draws", asked.draws, "how many draws stand behind the plain figures in --json")
        ->check(CLI::Range(std::size_t{64}, std::size_t{4'000'000}));
    command->add_option("--chance-error", asked.chance_error, "standard error wanted of every chance (0.002 unless changed)")
        ->check(CLI::Range(0.00005, 0.05));
  };
  CLI::App* judge = app.add_subcommand("judge", "judge every part of a job folder against the limits of its kind");
  add_folder(judge);
  judge->add_flag("--all-definitions", asked.all_definitions, "list each part under every definition as well");
  judge->add_flag("--json", asked.json, "write JSON (src/wire/schemas/judgement.schema.json)");
  CLI::App* why = app.add_subcommand("why", "unfold one verdict to its reasons: readings, limit with its source, doubt by cause");
  add_folder(why);
  why->add_option("part", asked.part, "id of the part, as in job.toml")->required();
  why->add_option("limit", asked.limit, "id of the limit, as in job.toml")->required();
  CLI::App* set = app.add_subcommand("set", "how to set a bore gauge: rod and washers, master, zero, proof of the needle, limit pointers");
  set->add_option("folder", asked.folder, "a job folder: job.toml and readings.csv")->required();
  set->add_option("--gauge", asked.gauge, "id of the gauge, as in job.toml")->required();
  set->add_option("--for", asked.what_for, "id of a part, or of a kind of part such as cylinder-bore")->required();
  set->add_option("--size", asked.size, "size to set it for, as '84 mm' (the standard size by the limits, and the part's step, unless given)");
  set->add_option("--master", asked.master, "id of the micrometer, ring or blocks (the only one that fits, unless given)");
  set->add_flag("--json", asked.json, "write JSON (src/wire/schemas/setting-up.schema.json)");
  CLI::App* understand = app.add_subcommand("understand", "show what typed texts are understood as, or why they are refused");
  understand->add_option("text", asked.texts, "as you would type it: 84,02 mm   2-1/32 in   '31 div cw'   3.308\"")->required();
  understand->add_option("--unit", asked.unit, "the unit of the column, used where the text has none");
  understand->add_option("--decimal-mark", asked.decimal_mark, "point or comma")->check(CLI::IsMember({"point", "comma"}));
  understand->add_option("--trade-words", asked.trade_words, "what tenths mean here: inch or metric")->check(CLI::IsMember({"inch", "metric"}));
  understand->add_flag("--dial", asked.dial, "the text was read off a dial: it needs a needle side");
  understand->add_option("--plus-means", asked.plus_means, "where a bare + stands on the dial")->check(CLI::IsMember({"clockwise", "anticlockwise"}));
  understand->add_flag("--json", asked.json, "write JSON (src/wire/schemas/typed-quantity.schema.json)");
  CLI::App* definitions = app.add_subcommand("definitions", "list every way of reckoning taper, out-of-round, wear and size, with its id");
  definitions->add_flag("--json", asked.json, "write JSON (src/wire/schemas/definitions.schema.json)");
  CLI::App* events = app.add_subcommand("events", "write a job folder as its event log, one event a line (src/wire/schemas/event.schema.json)");
  events->add_option("folder", asked.folder, "a job folder: job.toml and readings.csv")->required();
  describe_export(app, asked.exported);
  describe_simulate(app, asked);
  CLI::App* kinds = app.add_subcommand("kinds", "list the kinds of part, or show one whole: places, how to measure it, mistakes, cautions");
  kinds->add_option("kind", asked.kind, "id of the kind that is shown whole");
  kinds->add_flag("--json", asked.json, "write JSON (src/wire/schemas/kinds.schema.json)");
  app.add_subcommand("gauges", "list the gauge presets with the errors they bring and the source of each figure");
  app.footer(
      "Exit codes: 0 fine; 1 judged, and not everything is within; 2 something in the input to put right;\n"
      "3 a file or disk failed; 4 a fault of this program.\n\n"
      "Start with:  fettle judge examples/curlew-3\n"
      "then:        fettle why examples/curlew-3 bore-3 bore-service");
}

RunResult run_asked(const std::vector<std::string>& arguments, bool terminal, Progress& progress) {
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
    if (const Problems problems = use_own_catalogue(asked.catalogue); !problems.empty()) return Commands(asked, terminal).refused(problems);
  }
  if (command == "simulate") {
    asked.simulate.json = asked.json;
    return run_simulate(asked.simulate, find_language(asked.language).value_or(Language::english), progress);
  }
  if (command == "export") return run_export(asked.exported, find_language(asked.language).value_or(Language::english));
  if (command == "kinds") {
    return run_kinds({asked.kind, asked.json}, find_language(asked.language).value_or(Language::english));
  }
  Commands commands(std::move(asked), terminal);
  if (command == "judge") return commands.judge();
  if (command == "why") return commands.why();
  if (command == "understand") return commands.understand();
  if (command == "definitions") return commands.definitions();
  if (command == "events") return commands.events();
  if (command == "set") return commands.set();
  return commands.gauges();
}

}  // namespace

namespace {

class NeverStops final : public Progress {
 public:
  [[nodiscard]] bool tell(long, long) override { return true; }
};

}  // namespace

RunResult run(const std::vector<std::string>& arguments, bool terminal) {
  NeverStops progress;
  return run(arguments, terminal, progress);
}

RunResult run(const std::vector<std::string>& arguments, bool terminal, Progress& progress) {
  try {
    return run_asked(arguments, terminal, progress);
  } catch (const InternalError& error) {
    return {kWeWereWrong, {}, std::string("A fault of this program, not of your input: ") + error.what() + "\n"};
  } catch (const WorldError& error) {
    return {kWorldFailed, {}, std::string(error.what()) + "\n"};
  } catch (const std::exception& error) {
    return {kWorldFailed, {}, std::string(error.what()) + "\n"};
  }
}

}  // namespace fettle
