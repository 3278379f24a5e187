#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/problem.h"
#include "catalogue/catalogue.h"
#include "gauging/gauge_study.h"

namespace fettle {

/// What a study's TOML file says of it; its readings lie in a table beside it.
struct StudyHead {
  std::string gauge;                     ///< id as in the job that is to use it
  const GaugePreset* preset;
  std::optional<std::string> person;     ///< nothing: the table says who
  std::string when;                      ///< as typed; may be empty
  std::string remark;                    ///< may be empty
  std::string readings_file;             ///< beside it, no path
  std::optional<DecimalMark> decimal_mark;
  std::optional<TradeWords> trade_words;
  std::optional<NeedleSide> plus_means;
  StudyReadings study;                   ///< without readings
};

/// Reads the table [study]. Nothing where it cannot be read, or the preset is not known. Problems: those of catalogue/table_reader.h and
/// entry/typed_quantity.h, job.quantity_not_quoted, gauging.unknown_preset, gauging.division_not_positive, job.study_file_bad (a path, or no .csv).
[[nodiscard]] std::optional<StudyHead> read_study_head(std::string_view text, const std::string& file, const Catalogue& known, Problems& problems);

/// Reads the table of readings, one a row: columns `part`, `person` (unless the head names one), `reading`; `unit` and `repeat` may be there.
/// Problems: those of entry/table.h and entry/typed_quantity.h, job.column_missing, .column_unknown, .cell_empty, .unit_unknown, .not_a_count,
/// .study_person_twice (head and table both say who), .study_repeat_twice (one repeat of a part and person on two rows).
void read_study_rows(std::string_view text, const std::string& file, StudyHead& head, Problems& problems);

}  // namespace fettle
