#pragma once

#include <string>
#include <vector>

#include "base/problem.h"
#include "catalogue/definition.h"
#include "catalogue/kind.h"
#include "entry/data_table.h"
#include "entry/typed_quantity.h"
#include "form/as_measured.h"
#include "form/part_shape.h"
#include "gauging/size_set.h"
#include "job/job.h"
#include "limits/iso_fit.h"
#include "limits/thumb_limits.h"
#include "simulate/family_scores.h"
#include "verdict/judge.h"
#include "verdict/judged_again.h"
#include "verdict/setting_up.h"
#include "verdict/side_by_side.h"

namespace fettle {

// Every type that leaves the program as JSON text, one function each. Measured values are decimal text with a unit; the schemas lie in
// src/wire/schemas. Output is indented by two, keys in a fixed order, so that the same input gives the same bytes.

/// What a judged job is made of, for writing.
struct JudgedView {
  const Job& job;
  const std::vector<PartOnBench>& parts;
  const SizeSet& sizes;
  const std::vector<Message>& notices;
  const std::vector<GroupEstimate>& groups;
  const std::vector<AsMeasured>& measured;
  const std::vector<PartShape>& shapes;
  const Judgement& judgement;
  const std::vector<SideBySide>& side_by_side;
  const std::vector<JudgedAgain>& again;
};

/// judgement.schema.json
[[nodiscard]] std::string judgement_json(const JudgedView& view);

/// simulation.schema.json
[[nodiscard]] std::string simulation_json(const SimulateRecord& record);

/// setting-up.schema.json; lengths in `unit`.
[[nodiscard]] std::string setting_up_json(const SettingUp& setting_up, UnitId unit);

/// problems.schema.json: codes, places and arguments, never sentences.
[[nodiscard]] std::string problems_json(const Problems& problems);

/// typed-quantity.schema.json
[[nodiscard]] std::string typed_quantity_json(const TypedQuantity& typed);

/// definitions.schema.json
[[nodiscard]] std::string definitions_json(const std::vector<Definition>& definitions);

/// kinds.schema.json: the kinds, each with those of the definitions that it may be judged by.
[[nodiscard]] std::string kinds_json(const std::vector<Kind>& kinds, const std::vector<Definition>& definitions);

/// iso-fit.schema.json: every figure exact.
[[nodiscard]] std::string iso_fit_json(const IsoFit& fit);

/// thumb.schema.json: what the rules give at these sizes.
[[nodiscard]] std::string thumb_json(const std::vector<const ThumbRule*>& rules, const ThumbSizes& sizes);

/// A table as objects, one a row, each with the names of its columns as keys; what is not known is left out. `format` is both the schema's
/// name and the key of the rows: "readings" (readings.schema.json), "verdicts" (verdicts.schema.json).
[[nodiscard]] std::string data_table_json(const DataTable& table, const std::string& format);

/// The text of the schema file of such a format, to lie beside what was written.
[[nodiscard]] std::string schema_text(const std::string& format);

}  // namespace fettle
