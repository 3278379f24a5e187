#include "form/shape_said.h"

#include <cmath>

#include "catalogue/catalogue.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr double kWorthSayingUm = 0.5;
constexpr double kWorthDoubting = 0.05;

Argument um(const char* name, double value) { return decimal(name, print_fixed(std::abs(value), 1), "µm"); }

/// Never "100 %" or "0 %" of what is not certain.
Argument percent(const char* name, double share) {
  constexpr double kAlmost = 0.99;
  if (share > kAlmost) return verbatim(name, "> 99 %");
  if (share < 1.0 - kAlmost) return verbatim(name, "< 1 %");
  return decimal(name, print_fixed(100.0 * share, 0), "%");
}

/// A gauge that reads worn: large in a bore, small on a shaft.
Argument way_of_gauge(const ShapeGroup& group, double mean_um) {
  return word("way", (mean_um > 0.0) == (group.origin.sign > 0.0) ? "way.larger" : "way.smaller");
}

/// What all readings share, and whom the model takes it for. Where the parts are doubted to stand at their stated size, that is the same
/// question, and one sentence answers it.
Message shift(const ShapeGroup& group) {
  const ShiftCause& setting = group.setting;
  const ShiftCause& made = group.as_made;
  const bool nothing_shared = setting.stated_um <= 0.0;
  const Argument made_way = word("made_way", (made.mean_um > 0.0) == (group.origin.sign > 0.0) ? "way.over" : "way.under");
  std::vector<Argument> arguments = {um("setting", setting.mean_um), way_of_gauge(group, setting.mean_um), um("sd", setting.sd_um),
                                     um("stated", setting.stated_um), um("made", made.mean_um), made_way, um("made_sd", made.sd_um),
                                     um("made_stated", made.stated_um)};
  if (group.not_standard > kWorthDoubting) {
    arguments.push_back(percent("chance", group.not_standard));
    return {nothing_shared ? "shape.not_standard_own" : group.not_standard > 0.5 ? "shape.not_standard" : "shape.perhaps_not_standard",
            std::move(arguments)};
  }
  return {nothing_shared                                       ? "shape.shift_own"
          : std::abs(setting.mean_um) < kWorthSayingUm ? "shape.shift_none"
                                                               : "shape.shift",
          std::move(arguments)};
}

Message suspect_said(const SuspectReading& each, const Layout& layout, UnitId unit) {
  const std::size_t directions = layout.directions.size();
  return {"shape.suspect",
          {verbatim("part", each.part), station_argument("station", layout.stations[each.cell / directions].id),
           direction_argument("direction", layout.directions[each.cell % directions].id),
           decimal("shown", print_length(each.shown_mm, unit), std::string(unit_definition(unit).symbol)),
           decimal("expected", print_length(each.expected_mm, unit), std::string(unit_definition(unit).symbol)),
           um("sd", 1000.0 * each.expected_sd_mm), percent("mistake", each.mistake)}};
}

}  // namespace

std::vector<Message> shape_said(const ShapeGroup& group, const Layout& layout, UnitId unit) {
  std::vector<Message> out;
  for (const SuspectReading& each : group.suspects) out.push_back(suspect_said(each, layout, unit));
  if (!group.knowledge.tolerance_um) {
    out.push_back({"shape.level_unknown", {}});
    return out;
  }
  out.push_back(shift(group));
  return out;
}

}  // namespace fettle
