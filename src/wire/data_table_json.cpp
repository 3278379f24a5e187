#include "base/assertion.h"
#include "embedded/schema_files.h"
#include "wire/json_text.h"
#include "wire/json_values.h"

namespace fettle {
namespace {

using json::Json;

/// Figures stay decimal text; counts are counts.
Json cell_json(const std::string& text, ColumnSort sort) {
  switch (sort) {
    case ColumnSort::whole: return Json::parse(text);
    case ColumnSort::text:
    case ColumnSort::typed:
    case ColumnSort::word:
    case ColumnSort::decimal: break;
  }
  return text;
}

}  // namespace

std::string data_table_json(const DataTable& table, const std::string& format) {
  Json rows = Json::array();
  for (const auto& row : table.rows) {
    Json out = Json::object();
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (row[c]) out[table.columns[c].name] = cell_json(*row[c], table.columns[c].sort);
    }
    rows.push_back(std::move(out));
  }
  const Json out = {{"format", "fettle-" + format}, {"version", 1}, {format, std::move(rows)}};
  return out.dump(json::kIndent) + "\n";
}

std::string schema_text(const std::string& format) {
  const std::string_view text = schema_files(format + ".schema.json");
  FETTLE_ASSERT(!text.empty(), format);
  return std::string(text);
}

}  // namespace fettle
