#include "job/invariants.h"

#include <algorithm>
#include <map>
#include <set>

#include "job/limits_of_sheets.h"

namespace fettle {
namespace {

using Ids = std::set<std::string>;

template <class T>
Ids ids_of(const std::vector<Kept<T>>& list) {
  Ids out;
  for (const auto& each : list) out.insert(each.value.id);
  return out;
}

class Rules {
 public:
  explicit Rules(const Job& job) : job_(job), parts_(ids_of(job.parts)), gauges_(ids_of(job.gauges)), settings_(ids_of(job.settings)), limits_(ids_of(job.limits)) {
    // What was decided of a limit stays true of the version of its sheet that had it.
    for (const auto& each : job.earlier_sheets) {
      for (std::string& id : limit_ids_of(each.value)) limits_.insert(std::move(id));
    }
  }

  std::vector<BrokenRule> run() {
    if (!job_.opened) out_.push_back({"job-is-opened", job_.id});
    for (const auto& each : job_.readings) need(parts_, each.value.part, "reading-has-part", each.event);
    for (const auto& each : job_.readings) need(settings_, each.value.setting, "reading-has-setting", each.event);
    for (const auto& each : job_.settings) need(gauges_, each.value.gauge, "setting-has-gauge", each.value.id);
    for (const auto& each : job_.settings) need(gauges_, each.value.master, "setting-has-master", each.value.id);
    for (const auto& each : job_.findings) need(parts_, each.value.part, "finding-has-part", each.value.what);
    for (const auto& each : job_.found_out) need(gauges_, each.value.gauge, "found-out-has-gauge", each.value.what);
    for (const auto& each : job_.files) need(parts_, each.value.part, "file-has-part", each.value.name);
    for (const auto& each : job_.zero_looks) need(settings_, each.value.setting, "zero-look-has-setting", each.event);
    for (const auto& each : job_.temperatures) need(settings_, each.value.setting, "temperatures-have-setting", each.event);
    for (const auto& each : job_.taken) need(parts_, each.value.part, "taken-has-part", each.event);
    for (const auto& each : job_.taken) need(limits_, each.value.limit, "taken-has-limit", each.event);
    for (const auto& each : job_.steps_seen) need_each(each.value.parts, "step-seen-has-part", each.event);
    for (const auto& each : job_.ready) need_each(each.value.parts, "ready-has-part", each.event);
    for (const auto& each : job_.findings) photo(each.value);
    members();
    tell();
    one_correction();
    return std::move(out_);
  }

 private:
  void need(const Ids& known, const std::string& id, std::string_view rule, const std::string& about) {
    if (known.contains(id)) return;
    auto& names = broken_[{rule, id}];
    names.push_back(about);
    if (names.size() == 1) order_.emplace_back(rule, id);
  }

  void need_each(const std::vector<std::string>& parts, std::string_view rule, const std::string& about) {
    for (const std::string& part : parts) need(parts_, part, rule, about);
  }
  void photo(const Finding& finding) {
    const bool there = !finding.photo || std::any_of(job_.files.begin(), job_.files.end(), [&](const auto& each) { return each.value.hash == *finding.photo; });
    if (!there) out_.push_back({"finding-has-photo", *finding.photo + " <- " + finding.what});
  }

  /// Each thing that is not there is told once, however many name it.
  void tell() {
    constexpr std::size_t kMostNamed = 3;
    for (const auto& each : order_) {
      const std::vector<std::string>& names = broken_.at(each);
      std::string about = each.second + " <- ";
      for (std::size_t i = 0; i < names.size() && i < kMostNamed; ++i) about += (i > 0 ? ", " : "") + names[i];
      if (names.size() > kMostNamed) about += ", + " + std::to_string(names.size() - kMostNamed);
      out_.push_back({each.first, std::move(about)});
    }
  }
  void need(const Ids& known, const std::optional<std::string>& id, std::string_view rule, const std::string& about) {
    if (id) need(known, *id, rule, about);
  }

  void members() {
    for (const auto& part : job_.parts) {
      if (!part.value.members) continue;
      for (const Member& each : *part.value.members) need(parts_, each.part, "member-is-part", part.value.id);
    }
  }

  void one_correction() {
    Ids corrected;
    for (const auto& each : job_.readings) {
      if (each.value.supersedes && !corrected.insert(*each.value.supersedes).second) out_.push_back({"one-correction", *each.value.supersedes});
    }
  }

  const Job& job_;
  const Ids parts_;
  const Ids gauges_;
  const Ids settings_;
  Ids limits_;
  std::map<std::pair<std::string_view, std::string>, std::vector<std::string>> broken_;  ///< rule and what is not there -> what names it
  std::vector<std::pair<std::string_view, std::string>> order_;
  std::vector<BrokenRule> out_;
};

}  // namespace

std::vector<std::string_view> rules_of_record() {
  return {"job-is-opened",    "reading-has-part", "reading-has-setting", "setting-has-gauge", "setting-has-master", "finding-has-part",
          "found-out-has-gauge", "file-has-part",    "zero-look-has-setting", "temperatures-have-setting", "taken-has-part", "taken-has-limit",
          "member-is-part",   "one-correction", "step-seen-has-part", "ready-has-part", "finding-has-photo"};
}

std::vector<BrokenRule> broken_rules(const Job& job) { return Rules(job).run(); }

}  // namespace fettle
