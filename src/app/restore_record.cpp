#include "app/restore_record.h"

#include "app/whole_file.h"

namespace fettle {

Problems restore_record(const RecordKeeper& keeper, const std::string& backup, const std::string& path) {
  if (Problems problems = keeper.check_backup(backup); !problems.empty()) return problems;
  return copy_whole_file(backup, path);
}

}  // namespace fettle
