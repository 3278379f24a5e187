#include "cli/simulate_command.h"

#include <algorithm>

#include "app/mistake_scores.h"
#include "app/simulate_guided.h"
#include "app/text_files.h"
#include "base/joined.h"
#include "cli/exit_code.h"
#include "cli/guided_text.h"
#include "cli/mistakes_text.h"
#include "cli/simulate_text.h"
#include "cli/table.h"
#include "drawing/svg.h"
#include "simulate/engine_folder.h"
#include "wire/guided_json.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

constexpr double kChartWidth = 760.0;

/// The members with these ids, in the order asked for; all if none was asked for.
template <class T>
std::vector<T> chosen(const std::vector<T>& all, const std::vector<std::string>& ids, const std::string& code, Problems& problems) {
  if (ids.empty()) return all;
  std::vector<T> out;
  for (const std::string& id : ids) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const T& each) { return each.id == id; });
    if (found != all.end()) {
      out.push_back(*found);
      continue;
    }
    problems.push_back(Problem{code, {}, {verbatim("id", id), verbatim("known", joined_ids(all))}});
  }
  return out;
}

/// The built-in ones, or those of a file.
template <class T>
std::vector<T> from_file(const std::string& file, const std::vector<T>& built_in,
                         Result<std::vector<T>> (*read)(std::string_view, const std::string&), Problems& problems) {
  if (file.empty()) return built_in;
  const auto text = read_text_file(file, problems);
  if (!text) return {};
  return take(read(*text, file), problems).value_or(std::vector<T>{});
}

class Command {
 public:
  Command(const SimulateAsked& asked, Language language, Progress& progress) : asked_(asked), language_(language), progress_(progress) {}

  RunResult run() {
    Problems problems = useless_together();
    const std::vector<EngineFamily> families = from_file(asked_.families_file, built_in_families(), read_families, problems);
    const std::vector<Hand> hands = from_file(asked_.hands_file, built_in_hands(), read_hands, problems);
    if (asked_.list) return problems.empty() ? list(families, hands) : refuse(problems);
    const bool both_read = (asked_.families_file.empty() || !families.empty()) && (asked_.hands_file.empty() || !hands.empty());
    if (!both_read) return refuse(problems);  // no id of theirs is known
    const std::vector<Hand> wanted_hands = asked_.hands.empty() && asked_.hands_file.empty()
                                               ? chosen(hands, {"mid"}, "app.unknown_hand", problems)
                                               : chosen(hands, asked_.hands, "app.unknown_hand", problems);
    const std::vector<EngineFamily> wanted = chosen(families, asked_.families, "app.unknown_family", problems);
    if (problems.empty()) problems = prepare(wanted, wanted_hands);
    if (!problems.empty()) return refuse(problems);
    if (asked_.mistakes) return score_mistakes(wanted, wanted_hands);
    return asked_.write.empty() ? score_all(wanted, wanted_hands) : write_all(wanted, wanted_hands);
  }

 private:
  /// Options that would do nothing: --list shows what there is, --write writes folders; neither scores anything.
  [[nodiscard]] Problems useless_together() const {
    const char* beside = asked_.list ? "--list" : "--write";
    if (!asked_.list && asked_.write.empty()) return {};
    Problems out;
    const auto useless = [&](bool given, const char* option) {
      if (given) out.push_back(Problem{"cli.useless_option", {}, {verbatim("option", option), verbatim("beside", beside)}});
    };
    useless(asked_.list && !asked_.write.empty(), "--write");
    useless(!asked_.report.empty(), "--report");
    useless(asked_.guided, "--guided");
    useless(asked_.exact > 0, "--exact");
    useless(asked_.json, "--json");
    return out;
  }

  [[nodiscard]] static std::string engine_name(const EngineFamily& family, const Hand& hand, std::size_t number) {
    return family.id + "-" + hand.id + "-" + std::to_string(number);
  }

  /// What keeps the results from being written is told before anything is simulated.
  [[nodiscard]] Problems prepare(const std::vector<EngineFamily>& families, const std::vector<Hand>& hands) const {
    std::vector<std::string> names;
    if (!asked_.write.empty()) {
      for (const EngineFamily& family : families) {
        for (const Hand& hand : hands) {
          for (std::size_t number = 0; number < asked_.engines; ++number) names.push_back(engine_name(family, hand, number));
        }
      }
      return prepare_folder(asked_.write, names);
    }
    if (asked_.report.empty()) return {};
    names = asked_.guided ? std::vector<std::string>{"guided.txt", "guided.json"} : std::vector<std::string>{"scores.txt", "scores.json"};
    for (const Hand& hand : hands) {
      for (const char* chart : {"losses-", "chances-"}) names.push_back(chart + std::string(asked_.guided ? "guided-" : "") + hand.id + ".svg");
    }
    return prepare_folder(asked_.report, names);
  }

