#include "app/plan_sense.h"

#include <algorithm>

#include "catalogue/catalogue.h"

namespace fettle {
namespace {

/// Floors of ports end so far above the crown at bottom dead centre; common practice, no source.
constexpr double kAboveBottomDeadCentre = 5.0;

bool is_a_port(const Job& job, const std::string& part) {
  return std::any_of(job.parts.begin(), job.parts.end(), [&](const auto& each) { return each.value.id == part && each.value.kind == "port"; });
}

bool has_port(const Job& job) {
  return std::any_of(job.parts.begin(), job.parts.end(), [](const auto& each) { return each.value.kind == "port"; });
}

std::string depth_figure(double mm) {
  const auto tenths = static_cast<std::int64_t>(mm * 10.0 + 0.5);
  return Ratio::of(tenths, 10).decimal(tenths % 10 == 0 ? 0 : 1);
}

class PlanSense {
 public:
  PlanSense(const Job& job, const std::vector<PartOnBench>& parts) : job_(job), parts_(parts) {}

  std::vector<Message> run() {
    const auto window = port_window(job_);
    for (const PartOnBench& part : parts_) {
      if (part.feature == Feature::figure || part.part.members) continue;
      if (window && part.feature == Feature::inside) at_ports(part, *window);
      for (const Kept<Limit>& limit : job_.limits) {
        if (limit.value.kind == part.part.kind) of_limit(part, limit.value);
      }
    }
    return std::move(out_);
  }

 private:
  void at_ports(const PartOnBench& part, const PortWindow& window) {
    for (const Station& station : part.layout.stations) {
      if (!station.depth || !window.holds(station.depth->millimetres())) continue;
      add({"plan.at_port", {verbatim("part", part.part.id), station_argument("station", station.id), decimal("depth", depth_figure(station.depth->millimetres()), "mm"),
                            decimal("edge", depth_figure(window.from_mm), "mm")}});
    }
  }

  void of_limit(const PartOnBench& part, const Limit& limit) {
    const Definition* definition = catalogue().definition(limit.definition);
    if (definition == nullptr) return;
    const auto heights = std::count_if(part.layout.stations.begin(), part.layout.stations.end(), [](const auto& each) { return each.counted; });
    const auto ways = std::count_if(part.layout.directions.begin(), part.layout.directions.end(), [](const auto& each) { return each.counted; });
    const std::vector<Argument> about = {word("kind", "kind." + part.part.kind), verbatim("limit", limit.id)};
    if (definition->family == Family::taper && heights < 2) add({"plan.taper_one_height", about});
    if (definition->family == Family::out_of_round && ways < 2) add({"plan.round_one_direction", about});
    const bool top = part.layout.counts(StationRole::first);
    const bool wears_at_top = part.wear.pattern == WearPattern::from_first && limit.role == LimitRole::service;
    if (definition->family == Family::size && wears_at_top && !top) add({"plan.size_no_top", about});
  }

  void add(Message message) {
    if (std::find(out_.begin(), out_.end(), message) == out_.end()) out_.push_back(std::move(message));
  }

  const Job& job_;
  const std::vector<PartOnBench>& parts_;
  std::vector<Message> out_;
};

}  // namespace

std::optional<PortWindow> port_window(const Job& job) {
  std::optional<double> upper;
  std::optional<double> stroke;
  double deck = 0.0;
  for (const Kept<Reading>& each : job.readings) {
    const Reading& reading = each.value;
    if (reading.flag != ReadingFlag::none || !is_a_port(job, reading.part)) continue;
    const auto length = exact_length(reading.quantity);
    if (!length) continue;
    if (reading.station == "port-depth") upper = std::min(upper.value_or(length->millimetres()), length->millimetres());
    if (reading.station == "stroke") stroke = length->millimetres();
    if (reading.station == "deck") deck = length->millimetres();
  }
  if (!upper) return std::nullopt;
  PortWindow out{*upper, {}};
  if (stroke && deck + *stroke - kAboveBottomDeadCentre > *upper) out.to_mm = deck + *stroke - kAboveBottomDeadCentre;
  return out;
}

bool may_lie_at_port(const Job& job, const Station& station) {
  if (!has_port(job)) return false;
  const auto window = port_window(job);
  if (window && station.depth) return window->holds(station.depth->millimetres());
  return station.role != StationRole::first;
}

std::vector<Message> plan_sense(const Job& job, const std::vector<PartOnBench>& parts) { return PlanSense(job, parts).run(); }

}  // namespace fettle
