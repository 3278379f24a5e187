#include <functional>

#include "cli/asked.h"

namespace fettle {
namespace {

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
  simulate->add_flag("--guided", to.guided, "score what reading on as advised brings, beside a notebook that reads on as well");
  simulate->add_option("--minute", to.price, "what a minute of reading costs, with --guided (else sought for a quarter more readings)")->check(CLI::PositiveNumber);
  simulate->add_option("--write", to.write, "write the engines into this folder as job folders with their truth, in place of scoring them");
  simulate->add_flag("--mistakes", to.mistakes, "put one mistake of each kind into every engine and count what is asked again, in place of scoring verdicts");
  simulate->add_flag("--list", to.list, "list families and hands");
  simulate->add_flag("--json", asked.json, "write JSON (src/wire/schemas/simulation.schema.json)");
}

void describe_changes(RecordAsked& to, const std::function<CLI::App*(const char*, const char*)>& add) {
  CLI::App* open = add("open", "take a job folder into the record; the record is made if there is none. Taking it in twice adds nothing");
  open->add_option("folder", to.folder, "a job folder: job.toml and readings.csv")->required();
  open->add_option("--corrected", to.corrected, "why lines that were taken in before are changed or gone; they stay in the log");
  CLI::App* correct = add("correct", "put a reading right: the new one stands, the old one stays in the log");
  CLI::App* withdraw = add("withdraw", "have an event count no longer; it stays in the log. Withdrawing a withdrawal brings it back");
  for (CLI::App* each : {correct, withdraw}) {
    each->add_option("job", to.job, "id of the job")->required();
    each->add_option("event", to.event, "id of the event, or at least its first four digits, as history lists it")->required();
    each->add_option("--why", to.why, "what was wrong")->required();
  }
  correct->add_option("reading", to.text, "as it would stand in readings.csv: '57 acw'")->required();
  CLI::App* enter = add("enter-sheet", "enter a limit sheet into a job, or its next version: the earlier one stays in the log. Says what it changes");
  enter->add_option("job", to.job, "id of the job")->required();
  enter->add_option("sheet", to.file, "a limit sheet (.toml), or a table (.csv)")->required();
  enter->add_option("--as", to.part, "id of the sheet in the job (the file's name, unless given)");
  enter->add_option("--why", to.why, "of a next version: what was wrong");
  enter->add_option("--who", to.who, "who does this");
  open->add_option("--who", to.who, "who corrects");
  for (CLI::App* each : {correct, withdraw}) each->add_option("--who", to.who, "who does this");
}

void describe_looks(RecordAsked& to, const std::function<CLI::App*(const char*, const char*)>& add) {
  CLI::App* list = add("list", "list the jobs of the record");
  CLI::App* find = add("find", "find jobs by engine, part, verdict, day or person; all that is given must hold");
  find->add_option("--engine", to.engine, "letters or digits in the job's id, its name, the engine's type or serial number");
  find->add_option("--part", to.part, "id of a part, or of a kind of part");
  find->add_option("--state", to.state, "of that part, or of any part")->check(CLI::IsMember({"as-new", "serviceable", "beyond", "too-close", "not-judged"}));
  find->add_option("--from", to.from, "something was done on this day or later: 2031-05-04");
  find->add_option("--until", to.until, "something was done on this day or earlier");
  find->add_option("--person", to.person, "who did something, the whole name");
  for (CLI::App* each : {list, find}) {
    each->add_option("--skip", to.skip, "how many to pass over");
    each->add_option("--most", to.most, "how many to list")->check(CLI::Range(1, 10'000));
    each->add_flag("--json", to.json, "write JSON (src/wire/schemas/found-jobs.schema.json)");
  }
  CLI::App* history = add("history", "a part from rebuild to rebuild: what was read, corrected and judged. The engine is known by its serial number");
  history->add_option("job", to.job, "id of a job")->required();
  history->add_option("part", to.part, "id of the part")->required();
  history->add_flag("--json", to.json, "write JSON (src/wire/schemas/part-history.schema.json)");
}

void describe_care(RecordAsked& to, const std::function<CLI::App*(const char*, const char*)>& add) {
  CLI::App* verify = add("verify", "look at the whole record: its chains, files, rules; 1 if anything is wrong");
  verify->add_flag("--json", to.json, "write JSON (src/wire/schemas/verified-record.schema.json)");
  CLI::App* back_up = add("back-up", "copy the record as it is at one moment, while others go on writing");
  back_up->add_option("--to", to.to, "the new file")->required();
  CLI::App* restore = add("restore", "look at a backup, and put a copy of it where there is no record");
  restore->add_option("backup", to.folder, "the backup")->required();
  CLI::App* salvage = add("salvage", "put what a damaged record still holds into a new one; 1 if anything is missing");
  salvage->add_option("damaged", to.folder, "the damaged record")->required();
  CLI::App* judge_all = add("judge-all", "judge every job by this version and say what an earlier one gave otherwise; stopped, it goes on from there");
  judge_all->add_option("--threads", to.threads, "how many jobs at a time")->check(CLI::Range(1, 256));
  judge_all->add_flag("--again", to.again, "also jobs that this version has judged as they stand");
  judge_all->add_flag("--json", to.json, "write JSON (src/wire/schemas/judged-all.schema.json)");
}

void describe_files(RecordAsked& to, const std::function<CLI::App*(const char*, const char*)>& add) {
  CLI::App* attach = add("attach", "keep a photo or a paper with the job: JPEG, PNG or PDF. Place, time and camera are taken out of photos");
  attach->add_option("job", to.job, "id of the job")->required();
  attach->add_option("file", to.file, "the photo or paper")->required();
  attach->add_option("--part", to.part, "id of the part it shows (the engine, unless given)");
  attach->add_option("--note", to.note, "what it shows");
  attach->add_option("--who", to.who, "who does this");
  CLI::App* file = add("file", "write a kept photo or paper into a new file");
  file->add_option("hash", to.event, "its hash, as attach told it and the log holds it")->required();
  file->add_option("--to", to.to, "the new file")->required();
  CLI::App* bundle = add("bundle", "write a job with its log and files into one file that any record can take over");
  bundle->add_option("job", to.job, "id of the job")->required();
  bundle->add_option("--to", to.to, "the new file; it is a ZIP archive")->required();
  CLI::App* take_over = add("take-over", "take a bundle into the record, each event as it was accepted; the record is made if there is none");
  take_over->add_option("bundle", to.file, "the bundle")->required();
}

void describe_limits(CLI::App& app, Asked& asked) {
  CLI::App* fit = app.add_subcommand("iso-fit", "what a tolerance class or a fit of ISO 286 means at a size: deviations, limits, clearance");
  fit->add_option("code", asked.iso_fit.code, "as printed: H7, g6, H7/g6; capitals are holes")->required();
  fit->add_option("size", asked.iso_fit.nominal, "the nominal size, over 0 up to 500 mm, as '80 mm' or '3.25 in'")->required();
  fit->add_flag("--json", asked.iso_fit.json, "write JSON (src/wire/schemas/iso-fit.schema.json)");
  CLI::App* study = app.add_subcommand("gauge-study", "what a gauge and those who read it bring: repeatability, people, parts, by variances and by ranges");
  study->add_option("file", asked.study.file, "the study (.toml), with its readings (.csv) beside it")->required();
  study->add_option("--person", asked.study.person, "only what this person read, as a study of him or her alone");
  CLI::Option* lines = study->add_flag("--lines", asked.study.lines, "write the lines of job.toml by which a job uses it, and nothing else");
  study->add_flag("--json", asked.study.json, "write JSON (src/wire/schemas/gauge-study.schema.json)")->excludes(lines);
  ThumbAsked& to = asked.thumb;
  CLI::App* thumb = app.add_subcommand("thumb", "what rules of thumb would give where a book gives no limit; none counts until a person accepts it");
  thumb->add_option("about", to.about, "a kind of part such as cylinder-bore, or another thing that a rule is about (all rules unless given)");
  thumb->add_option("diameter,--diameter", to.diameter, "the nominal diameter, as '100 mm'");
  thumb->add_option("--length", to.length, "the ring travel of a bore, the length of a journal");
  thumb->add_option("--radius", to.radius, "the radius at which a face is read");
  thumb->add_option("--growth", to.growth, "by how much the diameter of a bore has grown");
  thumb->add_option("--new-size", to.new_size, "what it was when new: a width, a wall, a free length, an end float");
  CLI::Option* job = thumb->add_option("--job", to.job, "offer what a job has no limit for: a job folder; with --record, the id of a job in it");
  thumb->add_option("--record", asked.record.record, "the record that holds the job")->needs(job);
  thumb->add_option("--accept", to.accept, "write the lines of job.toml by which one offer is accepted: its id")->needs(job);
  thumb->add_option("--by", to.by, "who accepts it")->needs(job);
  CLI::Option* json = thumb->add_flag("--json", to.json, "write JSON (src/wire/schemas/thumb.schema.json; with --job thumb-offers.schema.json)");
  thumb->get_option("--accept")->excludes(json);
  for (const char* size : {"--diameter", "--length", "--radius", "--growth", "--new-size"}) job->excludes(thumb->get_option(size));
}

void describe_serve(CLI::App& app, ServeAsked& to) {
  CLI::App* serve = app.add_subcommand("serve", "give the page beside the engine, on this machine alone or on the local network, until Ctrl-C");
  serve->add_option("--record", to.record, "the file that holds the record; it is made if there is none")->required();
  serve->add_option("--port", to.port, "where to listen; 0: any port that is free")->check(CLI::Range(0, 65535));
  serve->add_option("--open-to", to.open_to,
                    "also listen on this address of this machine (0.0.0.0: on all), encrypted, for devices that were paired");
  serve->add_option("--certificate", to.certificate, "a file with your own certificate (PEM), its chain behind it; with --key");
  serve->add_option("--key", to.key, "the file with its key");
  serve->add_option("--name", to.names, "a name by which browsers may call this machine; may be given again");
  serve->add_option("--gauge", to.gauges,
                    "a gauge on a serial port, as 'G2=/dev/ttyUSB0,9600,{number} {unit}': name, port, baud, how its lines look; may be given again");
}

void describe_record(CLI::App& app, Asked& asked) {
  RecordAsked& to = asked.record;
  const auto add = [&](const char* name, const char* what) {
    CLI::App* command = app.add_subcommand(name, what);
    command->add_option("--record", to.record, "the file that holds the record")->required();
    command->callback([&to, name] { to.command = name; });
    return command;
  };
  describe_changes(to, add);
  describe_looks(to, add);
  describe_files(to, add);
  describe_care(to, add);
}

}  // namespace

/// Help is English only: it names commands and options, which are not translated.
void describe(CLI::App& app, Asked& asked) {
  app.require_subcommand(1);
  app.fallthrough();
  app.set_help_all_flag("--help-all", "the help of every command");
  app.add_option("--language", asked.language, "language of sentences: en or de")->check(CLI::IsMember({"en", "de"}));
  app.add_option("--catalogue", asked.catalogue,
                 "a folder with kinds, definitions, gauges or materials of your own (kinds.toml, definitions.toml, gauges.toml, materials.toml)");
  const auto add_job = [&](CLI::App* command) {
    command->add_option("job", asked.job, "a job folder: job.toml and readings.csv; with --record, the id of a job in it")->required();
    command->add_option("--record", asked.record.record, "the record that holds the job");
  };
  const auto add_judging = [&](CLI::App* command) {
    add_job(command);
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
  CLI::App* judge = app.add_subcommand("judge", "judge every part of a job against the limits of its kind");
  add_judging(judge);
  judge->add_flag("--all-definitions", asked.all_definitions, "list each part under every definition as well");
  judge->add_flag("--json", asked.json, "write JSON (src/wire/schemas/judgement.schema.json)");
  CLI::App* why = app.add_subcommand("why", "unfold one verdict to its reasons: readings, limit with its source, doubt by cause");
  add_judging(why);
  why->add_option("part", asked.part, "id of the part, as in job.toml")->required();
  why->add_option("limit", asked.limit, "id of the limit, as in job.toml")->required();
  CLI::App* set = app.add_subcommand("set", "how to set a bore gauge: rod and washers, master, zero, proof of the needle, limit pointers");
  add_job(set);
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
  CLI::App* events = app.add_subcommand("events", "write a job as its event log, one event a line (src/wire/schemas/event.schema.json)");
  add_job(events);
  CLI::App* exported = app.add_subcommand("export", "write a job as a folder, and its readings and verdicts as tables for spreadsheets and as JSON");
  add_job(exported);
  exported->add_option("--out", asked.exported.out, "a new or an empty folder that gets the files")->required();
  exported->add_option("--decimal-mark", asked.exported.decimal_mark, "of the tables: point, or comma with semicolons between the cells (point unless given)")
      ->check(CLI::IsMember({"point", "comma"}));
  describe_record(app, asked);
  describe_serve(app, asked.serve);
  describe_simulate(app, asked);
  CLI::App* proof = app.add_subcommand("proof-read", "proof-read tables of limits typed from a book: what cannot all be right, with the arithmetic");
  proof->add_option("path", asked.proof.paths, "tables (.csv) as pasted from a spreadsheet, sheets (.toml), or folders of them")->required();
  proof->add_flag("--json", asked.json, "write JSON (src/wire/schemas/sheet-proof.schema.json)");
  app.add_subcommand("limits", "the limits of a sheet, as job.toml takes them")->add_option("sheet", asked.limits.sheet, "a limit sheet (.toml), or a table (.csv)")->required();
  CLI::App* change = app.add_subcommand("sheet-change", "what a version of a limit sheet would change in a job: limits, verdicts, parts; nothing is entered");
  add_judging(change);
  change->add_option("sheet", asked.limits.sheet, "a limit sheet (.toml), or a table (.csv)")->required();
  change->add_option("--as", asked.limits.id, "id of the sheet in the job (the file's name, unless given)");
  change->add_flag("--json", asked.json, "write JSON (src/wire/schemas/sheet-change.schema.json)");
  CLI::App* kinds = app.add_subcommand("kinds", "list the kinds of part, or show one whole: places, how to measure it, mistakes, cautions");
  kinds->add_option("kind", asked.kind, "id of the kind that is shown whole");
  kinds->add_flag("--json", asked.json, "write JSON (src/wire/schemas/kinds.schema.json)");
  CLI::App* start = app.add_subcommand("start", "write a job folder for an engine described in one file; without a file, what is asked about an engine");
  start->add_option("engine", asked.start.file, "the engine (.toml): name and answers (docs/FILES.md)");
  start->add_option("--into", asked.start.into, "a new or an empty folder that gets job.toml and readings.csv");
  start->add_flag("--json", asked.start.json, "write JSON (src/wire/schemas/engine-plan.schema.json)");
  CLI::App* strip = app.add_subcommand("strip", "taking the engine of a job apart, step by step: what stripping destroys is measured first");
  add_job(strip);
  strip->add_flag("--json", asked.json, "write JSON (src/wire/schemas/strip.schema.json)");
  CLI::App* next = app.add_subcommand("next", "what to read next so that a verdict is no longer too close to call, what is useless, and why");
  add_job(next);
  next->add_flag("--json", asked.json, "write JSON (src/wire/schemas/next.schema.json)");
  CLI::App* again = app.add_subcommand("asked-again", "which readings of a job look like mistakes of a hand, and which; nothing is corrected");
  add_job(again);
  again->add_flag("--json", asked.json, "write JSON (src/wire/schemas/asked-again.schema.json)");
  describe_limits(app, asked);
  app.add_subcommand("gauges", "list the gauge presets with the errors they bring and the source of each figure");
  app.footer(
      "Exit codes: 0 fine; 1 judged, and not everything is within; 2 something in the input to put right;\n"
      "3 a file or disk failed; 4 a fault of this program.\n\n"
      "Start with:  fettle judge examples/curlew-3\n"
      "then:        fettle why examples/curlew-3 bore-3 bore-service");
}

}  // namespace fettle
