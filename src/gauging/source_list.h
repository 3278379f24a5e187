#pragma once

#include <map>
#include <string>
#include <vector>

#include "gauging/known_setting.h"
#include "gauging/size_set.h"

namespace fettle {

/// Collects error sources by identity: the same id is the same source.
class SourceList {
 public:
  /// Gives the source's index; adds it if it is new.
  std::size_t add(ErrorSource source);
  [[nodiscard]] std::vector<ErrorSource> take() && { return std::move(sources_); }

 private:
  std::vector<ErrorSource> sources_;
  std::map<std::string, std::size_t> index_;
};

/// Whose name a source goes by, for each scope.
struct SourceNames {
  std::string gauge;    ///< the gauge that has the component
  std::string setting;
  std::string round;
  std::string reading;
};

/// The source of one component of a gauge. Lengths and divisions (by `division`) become mm, all else its base unit. Nothing for a temperature, which `sizes_from` does.
[[nodiscard]] std::optional<ErrorSource> source_of(const ErrorComponent& component, const SourceNames& names,
                                                   std::optional<Length> division);

/// Adds every component that counts for a reading taken under `known`, coefficient 1: the gauge's own as it is read on the part,
/// and the master's as it lends its size.
void add_gauge_terms(const KnownSetting& known, const SourceNames& names, SourceList& list, std::vector<ErrorTerm>& terms);

}  // namespace fettle
