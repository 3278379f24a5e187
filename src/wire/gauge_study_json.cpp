#include "wire/gauge_study_json.h"

#include "units/print.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

constexpr int kDecimals = 6;  ///< of a figure in the study's unit
constexpr int kChanceDecimals = 4;
constexpr int kDegreesDecimals = 1;

class StudyJson {
 public:
  explicit StudyJson(const GaugeStudy& study) : study_(study) {}

  [[nodiscard]] Json run() const {
    Json out = {{"format", "fettle-gauge-study"}, {"version", 1}, {"gauge", study_.gauge}, {"parts", study_.parts}, {"people", people()},
                {"readings", study_.readings}, {"hidden_by_division", study_.hidden_by_division}, {"by_variances", by_variances()}};
    if (study_.repeats) out["repeats"] = *study_.repeats;
    if (study_.division) out["division"] = figure(*study_.division);
    if (study_.tolerance) out["tolerance"] = figure(*study_.tolerance);
    if (study_.by_ranges) out["by_ranges"] = by_ranges(*study_.by_ranges);
    return out;
  }

 private:
  [[nodiscard]] Json figure(double value) const {
    return {{"value", print_fixed(value, kDecimals)}, {"unit", std::string(unit_definition(study_.unit).symbol)}};
  }
  static std::string degrees(double value) { return print_fixed(value, kDegreesDecimals); }

  [[nodiscard]] Json people() const {
    Json out = Json::array();
    for (const StudyPerson& each : study_.people) {
      out.push_back({{"name", each.name}, {"off", figure(each.off)}, {"repeatability", figure(each.repeatability)}, {"degrees_of_freedom", degrees(each.degrees_of_freedom)}});
    }
    return out;
  }

  [[nodiscard]] Json spreads(const StudySpreads& of) const {
    Json out = {{"repeatability", figure(of.repeatability)}, {"degrees_of_freedom", degrees(of.degrees_of_freedom)}, {"gauge", figure(of.gauge)}};
    if (of.people) out["people"] = figure(*of.people);
    if (of.interaction) out["interaction"] = figure(*of.interaction);
    if (of.parts) out["parts"] = figure(*of.parts);
    if (of.total) out["total"] = figure(*of.total);
    if (of.categories) out["categories"] = whole_categories(*of.categories);
    if (of.of_tolerance) out["of_tolerance"] = print_fixed(*of.of_tolerance, kChanceDecimals);
    return out;
  }

  static void line(Json& out, const char* of, const std::optional<VarianceLine>& from) {
    if (!from) return;
    out.push_back({{"of", of}, {"sum_of_squares", print_fixed(from->sum_of_squares, kDecimals)}, {"degrees_of_freedom", degrees(from->degrees_of_freedom)},
                   {"mean_square", print_fixed(from->mean_square(), kDecimals)}});
  }

  [[nodiscard]] Json by_variances() const {
    const StudyByVariances& by = study_.by_variances;
    Json lines = Json::array();
    line(lines, "parts", by.parts);
    line(lines, "people", by.people);
    line(lines, "interaction", by.interaction);
    line(lines, "repeats", by.within);
    Json out = {{"lines", lines}, {"held_at_nothing", by.held_at_nothing}, {"spreads", spreads(by.spreads)}};
    if (by.interaction_chance) out["interaction_chance"] = print_fixed(*by.interaction_chance, kChanceDecimals);
    if (by.interaction_chance) out["interaction_kept"] = by.interaction_kept;
    return out;
  }

  [[nodiscard]] Json by_ranges(const StudyByRanges& by) const {
    Json beyond = Json::array();
    for (const RangeBeyond& each : by.beyond) beyond.push_back({{"part", each.part}, {"person", each.person}, {"range", figure(each.range)}});
    return {{"mean_range", figure(by.mean_range)}, {"lower_limit", figure(by.lower_limit)}, {"upper_limit", figure(by.upper_limit)},
            {"beyond", beyond}, {"spreads", spreads(by.spreads)}};
  }

  const GaugeStudy& study_;
};

}  // namespace

std::string gauge_study_json(const GaugeStudy& study, const std::optional<StudiedGauge>& for_job) {
  Json out = StudyJson(study).run();
  if (for_job) {
    Json lines = {{"gauge", for_job->gauge}, {"repeatability", for_job->repeatability.text}, {"degrees_of_freedom", for_job->degrees_of_freedom},
                  {"method", std::string(study_method_name(for_job->method))}, {"data", for_job->data}};
    if (for_job->person) lines["person"] = *for_job->person;
    out["for_job"] = std::move(lines);
  }
  return out.dump(json::kIndent) + "\n";
}

}  // namespace fettle
