#include "gauging/found_out.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "gauging/closing_zero.h"

namespace fettle {
namespace {

bool is_used_in(const FoundOut& found, const Setting& setting) { return setting.gauge == found.gauge || setting.master == found.gauge; }

const TypedQuantity* how_far(const FoundOut& found) {
  return found.shows_too_much ? &*found.shows_too_much : found.may_be_off ? &*found.may_be_off : nullptr;
}

Place place_of(const FoundOut& found) {
  const TypedQuantity* typed = how_far(found);
  return typed == nullptr ? Place{} : typed->place;
}

/// mm, or the base unit of another quantity, as estimates have it.
double figure_of(const TypedQuantity& typed) {
  const auto length = exact_length(typed.quantity);
  return length ? length->millimetres() : typed.quantity.in_base().to_double();
}

bool says_how_far(const FoundOut& found, const KnownGauge* gauge) {
  if (found.shows_too_much.has_value() == found.may_be_off.has_value()) return false;
  const TypedQuantity& typed = *how_far(found);
  if (typed.side || (gauge != nullptr && typed.quantity.dimension() != gauge->preset->measures)) return false;
  return found.may_be_off ? figure_of(typed) > 0.0 : figure_of(typed) != 0.0;
}

/// Place in the list of a setting in which the gauge was used.
std::optional<std::size_t> use_of(const FoundOut& found, const std::vector<Kept<Setting>>& settings, const std::string& id) {
  for (std::size_t i = 0; i < settings.size(); ++i) {
    if (settings[i].value.id == id && is_used_in(found, settings[i].value)) return i;
  }
  return std::nullopt;
}

Problems problems_of(const FoundOut& found, const std::vector<Kept<Setting>>& settings, const KnownGauges& gauges) {
  Problems out;
  const Place place = place_of(found);
  const Argument gauge = verbatim("gauge", found.gauge);
  const auto known = gauges.find(found.gauge);
  if (known == gauges.end()) out.push_back(Problem{"gauging.found_out_unknown", place, {gauge}});
  if (known != gauges.end() && known->second.preset->action == GaugeAction::comparison) {
    out.push_back(Problem{"gauging.found_out_is_set", place, {gauge}});
  }
  for (const auto& named : {found.last_good, found.good_again}) {
    if (named && !use_of(found, settings, *named)) out.push_back(Problem{"gauging.found_out_setting", place, {gauge, verbatim("setting", *named)}});
  }
  if (found.last_good && found.good_again && out.empty() && use_of(found, settings, *found.good_again) <= use_of(found, settings, *found.last_good)) {
    out.push_back(Problem{"gauging.found_out_order", place, {gauge, verbatim("good_again", *found.good_again), verbatim("last_good", *found.last_good)}});
  }
  if (!says_how_far(found, known == gauges.end() ? nullptr : &known->second)) out.push_back(Problem{"gauging.found_out_how_far", place, {gauge}});
  return out;
}

}  // namespace

std::vector<std::string> settings_in_doubt(const FoundOut& found, const std::vector<Kept<Setting>>& settings) {
  std::vector<std::string> out;
  for (const Kept<Setting>& each : settings) {
    if (each.value.id == found.good_again) break;
    if (is_used_in(found, each.value)) out.push_back(each.value.id);
    if (each.value.id == found.last_good) out.clear();
  }
  return out;
}

OutOfTrue::OutOfTrue(const std::vector<Kept<FoundOut>>& found_out, const std::vector<Kept<Setting>>& settings, const KnownGauges& gauges,
                     Problems& problems) {
  std::set<std::string> told;
  for (const Kept<FoundOut>& kept : found_out) {
    const FoundOut& found = kept.value;
    Problems wrong = problems_of(found, settings, gauges);
    if (!told.insert(found.gauge).second) wrong.push_back(Problem{"gauging.found_out_twice", place_of(found), {verbatim("gauge", found.gauge)}});
    problems.insert(problems.end(), wrong.begin(), wrong.end());
    if (!wrong.empty()) continue;
    const std::vector<std::string> doubted = settings_in_doubt(found, settings);
    for (std::size_t k = 0; k < doubted.size(); ++k) by_setting_[doubted[k]].push_back({&found, k + 1, doubted.size()});
  }
}

void OutOfTrue::correct(const std::string& setting, SourceList& sources, Size& size) const {
  const auto uses = by_setting_.find(setting);
  if (uses == by_setting_.end()) return;
  for (const Use& use : uses->second) {
    const auto source = [&](std::size_t number, double mm) {
      return sources.add({"gauge:" + use.found->gauge + ":out-of-true:" + std::to_string(number), "out-of-true", ErrorScope::master,
                          ErrorShape::normal, mm, std::nullopt, use.found->what, how_far(*use.found)->quantity.dimension()});
    };
    if (use.found->shows_too_much) {
      const ClosingZero step(figure_of(*use.found->shows_too_much), use.settings + 1);
      size.estimate -= step.drift_mm(use.k);
      for (const ClosingZero::Step& each : step.steps(use.k)) size.terms.push_back({source(each.number, step.step_uncertainty_mm()), -each.coefficient});
    } else {
      const double per_setting = figure_of(*use.found->may_be_off) / std::sqrt(3.0 * static_cast<double>(use.settings + 1));
      for (std::size_t i = 1; i <= use.k; ++i) size.terms.push_back({source(i, per_setting), 1.0});
    }
  }
}

}  // namespace fettle
