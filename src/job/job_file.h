#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "catalogue/catalogue.h"
#include "job/events.h"

namespace fettle {

/// A payload with the digest of what was written, from which its event id is made.
struct WrittenPayload {
  std::string content;
  Payload payload;
};

/// A sheet of limits that job.toml asks for.
struct NamedSheet {
  std::string id;
  std::string file;  ///< beside job.toml
  Place place;
};

/// What job.toml says, in the order: job, engine, layouts, parts, findings, gauges, settings, found-outs, studies, limits, rule.
struct JobFile {
  std::string job;
  std::optional<DecimalMark> decimal_mark;
  std::optional<TradeWords> trade_words;
  std::vector<WrittenPayload> payloads;
  std::vector<NamedSheet> sheets;
};

/// Reads job.toml. Problems: everything catalogue/table_reader.h and entry/typed_quantity.h refuse, job.part_unknown,
/// job.kind_unknown, job.material_unknown, job.two_ids, job.sheet_id_bad, job.sheet_file_bad, job.level_range, and those of layouts and limits.
[[nodiscard]] JobFile read_job_file(std::string_view text, const std::string& file, const Catalogue& known, Problems& problems);

}  // namespace fettle
