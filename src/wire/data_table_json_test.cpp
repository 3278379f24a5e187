#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "wire/json_text.h"

namespace fettle {
namespace {

TEST(DataTableJson, HasOneObjectARowAndLeavesOutWhatIsNotKnown) {
  const DataTable table{{{"note", ColumnSort::text}, {"size_mm", ColumnSort::decimal}, {"order", ColumnSort::whole}},
                        {{"=1+1 \"x\"\n", "-0.0310", "12"}, {std::nullopt, std::nullopt, std::nullopt}}};
  const auto read = nlohmann::json::parse(data_table_json(table, "readings"));
  EXPECT_EQ(read["format"], "fettle-readings");
  EXPECT_EQ(read["version"], 1);
  ASSERT_EQ(read["readings"].size(), 2U);
  const nlohmann::json first = {{"note", "=1+1 \"x\"\n"}, {"size_mm", "-0.0310"}, {"order", 12}};
  EXPECT_EQ(read["readings"][0], first);
  EXPECT_EQ(read["readings"][1], nlohmann::json::object());
}

TEST(DataTableJson, TheSchemaLiesInTheProgram) {
  for (const char* format : {"readings", "verdicts"}) {
    const auto schema = nlohmann::json::parse(schema_text(format));
    EXPECT_EQ(schema["properties"]["format"]["const"], std::string("fettle-") + format);
  }
}

}  // namespace
}  // namespace fettle
