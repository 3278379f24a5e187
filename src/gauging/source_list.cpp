#include "gauging/source_list.h"

namespace fettle {
namespace {

std::string source_id(const ErrorComponent& component, const SourceNames& names) {
  switch (component.scope) {
    case ErrorScope::master: return "master:" + names.gauge + ":" + component.id;
    case ErrorScope::setting: return "setting:" + names.setting + ":" + component.id;
    case ErrorScope::round: return "round:" + names.setting + ":" + names.round + ":" + component.id;
    case ErrorScope::reading: return "reading:" + names.reading + ":" + component.id;
  }
  return {};
}

bool counts_here(const ErrorComponent& component, bool lent, const std::optional<MasterKind>& set_on) {
  switch (component.use) {
    case ComponentUse::always: break;
    case ComponentUse::read_on_part:
      if (lent) return false;
      break;
    case ComponentUse::lent_as_master:
      if (!lent) return false;
      break;
  }
  return !component.set_on || component.set_on == set_on;
}

void add_components(const KnownGauge& gauge, bool lent, const std::optional<MasterKind>& set_on, SourceNames names,
                    SourceList& list, std::vector<ErrorTerm>& terms) {
  names.gauge = gauge.id;
  for (const ErrorComponent& component : gauge.components) {
    if (!counts_here(component, lent, set_on)) continue;
    if (auto source = source_of(component, names, gauge.division)) terms.push_back({list.add(std::move(*source)), 1.0});
  }
}

}  // namespace

std::size_t SourceList::add(ErrorSource source) {
  const auto [where, fresh] = index_.emplace(source.id, sources_.size());
  if (fresh) sources_.push_back(std::move(source));
  return where->second;
}

std::optional<ErrorSource> source_of(const ErrorComponent& component, const SourceNames& names,
                                     std::optional<Length> division) {
  double to_base = 0.0;
  const Dimension dimension = component.spread.dimension();
  if (dimension == Dimension::length) {
    to_base = unit_definition(component.spread.unit).factor.to_double() /
            static_cast<double>(Length::kCountsPerMillimetre);
  } else if (dimension == Dimension::divisions && division) {
    to_base = division->millimetres();
  } else if (dimension == Dimension::divisions || dimension == Dimension::temperature) {
    return std::nullopt;
  } else {
    to_base = unit_definition(component.spread.unit).factor.to_double();
  }
  std::optional<double> freedom;
  if (component.degrees_of_freedom) freedom = static_cast<double>(*component.degrees_of_freedom);
  return ErrorSource{source_id(component, names), component.id, component.scope, component.shape,
                     component.standard_uncertainty() * to_base, freedom, component.origin,
                     dimension == Dimension::divisions ? Dimension::length : dimension};
}

void add_gauge_terms(const KnownSetting& known, const SourceNames& names, SourceList& list,
                     std::vector<ErrorTerm>& terms) {
  std::optional<MasterKind> set_on;
  if (known.master != nullptr) set_on = known.master->preset->serves_as;
  add_components(*known.gauge, false, set_on, names, list, terms);
  // Locked on a part it shows no size of its own: its limit of error does not enter, and what it flexes it flexed on the part as well.
  if (known.master != nullptr && !known.setting->locked_on) add_components(*known.master, true, std::nullopt, names, list, terms);
}

}  // namespace fettle
