#include "app/open_study.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "app/text_files.h"
#include "base/digest.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "units/print.h"

namespace fettle {
namespace {

/// Leaves out what others read. A problem where that is everything.
void keep_only(const std::string& person, StudyHead& head, Problems& problems) {
  std::vector<std::string> known;
  for (const StudyReading& each : head.study.readings) {
    if (std::find(known.begin(), known.end(), each.person) == known.end()) known.push_back(each.person);
  }
  std::erase_if(head.study.readings, [&](const StudyReading& each) { return each.person != person; });
  if (head.study.readings.empty()) problems.push_back({"app.study_no_person", {}, {verbatim("person", person), verbatim("known", joined(known))}});
}

/// Four figures, and never three behind the mark, which could group thousands.
TypedQuantity typed_spread(double value, UnitId unit) {
  int decimals = 2;
  for (double step = 10.0; step > value && decimals < 12; step /= 10.0) ++decimals;
  if (decimals == 3) decimals = 4;
  const std::string text = print_fixed(value, decimals) + " " + std::string(unit_definition(unit).symbol);
  const auto read = read_quantity(text, {std::nullopt, unit_definition(unit).dimension, DecimalMark::point, std::nullopt, false, std::nullopt}, {});
  FETTLE_ASSERT(read.ok(), text);
  return read.value();
}

std::optional<StudiedGauge> for_job(const GaugeStudy& study, const StudyHead& head, const std::string& data) {
  const StudySpreads& spreads = study.by_variances.spreads;
  if (spreads.repeatability <= 0.0) return std::nullopt;
  const std::optional<std::string> person = study.people.size() == 1 ? std::optional(study.people.front().name) : std::nullopt;
  return StudiedGauge{study.gauge, person, typed_spread(spreads.repeatability, study.unit), static_cast<std::int64_t>(std::floor(spreads.degrees_of_freedom)),
                      StudyMethod::variances, static_cast<std::int64_t>(study.parts.size()), static_cast<std::int64_t>(study.people.size()),
                      static_cast<std::int64_t>(study.readings), head.when, data, head.remark};
}

}  // namespace

Result<OpenedStudy> open_study(const std::string& path, const std::optional<std::string>& person) {
  Problems problems;
  const auto text = read_text_file(path, problems);
  auto head = text ? read_study_head(*text, path, catalogue(), problems) : std::nullopt;
  if (!head) return problems;
  const std::string beside = (std::filesystem::path(path).parent_path() / head->readings_file).string();
  const auto rows = read_text_file(beside, problems);
  if (rows) read_study_rows(*rows, beside, *head, problems);
  if (person && problems.empty()) keep_only(*person, *head, problems);
  sort_by_place(problems);
  if (!problems.empty()) return problems;
  Result<GaugeStudy> study = study_gauge(head->study);
  if (!study.ok()) return study.problems();
  auto lines = for_job(study.value(), *head, long_digest({*text, *rows}));
  return OpenedStudy{std::move(study).value(), std::move(lines)};
}

}  // namespace fettle
