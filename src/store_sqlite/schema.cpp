#include "store_sqlite/schema.h"

#include "base/assertion.h"
#include "embedded/schema_texts.h"

namespace fettle::sqlite {
namespace {

std::vector<std::string> schema_rows(Connection& connection) {
  std::vector<std::string> out;
  Statement rows = connection.statement(
      "select type || ' ' || name || ' of ' || tbl_name || ': ' || coalesce(sql, '') from sqlite_schema where name not like 'sqlite_stat%' "
      "order by type, name");
  while (rows.step()) out.push_back(rows.bytes(0));
  return out;
}

std::vector<std::string> wanted_rows(std::int64_t version) {
  Connection fresh(":memory:", Access::create, std::chrono::milliseconds(0));
  for (std::int64_t from = 0; from < version; ++from) upgrade_one(fresh, from);
  return schema_rows(fresh);
}

}  // namespace

FileSort sort_of_file(Connection& connection) {
  const std::int64_t application = connection.number("pragma application_id");
  if (application == kApplicationId) return FileSort::ours;
  const bool bare = application == 0 && version_of(connection) == 0 && connection.number("select count(*) from sqlite_schema") == 0;
  return bare ? FileSort::empty : FileSort::foreign;
}

std::int64_t version_of(Connection& connection) { return connection.number("pragma user_version"); }

void prepare_empty_file(Connection& writer) {
  writer.script("pragma page_size=" + std::to_string(kPageBytes) + ";");
  writer.script("pragma journal_mode=wal;");
}

void upgrade_one(Connection& writer, std::int64_t from) {
  const std::string version = std::to_string(from + 1);
  const std::string text(schema_texts(version + ".sql"));
  FETTLE_ASSERT(!text.empty(), version);
  writer.script(text);
  writer.script("pragma application_id=" + std::to_string(kApplicationId) + "; pragma user_version=" + version + ";");
}

std::string schema_difference(Connection& connection, std::int64_t version) {
  const std::vector<std::string> present = schema_rows(connection);
  const std::vector<std::string> wanted = wanted_rows(version);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (i >= present.size() || present[i] != wanted[i]) return "wanted " + wanted[i].substr(0, wanted[i].find(':'));
  }
  return present.size() > wanted.size() ? "not ours: " + present[wanted.size()] : std::string();
}

std::string copy_before_upgrade(const std::string& path, std::int64_t version) { return path + ".before-version-" + std::to_string(version); }

}  // namespace fettle::sqlite
