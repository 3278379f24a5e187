#include "app/known_things.h"

#include <algorithm>

#include "job/limits_of_sheets.h"

namespace fettle {
namespace {

void check_members(const Job& job, const Part& part, Problems& problems) {
  for (const Member& member : *part.members) {
    const auto found = std::find_if(job.parts.begin(), job.parts.end(), [&](const auto& each) { return each.value.id == member.part; });
    const std::vector<Argument> arguments = {verbatim("part", part.id), verbatim("member", member.part)};
    if (found == job.parts.end()) {
      problems.push_back(Problem{"app.member_missing", {}, arguments});
    } else if (found->value.members) {
      problems.push_back(Problem{"app.member_is_assembly", {}, arguments});
    }
  }
}

}  // namespace

Problems unknown_things(const Job& job, const Catalogue& known) {
  Problems out;
  for (const Kept<Part>& kept : job.parts) {
    const Part& part = kept.value;
    if (known.kind(part.kind) == nullptr) out.push_back(Problem{"app.unknown_kind", {}, {verbatim("what", part.id), verbatim("kind", part.kind)}});
    if (part.material && known.material(*part.material) == nullptr) {
      out.push_back(Problem{"app.unknown_material", {}, {verbatim("part", part.id), verbatim("material", *part.material)}});
    }
    if (part.members) check_members(job, part, out);
  }
  for (const Kept<Limit>& kept : job.limits) {
    const Limit& limit = kept.value;
    if (known.kind(limit.kind) == nullptr) out.push_back(Problem{"app.unknown_kind", {}, {verbatim("what", limit.id), verbatim("kind", limit.kind)}});
    if (known.definition(limit.definition) == nullptr) {
      out.push_back(Problem{"app.unknown_definition", {}, {verbatim("limit", limit.id), verbatim("definition", limit.definition)}});
    }
  }
  const Problems of_sheets = problems_of_sheets(job);
  out.insert(out.end(), of_sheets.begin(), of_sheets.end());
  return out;
}

}  // namespace fettle