  RunResult refuse(const Problems& problems) const {
    RunResult out{kInput, {}, {}};
    if (asked_.json) {
      out.out = problems_json(problems);
      return out;
    }
    for (const Problem& problem : problems) out.error += sentence(problem, language_) + "\n";
    return out;
  }

  [[nodiscard]] static RunResult list(const std::vector<EngineFamily>& families, const std::vector<Hand>& hands) {
    return {kFine, columns(named(families), 0) + "\n" + columns(named(hands), 0), {}};
  }

  template <class T>
  [[nodiscard]] static std::vector<std::vector<std::string>> named(const std::vector<T>& all) {
    std::vector<std::vector<std::string>> rows;
    for (const T& each : all) rows.push_back({each.id, each.about});
    return rows;
  }

  RunResult score_all(const std::vector<EngineFamily>& families, const std::vector<Hand>& hands) {
    SimulateRequest request{families, hands, asked_.engines, asked_.exact, asked_.seed, asked_.threads, usual_accuracy(),
                            {asked_.wrong_pass, asked_.wrong_fail}};
    request.accuracy.chance_error = asked_.chance_error;
    request.accuracy.best_draws = 0;
    if (asked_.guided) return guide_all(request);
    const SimulateRecord record = simulate_scores(request, progress_);
    RunResult out{kFine, asked_.json ? simulation_json(record) : simulation_text(record, language_), {}};
    if (asked_.report.empty()) return out;
    const Problems problems = write_report(record);
    if (problems.empty()) return out;
    // The disk failed after all: what was reckoned is shown all the same.
    const RunResult refused = refuse(problems);
    return {refused.exit_code, out.out + refused.out, refused.error};
  }

  RunResult guide_all(const SimulateRequest& request) {
    const GuidedRecord record = simulate_guided(request, asked_.price > 0.0 ? std::optional(asked_.price) : std::nullopt, progress_);
    const std::string json = guided_json(record.seed, record.share_wanted, record.costs, record.families, record.hands, record.stopped);
    RunResult out{kFine, asked_.json ? json : guided_text(record, language_), {}};
    if (asked_.report.empty()) return out;
    Problems problems;
    std::vector<FolderFile> files = {{"guided.txt", guided_text(record, language_)}, {"guided.json", json}};
    for (const NamedChart& chart : guided_charts(record, language_, kChartWidth)) {
      files.push_back({chart.name + ".svg", svg(chart.drawing, {SvgPalette::paper, chart.name})});
    }
    for (const FolderFile& file : files) {
      for (const Problem& problem : write_new_text_file(asked_.report + "/" + file.name, file.text)) problems.push_back(problem);
    }
    if (problems.empty()) return out;
    const RunResult refused = refuse(problems);
    return {refused.exit_code, out.out + refused.out, refused.error};
  }

  RunResult score_mistakes(const std::vector<EngineFamily>& families, const std::vector<Hand>& hands) {
    const MistakeRecord record = mistake_scores({families, hands, asked_.engines, asked_.seed, asked_.threads}, progress_);
    return {kFine, mistake_rates_text(record, language_), {}};
  }

  /// Table, JSON and pictures.
  [[nodiscard]] Problems write_report(const SimulateRecord& record) const {
    std::vector<FolderFile> files = {{"scores.txt", simulation_text(record, language_)}, {"scores.json", simulation_json(record)}};
    for (const NamedChart& chart : simulation_charts(record, language_, kChartWidth)) {
      files.push_back({chart.name + ".svg", svg(chart.drawing, {SvgPalette::paper, chart.name})});
    }
    Problems problems;
    for (const FolderFile& file : files) {
      for (const Problem& problem : write_new_text_file(asked_.report + "/" + file.name, file.text)) problems.push_back(problem);
    }
    return problems;
  }

  RunResult write_all(const std::vector<EngineFamily>& families, const std::vector<Hand>& hands) {
    RunResult out{kFine, {}, {}};
    const long all = static_cast<long>(families.size() * hands.size() * asked_.engines);
    long done = 0;
    for (const EngineFamily& family : families) {
      for (const Hand& hand : hands) {
        for (std::size_t number = 0; number < asked_.engines; ++number) {
          const std::string folder = asked_.write + "/" + engine_name(family, hand, number);
          for (const FolderFile& file : engine_folder(simulate_engine(family, hand, asked_.seed, number))) {
            const Problems problems = write_new_text_file(folder + "/" + file.name, file.text);
            if (!problems.empty()) return refuse(problems);
          }
          out.out += folder + "\n";
          if (!progress_.tell(++done, all)) return out;
        }
      }
    }
    return out;
  }

  const SimulateAsked& asked_;
  Language language_;
  Progress& progress_;
};

}  // namespace

RunResult run_simulate(const SimulateAsked& asked, Language language, Progress& progress) {
  return Command(asked, language, progress).run();
}

}  // namespace fettle
