#include "app/turn_missed.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "form/shape_group.h"
#include "gauging/gauge.h"

namespace fettle {
namespace {

constexpr double kLikelier = 0.5;
/// Of a turn: nearer than this, or than three times the doubt of the level, it is taken for a turn.
constexpr double kNearTurn = 0.05;
constexpr int kMostTurns = 2;

/// Gauges with a needle that some part of the group was read with.
std::set<std::string> gauges_of(const Job& job, const ShapeGroup& group) {
  std::set<std::string> settings;
  for (const Kept<Reading>& each : job.readings) {
    if (block_of(group, each.value.part)) settings.insert(each.value.setting);
  }
  std::set<std::string> out;
  for (const Kept<Setting>& each : job.settings) {
    if (each.value.master && settings.contains(each.value.id)) out.insert(each.value.gauge);
  }
  return out;
}

std::optional<Length> turn_of(const Job& job, const std::string& gauge) {
  for (const Kept<Gauge>& each : job.gauges) {
    if (each.value.id != gauge) continue;
    const auto known = know_gauge(each.value, catalogue().gauge_presets, {});
    if (known.ok()) return known.value().turn;
  }
  return std::nullopt;
}

bool is_turns(const ShiftCause& level, double turn_um) {
  const double near = std::max(kNearTurn * turn_um, 3.0 * level.sd_um);
  for (int turns = 1; turns <= kMostTurns; ++turns) {
    if (std::abs(std::abs(level.mean_um) - turns * turn_um) < near) return near < turn_um / 2.0;
  }
  return false;
}

}  // namespace

std::vector<Message> turns_missed(const Job& job, const std::vector<GroupEstimate>& groups) {
  std::vector<Message> out;
  for (const GroupEstimate& group : groups) {
    if (!group.shape || group.shape->not_standard <= kLikelier) continue;
    for (const std::string& gauge : gauges_of(job, *group.shape)) {
      const auto turn = turn_of(job, gauge);
      if (!turn || !is_turns(group.shape->as_made, turn->millimetres() * 1000.0)) continue;
      out.push_back({"notice.turn_missed", {verbatim("parts", joined(group.shape->parts)), verbatim("gauge", gauge),
                                            length_argument("turn", turn->ratio(), UnitId::millimetre, 3)}});
    }
  }
  return out;
}

}  // namespace fettle
