#pragma once

// A job of a few parts, written as a folder and judged: for the tests of kinds.

#include <set>
#include <string>
#include <vector>

#include "app/judge_job.h"
#include "base/assertion.h"
#include "job/fold.h"
#include "job/folder.h"

namespace fettle {

inline constexpr std::string_view kHead = R"([job]
id = "j"
name = "cases"
decimal_mark = "point"
shown_unit = "in"
)";

/// Gauges by the preset's id, each with a setting of the same name.
inline std::string gauges(const std::set<std::string>& presets) {
  std::string out;
  for (const std::string& each : presets) {
    out += "[[gauge]]\nid = \"" + each + "\"\npreset = \"" + each + "\"\n[[setting]]\nid = \"" + each + "\"\ngauge = \"" + each + "\"\n";
  }
  return out;
}

/// station, direction (may be empty), reading, gauge
struct RowTyped {
  std::string part, station, direction, reading, gauge;
};

struct PartsRead {
  std::string parts;  ///< [[part]] and [[layout]] tables
  std::vector<RowTyped> rows;
};

inline std::string part(const std::string& id, const std::string& kind, const std::string& members = {}) {
  return "[[part]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\n" +
         (members.empty() ? "step = \"standard\"\ncondition = \"worn\"\n" : "members = { " + members + " }\n");
}

inline Imported imported(const PartsRead& of) {
  std::set<std::string> presets;
  std::string readings = "part,station,direction,reading,setting\n";
  for (const RowTyped& row : of.rows) {
    presets.insert(row.gauge);
    readings += row.part + "," + row.station + "," + row.direction + "," + row.reading + "," + row.gauge + "\n";
  }
  return import_folder({"f", std::string(kHead) + gauges(presets) + of.parts, readings});
}

inline JudgedJob judged(const PartsRead& of, std::optional<Rule> rule = {}) {
  const Imported folder = imported(of);
  FETTLE_ASSERT(folder.problems.empty(), folder.problems.front().code);
  Result<JudgedJob> result = judge_job(fold(folder.events).job, {std::move(rule), usual_accuracy()});
  FETTLE_ASSERT(result.ok(), result.problems().front().code);
  return std::move(result).value();
}

}  // namespace fettle
