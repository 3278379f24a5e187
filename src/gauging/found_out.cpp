#include "gauging/found_out.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "gauging/closing_zero.h"
#include "gauging/reading_moment.h"

namespace fettle {
namespace {

/// A micrometer that is locked on a part lends no size: where its thimble stands is not asked.
bool lends_its_size(const FoundOut& found, const Setting& setting) { return setting.master == found.gauge && !setting.locked_on; }

bool is_used_in(const FoundOut& found, const Setting& setting) { return setting.gauge == found.gauge || lends_its_size(found, setting); }

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

/// What was shown, without the zero error that is recorded for it and taken off already.
double beyond_recorded(const FoundOut& found, const KnownGauge& gauge) {
  if (!found.shows_too_much) return 0.0;
  const bool length = gauge.preset->measures == Dimension::length;
  return figure_of(*found.shows_too_much) - (length ? gauge.zero_error.millimetres() : 0.0);
}

/// Half of the last digit that was typed, rectangular; of a bound, the bound.
double uncertainty_of(const FoundOut& found) {
  const double root_of_three = std::sqrt(3.0);
  if (found.may_be_off) return figure_of(*found.may_be_off) / root_of_three;
  const TypedQuantity& typed = *found.shows_too_much;
  const Ratio half_digit_of_it = Ratio::of(1, 2) / (Ratio::power_of_ten(typed.decimals) * absolute(typed.quantity.value));
  return half_digit_of_it.to_double() * std::fabs(figure_of(typed)) / root_of_three;
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
  if (known != gauges.end() && known->second.preset->action == GaugeAction::comparison && found.shows_too_much) {
    out.push_back(Problem{"gauging.found_out_is_set", place, {gauge}});
  }
  for (const auto& named : {found.last_good, found.good_again}) {
    if (named && !use_of(found, settings, *named)) out.push_back(Problem{"gauging.found_out_setting", place, {gauge, verbatim("setting", *named)}});
  }
  if (found.last_good && found.good_again && out.empty() && use_of(found, settings, *found.good_again) <= use_of(found, settings, *found.last_good)) {
    out.push_back(Problem{"gauging.found_out_order", place, {gauge, verbatim("good_again", *found.good_again), verbatim("last_good", *found.last_good)}});
  }
  const bool says = says_how_far(found, known == gauges.end() ? nullptr : &known->second);
  if (!says) out.push_back(Problem{"gauging.found_out_how_far", place, {gauge}});
  if (says && found.shows_too_much && known != gauges.end() && beyond_recorded(found, known->second) == 0.0) {
    out.push_back(Problem{"gauging.found_out_recorded", place, {gauge, verbatim("shows", found.shows_too_much->text)}});
  }
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

OutOfTrue::OutOfTrue(const std::vector<Kept<FoundOut>>& found_out, const std::vector<Kept<Setting>>& settings,
                     const std::vector<Kept<Reading>>& readings, const KnownGauges& gauges, Problems& problems) {
  std::map<std::string, std::set<std::string>> in_doubt;
  for (const Kept<FoundOut>& kept : found_out) {
    const FoundOut& found = kept.value;
    Problems wrong = problems_of(found, settings, gauges);
    std::set<std::string>& before = in_doubt[found.gauge];
    const std::vector<std::string> doubted = settings_in_doubt(found, settings);
    const std::size_t once = before.size() + doubted.size();
    before.insert(doubted.begin(), doubted.end());
    // Where the first one named no setting that was good, nothing tells the two apart.
    if (before.size() != once || (told_.contains(found.gauge) && doubted.empty())) {
      wrong.push_back(Problem{"gauging.found_out_twice", place_of(found), {verbatim("gauge", found.gauge)}});
    }
    problems.insert(problems.end(), wrong.begin(), wrong.end());
    if (!wrong.empty()) continue;
    told_.insert(found.gauge);
    const std::string since = found.last_good ? ":since:" + *found.last_good : "";
    steps_.push_back({&found, "gauge:" + found.gauge + ":out-of-true" + since, beyond_recorded(found, gauges.at(found.gauge)), uncertainty_of(found), 0});
    add_uses(steps_.size() - 1, settings, readings);
  }
}

void OutOfTrue::add_uses(std::size_t step, const std::vector<Kept<Setting>>& settings, const std::vector<Kept<Reading>>& readings) {
  const FoundOut& found = *steps_[step].found;
  std::size_t& uses = steps_[step].uses;
  for (const std::string& id : settings_in_doubt(found, settings)) {
    const Setting& setting = settings[*use_of(found, settings, id)].value;
    if (lends_its_size(found, setting)) {
      ++uses;
      lent_[id].push_back({step, uses, uses});
    }
    if (setting.gauge != found.gauge) continue;
    std::vector<const Kept<Reading>*> taken;
    for (const Kept<Reading>& each : readings) {
      if (each.value.setting == id) taken.push_back(&each);
    }
    const bool ordered = std::all_of(taken.begin(), taken.end(), [](const auto* each) { return each->value.order.has_value(); });
    const auto moment = [](const auto* each) { return std::pair(moment_in(each->value.round, *each->value.order), each->event); };
    if (ordered) std::sort(taken.begin(), taken.end(), [&](const auto* a, const auto* b) { return moment(a) < moment(b); });
    for (std::size_t i = 0; i < taken.size(); ++i) {
      read_[taken[i]->event].push_back(ordered ? Use{step, uses + i + 1, uses + i + 1} : Use{step, uses + 1, uses + taken.size()});
    }
    uses += taken.size();
  }
}

void OutOfTrue::correct(const Kept<Reading>& reading, SourceList& sources, Size& size) const {
  const auto move_all = [&](const std::map<std::string, std::vector<Use>>& uses, const std::string& key) {
    const auto found = uses.find(key);
    if (found == uses.end()) return;
    for (const Use& use : found->second) move(use, reading.event, sources, size);
  };
  move_all(lent_, reading.value.setting);
  move_all(read_, reading.event);
}

void OutOfTrue::move(const Use& use, const std::string& reading, SourceList& sources, Size& size) const {
  const Step& step = steps_[use.step];
  const auto source = [&](const std::string& id, ErrorScope scope, double uncertainty) {
    return sources.add({id, "out-of-true", scope, ErrorShape::normal, uncertainty, std::nullopt, step.found->what,
                        how_far(*step.found)->quantity.dimension()});
  };
  const double share = static_cast<double>(use.first + use.last) / 2.0 / static_cast<double>(step.uses + 1);
  size.estimate -= step.off * share;
  size.terms.push_back({source(step.source + ":by", ErrorScope::master, step.uncertainty), -share});
  // A step of root mean square r has the covariance r²·(min(p, p') − p·p') about its own line; see ClosingZero.
  const double root_mean_square = std::hypot(step.off, step.uncertainty);
  const ClosingZero walk(root_mean_square, step.uses + 1);
  std::map<std::size_t, double> coefficients;
  const double places = static_cast<double>(use.last - use.first + 1);
  for (std::size_t k = use.first; k <= use.last; ++k) {
    for (const ClosingZero::Step& each : walk.steps(k)) coefficients[each.number] += each.coefficient / places;
  }
  double shared = 0.0;
  for (const auto& [number, coefficient] : coefficients) {
    size.terms.push_back({source(step.source + ":" + std::to_string(number), ErrorScope::master, walk.step_uncertainty_mm()), -coefficient});
    shared += coefficient * coefficient;
  }
  if (use.first == use.last) return;
  // Its own place among the others: what a step's variance has beyond their mean.
  const double own = root_mean_square * std::sqrt(std::max(0.0, share * (1.0 - share) - shared));
  size.terms.push_back({source("reading:" + reading + ":" + step.source, ErrorScope::reading, own), 1.0});
}

}  // namespace fettle
