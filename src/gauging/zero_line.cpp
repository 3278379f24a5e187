#include "gauging/zero_line.h"

#include <algorithm>

#include "base/assertion.h"
#include "gauging/closing_zero.h"
#include "gauging/reading_moment.h"

namespace fettle {
namespace {

ReadingMoment moment_of(const KnownCheck& check) { return moment_in(check.round, check.after_order); }
ReadingMoment moment_of(const Kept<Reading>* kept) { return moment_in(kept->value.round, *kept->value.order); }

double in_mm(const Ratio& counts) { return counts.to_double() / static_cast<double>(Length::kCountsPerMillimetre); }

/// `notice` has a twin "..._far" for a zero that moved by more than two divisions since it was last looked at.
void tell_moved(Message notice, const Ratio& difference, const Ratio& before, const KnownSetting& known, std::vector<Message>& out) {
  const auto& division = known.gauge->division;
  const bool too_far = division && absolute(difference - before) > division->ratio() * Ratio(2);
  if (difference.sign() == 0 && !too_far) return;
  notice.arguments.push_back(length_argument("difference", absolute(difference), UnitId::micrometre, 1));
  notice.arguments.push_back(word("way", difference.sign() > 0 ? "way.larger" : "way.smaller"));
  if (too_far) notice.key += "_far";
  out.push_back(std::move(notice));
}

}  // namespace

ZeroLine::ZeroLine(const KnownSetting& known, std::vector<const Kept<Reading>*> readings)
    : known_(known), checks_(known.checks) {
  without_order_ = std::erase_if(readings, [](const auto* each) { return !each->value.order; });
  readings_ = readings.size();
  std::stable_sort(checks_.begin(), checks_.end(), [](const auto& a, const auto& b) { return moment_of(a) < moment_of(b); });
  looked_at_last_ = known.closing_difference.has_value() ||
                    (without_order_ == 0 && !checks_.empty() && std::all_of(readings.begin(), readings.end(), [&](const auto* each) {
                      return moment_of(each) <= moment_of(checks_.back());
                    }));
  if (moved()) put_in_order(readings);
}

void ZeroLine::put_in_order(std::vector<const Kept<Reading>*>& readings) {
  std::sort(readings.begin(), readings.end(), [](const auto* a, const auto* b) { return moment_of(a) < moment_of(b); });
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (k > 0 && moment_of(readings[k - 1]) == moment_of(readings[k])) twice_.push_back(readings[k]);
    position_.emplace(readings[k]->event, k + 1);
  }
  std::vector<std::size_t> before;
  for (const KnownCheck& check : checks_) {
    before.push_back(static_cast<std::size_t>(
        std::count_if(readings.begin(), readings.end(), [&](const auto* each) { return moment_of(each) <= moment_of(check); })));
  }
  cut_in_pieces(before);
}

void ZeroLine::cut_in_pieces(const std::vector<std::size_t>& readings_before_each_check) {
  std::vector<std::pair<std::size_t, Ratio>> looks;
  for (std::size_t i = 0; i < checks_.size(); ++i) looks.emplace_back(readings_before_each_check[i], checks_[i].difference);
  if (known_.closing_difference) looks.emplace_back(readings_, *known_.closing_difference);
  std::size_t after = 0;
  Ratio from;
  for (const auto& [until, to] : looks) {
    pieces_.push_back({after, until - after, from, to});
    after = until;
    from = to;
  }
  if (after < readings_) pieces_.push_back({after, readings_ - after, from, std::nullopt});
}

bool ZeroLine::moved() const {
  const bool at_the_end = known_.closing_difference && known_.closing_difference->sign() != 0;
  return at_the_end || std::any_of(checks_.begin(), checks_.end(), [](const auto& each) { return each.difference.sign() != 0; });
}

/// Where the order is not known: the farthest that the zero was ever seen.
Ratio ZeroLine::farthest() const {
  Ratio out = known_.closing_difference.value_or(Ratio());
  for (const KnownCheck& each : checks_) {
    if (absolute(each.difference) > absolute(out)) out = each.difference;
  }
  return out;
}

std::vector<Message> ZeroLine::notices() const {
  std::vector<Message> out;
  if (!moved()) return out;
  const Argument id = verbatim("setting", known_.setting->id);
  Ratio before;
  for (const KnownCheck& each : checks_) {
    tell_moved({"notice.zero_check", {id, verbatim("round", each.round.empty() ? "–" : each.round), count("after", each.after_order)}},
               each.difference, before, known_, out);
    before = each.difference;
  }
  if (known_.closing_difference) tell_moved({"notice.closing_zero", {id}}, *known_.closing_difference, before, known_, out);
  if (without_order_ > 0 && readings_ == 0) out.push_back({"notice.order_unknown", {id}});
  if (without_order_ > 0 && readings_ > 0) out.push_back({"notice.order_unknown_of", {id, count("n", static_cast<std::int64_t>(without_order_))}});
  return out;
}

void ZeroLine::correct(const std::string& reading, SourceList& sources, Size& size) const {
  if (!moved()) return;
  const std::string origin = "closing zero of the setting";
  const auto place = position_.find(reading);
  if (place == position_.end()) {
    const ErrorSource source{"reading:" + reading + ":closing-zero", "closing-zero", ErrorScope::reading, ErrorShape::normal,
                             ClosingZero::unordered_uncertainty_mm(in_mm(farthest())), std::nullopt, origin};
    size.terms.push_back({sources.add(source), 1.0});
    return;
  }
  const std::size_t k = place->second;
  const auto piece =
      std::find_if(pieces_.begin(), pieces_.end(), [&](const Piece& each) { return k > each.after && k <= each.after + each.readings; });
  FETTLE_ASSERT(piece != pieces_.end(), known_.setting->id);
  size.estimate -= in_mm(piece->from);
  if (!piece->to || *piece->to == piece->from) return;
  const ClosingZero closing(in_mm(*piece->to - piece->from), piece->readings);
  size.estimate -= closing.drift_mm(k - piece->after);
  const std::string first = piece->after == 0 ? "" : "after-" + std::to_string(piece->after) + ":";
  for (const ClosingZero::Step& step : closing.steps(k - piece->after)) {
    ErrorSource source{"setting:" + known_.setting->id + ":closing-zero:" + first + std::to_string(step.number), "closing-zero",
                       ErrorScope::setting, ErrorShape::normal, closing.step_uncertainty_mm(), std::nullopt, origin};
    size.terms.push_back({sources.add(std::move(source)), step.coefficient});
  }
}

}  // namespace fettle
