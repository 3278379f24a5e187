#include "gauging/size_set.h"

#include <algorithm>
#include <map>
#include <set>

namespace fettle {

SizeSet sizes_of(const SizeSet& set, const std::vector<std::string>& parts) {
  SizeSet out;
  const std::set<std::string> wanted(parts.begin(), parts.end());
  std::map<std::string, std::size_t> used;
  for (const Size& size : set.sizes) {
    if (!wanted.contains(size.part)) continue;
    out.sizes.push_back(size);
    for (const ErrorTerm& term : size.terms) used.emplace(set.sources[term.source].id, term.source);
  }
  std::map<std::size_t, std::size_t> index;
  for (const auto& [id, source] : used) {
    index.emplace(source, out.sources.size());
    out.sources.push_back(set.sources[source]);
  }
  for (Size& size : out.sizes) {
    for (ErrorTerm& term : size.terms) term.source = index.at(term.source);
    std::sort(size.terms.begin(), size.terms.end(), [](const auto& a, const auto& b) { return a.source < b.source; });
  }
  return out;
}

std::size_t source_index(std::vector<ErrorSource>& sources, const ErrorSource& wanted) {
  const auto found = std::find_if(sources.begin(), sources.end(), [&](const ErrorSource& each) { return each.id == wanted.id; });
  const auto at = static_cast<std::size_t>(found - sources.begin());
  if (found == sources.end()) sources.push_back(wanted);
  return at;
}

}  // namespace fettle
