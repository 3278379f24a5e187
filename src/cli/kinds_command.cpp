#include "cli/kinds_command.h"

#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "cli/exit_code.h"
#include "cli/kinds_text.h"
#include "entry/spell.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

Problem unknown_kind(const std::string& id) {
  std::vector<std::string> ids;
  for (const Kind& kind : catalogue().kinds) ids.push_back(kind.id);
  if (const auto near = nearest_word(id, ids)) return {"cli.misspelt_kind", {}, {verbatim("id", id), verbatim("near", *near)}};
  return {"cli.no_such_kind", {}, {verbatim("id", id), verbatim("known", joined(ids))}};
}

RunResult refuse(const Problem& problem, const KindsAsked& asked, Language language) {
  if (asked.json) return {kInput, problems_json({problem}), {}};
  return {kInput, {}, sentence(problem, language) + "\n"};
}

}  // namespace

RunResult run_kinds(const KindsAsked& asked, Language language) {
  const Catalogue& known = catalogue();
  if (asked.kind.empty()) return {kFine, asked.json ? kinds_json(known.kinds, known.definitions) : kinds_list_text(known, language), {}};
  const Kind* kind = known.kind(asked.kind);
  if (kind == nullptr) return refuse(unknown_kind(asked.kind), asked, language);
  return {kFine, asked.json ? kinds_json({*kind}, known.definitions) : kind_text(*kind, known, language), {}};
}

}  // namespace fettle
