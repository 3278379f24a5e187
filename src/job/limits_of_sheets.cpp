#include "job/limits_of_sheets.h"

#include <algorithm>
#include <set>

#include "catalogue/catalogue.h"
#include "limits/sheet_checks.h"
#include "limits/sheet_limits.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestId = 40;

std::string in_sheet(const std::string& sheet, const std::string& id) { return sheet + "." + id; }

}  // namespace

void add_limits_of_sheets(Job& job, Problems& problems) {
  std::set<std::string> ids;
  for (const Kept<Limit>& each : job.limits) ids.insert(each.value.id);
  for (const Kept<SheetEntered>& kept : job.sheets) {
    const auto& [sheet, of, why] = kept.value;
    static_cast<void>(why);
    if (!sheet_problems(of, sheet, catalogue()).empty()) continue;
    for (SheetLimit& each : limits_of(of, proof_read(of, catalogue()), catalogue()).limits) {
      Limit limit = std::move(each.limit);
      limit.id = in_sheet(sheet, limit.id);
      limit.origin.sheet = SheetOrigin{sheet, each.row, each.open, each.unsaid.empty() ? "" : in_sheet(sheet, each.unsaid)};
      if (ids.insert(limit.id).second) {
        job.limits.push_back({kept.event, std::move(limit)});
      } else {
        problems.push_back({"job.id_taken", {}, {word("what", "job.limit"), verbatim("id", limit.id)}});
      }
    }
  }
}

Problems problems_of_sheets(const Job& job) {
  Problems out;
  for (const Kept<SheetEntered>& kept : job.sheets) {
    Problems found = sheet_problems(kept.value.of, kept.value.sheet, catalogue());
    for (Problem& each : found) each.place.file = kept.value.sheet;
    out.insert(out.end(), found.begin(), found.end());
  }
  return out;
}

std::vector<std::string> limit_ids_of(const SheetEntered& version) {
  std::vector<std::string> out;
  if (!sheet_problems(version.of, version.sheet, catalogue()).empty()) return out;
  for (const SheetLimit& each : limits_of(version.of, {}, catalogue()).limits) out.push_back(in_sheet(version.sheet, each.limit.id));
  return out;
}

Problems sheet_id_problems(const std::string& id, const Place& place) {
  const bool plain = std::all_of(id.begin(), id.end(), [](char each) {
    return (each >= 'a' && each <= 'z') || (each >= 'A' && each <= 'Z') || (each >= '0' && each <= '9') || each == '-' || each == '_';
  });
  if (plain && !id.empty() && id.size() <= kLongestId) return {};
  return {Problem{"job.sheet_id_bad", place, {verbatim("id", id)}}};
}

}  // namespace fettle
