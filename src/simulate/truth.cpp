#include "simulate/truth.h"

#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "form/expand.h"
#include "numeric/angle.h"

namespace fettle {
namespace {

constexpr double kMicrometresPerMillimetre = 1000.0;

bool is_drawn(const Span& span) { return span.low != span.high; }

double between(const Span& span, double share) { return span.low + (span.high - span.low) * share; }

/// Coordinates of the unit cube, taken one after the other by whatever is really drawn.
class UnitPoint {
 public:
  explicit UnitPoint(std::span<const double> unit) : unit_(unit) {}

  double in(const Span& span) { return is_drawn(span) ? between(span, next()) : span.low; }

  double one_of(const std::vector<double>& values) {
    if (values.size() == 1) return values.front();
    const auto index = static_cast<std::size_t>(next() * static_cast<double>(values.size()));
    return values[index < values.size() ? index : values.size() - 1];
  }

 private:
  double next() {
    FETTLE_ASSERT(used_ < unit_.size(), std::to_string(unit_.size()));
    return unit_[used_++];
  }

  std::span<const double> unit_;
  std::size_t used_ = 0;
};

/// FNV-1a, so that families of one seed do not share their draws.
std::uint64_t number_of(std::string_view id) {
  std::uint64_t out = 0xcbf2'9ce4'8422'2325U;
  for (const char c : id) {
    out ^= static_cast<unsigned char>(c);
    out *= 0x100'0000'01b3U;
  }
  return out;
}

/// What one µm of a component's amount does to the diameter at each cell.
std::vector<double> shape_of(const EngineFamily& family, const Component& component, double length) {
  const Layout& layout = family.layout;
  const std::vector<double> shares = depth_shares(layout);
  std::vector<double> out(layout.cells());
  for (std::size_t s = 0; s < layout.stations.size(); ++s) {
    const bool unworn = layout.stations[s].role == StationRole::reference && component.profile != Profile::even;
    const double along = unworn ? 0.0 : profile_at(component.profile, shares[s], length);
    for (std::size_t d = 0; d < layout.directions.size(); ++d) {
      double across = 1.0;
      if (component.pattern == Pattern::oval) {
        const double angle = layout.directions[d].angle_degrees.to_double() - component.axis_degrees;
        across = 0.5 * cosine_of_degrees(2.0 * angle);
      }
      out[layout.cell(s, d)] = wear_sign(family) * along * across;
    }
  }
  return out;
}

bool has_mean(Scatter scatter) {
  switch (scatter) {
    case Scatter::about_amount:
      return true;
    case Scatter::about_nothing:
      return false;
    case Scatter::one_sided:
      return true;
  }
  return true;
}

double limit_bound(const FamilyLimit& limit) {
  return limit.bound.quantity.in_base().to_double() / static_cast<double>(Length::kCountsPerMillimetre);
}

}  // namespace

std::size_t hyper_dimensions(const EngineFamily& family) {
  std::size_t out = family.steps_um.size() > 1 ? 1 : 0;
  for (const Component& each : family.components) {
    for (const Span* span : {&each.amount, &each.length, &each.likeness})
      if (is_drawn(*span)) ++out;
  }
  return out;
}

Hyper hyper_at(const EngineFamily& family, std::span<const double> unit) {
  UnitPoint point(unit);
  Hyper out{point.one_of(family.steps_um), {}};
  out.components.reserve(family.components.size());
  for (const Component& each : family.components) {
    ComponentHyper hyper{point.in(each.amount), point.in(each.length), point.in(each.likeness)};
    if (each.follows) {
      hyper.amount_um *= out.components[*each.follows].amount_um;
      hyper.length = out.components[*each.follows].length;
    }
    out.components.push_back(hyper);
  }
  return out;
}

Hyper draw_hyper(const EngineFamily& family, Generator& generator) {
  std::vector<double> unit(hyper_dimensions(family));
  for (double& each : unit) each = generator.uniform();
  return hyper_at(family, unit);
}

ConditionalTruth conditional_truth(const EngineFamily& family, const Hyper& hyper) {
  const std::size_t cells = family.layout.cells();
  const std::size_t columns = 1 + family.components.size() + cells;
  ConditionalTruth out{std::vector<double>(cells, family.as_made_um + hyper.step_um),
                       {cells, 1, std::vector<double>(cells, family.as_made_common_um)},
                       {cells, columns, std::vector<double>(cells * columns, 0.0)}};
  for (std::size_t cell = 0; cell < cells; ++cell) {
    out.own.at(cell, 0) = family.as_made_own_um;
    out.own.at(cell, 1 + family.components.size() + cell) = family.texture_um;
  }
  for (std::size_t c = 0; c < family.components.size(); ++c) {
    const Component& component = family.components[c];
    const ComponentHyper& drawn = hyper.components[c];
    const std::vector<double> shape = shape_of(family, component, drawn.length);
    for (std::size_t cell = 0; cell < cells; ++cell) {
      if (has_mean(component.scatter)) out.mean[cell] += drawn.amount_um * shape[cell];
      out.own.at(cell, 1 + c) = drawn.amount_um * drawn.likeness * shape[cell];
    }
  }
  return out;
}

Generator engine_generator(const EngineFamily& family, std::uint64_t seed, std::uint64_t number, std::uint64_t part) {
  return {seed ^ number_of(family.id), 2 * number + part};
}

EngineTruth draw_truth(const EngineFamily& family, std::uint64_t seed, std::uint64_t number) {
  Generator generator = engine_generator(family, seed, number, 0);
  EngineTruth out{draw_hyper(family, generator), {}, std::nullopt, 0.0};
  const ConditionalTruth given = conditional_truth(family, out.hyper);
  const std::size_t components = family.components.size();
  const double common = generator.normal();
  double odd_level = 0.0;
  double odd_share = 1.0;
  if (family.odd_part) {
    out.odd_part = static_cast<std::size_t>(generator.uniform() * static_cast<double>(family.parts));
    odd_level = between(family.odd_part->level_um, generator.uniform());
    odd_share = between(family.odd_part->wear_share, generator.uniform());
  }
  std::vector<double> z(given.own.columns);
  for (std::size_t part = 0; part < family.parts; ++part) {
    generator.normals(z);
    for (std::size_t c = 0; c < components; ++c) {
      if (family.components[c].scatter == Scatter::one_sided && z[1 + c] < 0.0) z[1 + c] = -z[1 + c];
    }
    const bool odd = out.odd_part == part;
    const double level = family.as_made_um + out.hyper.step_um;
    std::vector<double> sizes_mm(given.mean.size());
    for (std::size_t cell = 0; cell < sizes_mm.size(); ++cell) {
      double worn = given.mean[cell] - level;
      for (std::size_t c = 0; c < components; ++c) worn += given.own.at(cell, 1 + c) * z[1 + c];
      double um =
          level + given.shared.at(cell, 0) * common + given.own.at(cell, 0) * z[0] + (odd ? odd_share : 1.0) * worn;
      um += given.own.at(cell, 1 + components + cell) * z[1 + components + cell] + (odd ? odd_level : 0.0);
      sizes_mm[cell] = family.standard.millimetres() + um / kMicrometresPerMillimetre;
    }
    out.sizes_mm.push_back(std::move(sizes_mm));
  }
  out.three_lobe_um = between(family.three_lobe_um, generator.uniform());
  return out;
}

TruthJudge::TruthJudge(const EngineFamily& family) {
  const PartGrid grid{
      family.feature, family.layout, std::vector<bool>(family.layout.cells(), true), {family.standard, family.standard}};
  for (const FamilyLimit& limit : family.limits) {
    const Definition* definition = catalogue().definition(limit.definition);
    FETTLE_ASSERT(definition != nullptr, limit.definition);
    const Result<Expansion> expansion = expand(*definition, grid);
    FETTLE_ASSERT(expansion.ok(), limit.definition);
    limits_.push_back({DrawEvaluator(expansion.value()), limit_bound(limit), definition->family == Family::size,
                       limit_side(family, limit.definition)});
  }
}

double TruthJudge::value(const EngineTruth& truth, std::size_t part, std::size_t limit) const {
  const double step_mm = limits_[limit].moves_with_step ? truth.hyper.step_um / kMicrometresPerMillimetre : 0.0;
  return limits_[limit].evaluator(truth.sizes_mm[part]) - step_mm;
}

bool TruthJudge::part_keeps(const EngineTruth& truth, std::size_t part) const {
  for (std::size_t limit = 0; limit < limits_.size(); ++limit) {
    const double past = value(truth, part, limit) - limits_[limit].bound;
    if (limits_[limit].side == LimitSide::at_most ? past > 0.0 : past < 0.0) return false;
  }
  return true;
}

bool TruthJudge::keeps(const EngineTruth& truth) const {
  for (std::size_t part = 0; part < truth.sizes_mm.size(); ++part) {
    if (!part_keeps(truth, part)) return false;
  }
  return true;
}

}  // namespace fettle
