#include "app/place_sizes.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "app/bench.h"
#include "catalogue/catalogue.h"
#include "form/assembly.h"

namespace fettle {
namespace {

const Part* named_part(const Job& job, const std::string& id) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(), [&](const auto& each) { return each.value.id == id; });
  return found == job.parts.end() ? nullptr : &found->value;
}

/// What is looked up of a setting, its zeros left as they were at the beginning.
Kept<Setting> as_opened(Kept<Setting> setting) {
  setting.value.closing_zero.reset();
  setting.value.checks.reset();
  return setting;
}

}  // namespace

SizeThere size_there(const Size& size, const std::vector<ErrorSource>& sources) {
  double all = 0.0;
  double own = 0.0;
  for (const ErrorTerm& term : size.terms) {
    const ErrorSource& source = sources[term.source];
    const double part = term.coefficient * source.standard_uncertainty;
    all += part * part;
    if (source.scope == ErrorScope::reading) own += part * part;
  }
  return {size.reading, size.part, size.cell, size.as_measured, size.as_measured.to_double() / static_cast<double>(Length::kCountsPerMillimetre),
          std::sqrt(all), std::sqrt(own)};
}

PlaceSizes::PlaceSizes(const Job& job, const Part& part) : job_(job) {
  const Catalogue& known = catalogue();
  parts_.push_back(on_bench(job, part, known));
  if (part.members) {
    std::vector<PartOnBench> members;
    for (const Member& each : *part.members) {
      if (const Part* member = named_part(job, each.part)) members.push_back(on_bench(job, *member, known));
    }
    std::vector<const PartOnBench*> pointers;
    for (const PartOnBench& each : members) pointers.push_back(&each);
    if (pointers.size() == part.members->size()) parts_.front().layout = assembly_layout(parts_.front().layout, part, pointers);
    parts_.insert(parts_.end(), members.begin(), members.end());
    return;
  }
  for (const Kept<Part>& each : job.parts) {
    if (each.value.kind == part.kind && each.value.id != part.id) parts_.push_back(on_bench(job, each.value, known));
  }
}

SizeSet PlaceSizes::set_of(const std::vector<Kept<Reading>>& readings, Problems& problems) const {
  const Catalogue& known = catalogue();
  std::set<std::string> wanted;
  for (const Kept<Reading>& each : readings) wanted.insert(each.value.setting);
  std::vector<Kept<Setting>> settings;
  std::set<std::string> named;
  for (const Kept<Setting>& each : job_.settings) {
    if (!wanted.contains(each.value.id)) continue;
    settings.push_back(as_opened(each));
    settings.back().value.afresh_of.reset();
    named.insert(each.value.gauge);
    if (each.value.master) named.insert(*each.value.master);
  }
  std::vector<Kept<Gauge>> gauges;
  std::copy_if(job_.gauges.begin(), job_.gauges.end(), std::back_inserter(gauges), [&](const auto& each) { return named.contains(each.value.id); });
  const std::vector<Kept<FoundOut>> none;
  Gauged gauged = sizes_from({parts_, gauges, settings, readings, none, known.gauge_presets, known.temperature, gauge_expansion(known), nullptr, nullptr});
  problems.insert(problems.end(), gauged.problems.begin(), gauged.problems.end());
  return std::move(gauged.set);
}

std::vector<SizeThere> PlaceSizes::of(const std::vector<Kept<Reading>>& readings, Problems& problems) const {
  const SizeSet set = set_of(readings, problems);
  std::vector<SizeThere> out;
  for (const Size& each : set.sizes) out.push_back(size_there(each, set.sources));
  return out;
}

SettingAtHand setting_at_hand(const Job& job, const Kept<Setting>& setting, Problems& problems) {
  SettingAtHand out;
  for (const Kept<Gauge>& each : job.gauges) {
    const bool used = each.value.id == setting.value.gauge || each.value.id == setting.value.master;
    if (!used) continue;
    if (auto known = take(know_gauge(each.value, catalogue().gauge_presets, place_of(each.value)), problems)) out.gauges.emplace(each.value.id, std::move(*known));
  }
  out.known = know_setting(setting, out.gauges, place_of(setting.value), problems);
  return out;
}

}  // namespace fettle
