#include "store_sqlite/file_rows.h"

#include "base/digest.h"

namespace fettle::sqlite {
namespace {

std::string file_seal(const StoredFile& file) { return digest({file.hash, file.type, std::to_string(file.bytes.size()), file.thumbnail}); }

const char* const kFileColumns = "select hash, type, bytes, thumbnail, seal, size from file ";

FileAndSeal file_in(const Statement& row) {
  FileAndSeal out{{row.bytes(0), row.bytes(1), row.bytes(2), row.bytes(3)}, row.bytes(4)};
  if (row.integer(5) != static_cast<std::int64_t>(out.file.bytes.size())) out.seal.clear();
  return out;
}

}  // namespace

void keep_file_row(Connection& writer, const StoredFile& file) {
  FETTLE_ASSERT(file.hash == file_digest(file.bytes), file.hash);
  Statement known = writer.statement("select 1 from file where hash = ?");
  if (known.text(file.hash).step()) return;
  const std::string seal = file_seal(file);
  writer.statement("insert into file (hash, type, size, seal, thumbnail, bytes) values (?, ?, ?, ?, ?, ?)")
      .text(file.hash)
      .text(file.type)
      .number(static_cast<std::int64_t>(file.bytes.size()))
      .text(seal)
      .blob(file.thumbnail)
      .blob(file.bytes)
      .run();
}

bool is_as_kept(const StoredFile& file, const std::string& seal) {
  return seal == file_seal(file) && file.hash == file_digest(file.bytes);
}

std::optional<StoredFile> file_row(Connection& reader, const std::string& hash) {
  Statement asked = reader.statement(std::string(kFileColumns) + "where hash = ?");
  if (!asked.text(hash).step()) return std::nullopt;
  FileAndSeal found = file_in(asked);
  if (!is_as_kept(found.file, found.seal)) throw StoreError({"store.file_changed", {}, {verbatim("hash", hash)}});
  return std::move(found.file);
}

std::optional<FileAndSeal> unverified_file(Connection& reader, std::int64_t number) {
  Statement asked = reader.statement(std::string(kFileColumns) + "where number = ?");
  if (!asked.number(number).step()) return std::nullopt;
  return file_in(asked);
}

std::vector<StoredFileRow> file_list(Connection& reader) {
  std::vector<StoredFileRow> out;
  Statement rows = reader.statement("select hash, type, size from file order by number");
  while (rows.step()) out.push_back({rows.bytes(0), rows.bytes(1), rows.integer(2)});
  return out;
}

}  // namespace fettle::sqlite
