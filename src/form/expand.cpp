#include "form/expand.h"

#include <algorithm>
#include <map>

#include "form/face_plane.h"
#include "form/formula.h"
#include "form/open_places.h"
#include "form/reading_minimum.h"
#include "form/two_lobe.h"

namespace fettle {
namespace {

/// A sum of greatest values has one form for every choice; past this many a definition is no definition any more.
constexpr std::size_t kMostForms = 20'000;

/// A form while it grows. `label` says which item of the outermost max or min it came from.
struct Growing {
  std::map<std::size_t, Ratio> coefficients;
  Ratio constant;
  std::optional<std::size_t> label;
};
using Forms = std::vector<Growing>;

Growing scaled(const Growing& form, const Ratio& by) {
  Growing out{{}, form.constant * by, form.label};
  for (const auto& [cell, coefficient] : form.coefficients) out.coefficients.emplace(cell, coefficient * by);
  return out;
}

Growing sum(const Growing& a, const Growing& b) {
  Growing out = a;
  out.constant = out.constant + b.constant;
  for (const auto& [cell, coefficient] : b.coefficients) {
    const auto [place, fresh] = out.coefficients.emplace(cell, coefficient);
    if (!fresh) place->second = place->second + coefficient;
  }
  if (!out.label) out.label = b.label;
  return out;
}

/// Nothing where no reading reached it: an undefined part is left out of what stands around it.
class Expander {
 public:
  Expander(const PartGrid& grid, const std::vector<bool>& entering) : grid_(grid), entering_(entering) {}

  /// `outermost`: nothing but narrowing and scaling stands around, so a max or min found here is the outermost one.
  Forms expand(const Expression& expression, const OpenPlaces& open, bool outermost);

  [[nodiscard]] bool too_many() const { return too_many_; }
  [[nodiscard]] const std::vector<OpenPlaces>& labels() const { return labels_; }
  [[nodiscard]] const std::vector<LobeStation>& lobes() const { return lobes_; }

 private:
  Forms at_size(const OpenPlaces& open) const;
  Forms chosen(const Expression& expression, const OpenPlaces& open, bool outermost);
  Forms averaged(const Expression& expression, const OpenPlaces& open);
  Forms spread(const Expression& expression, const OpenPlaces& open);
  Forms subtracted(const Expression& expression, const OpenPlaces& open, bool outermost);
  Forms scaled_part(const Expression& expression, const OpenPlaces& open, const Ratio& by, bool outermost);
  Forms every_sum(const Forms& a, const Forms& b);
  Ratio one_over_length(const OpenPlaces& open) const;
  void note_lobes(const OpenPlaces& open);
  Forms at_place(const std::string& station) const;
  Forms on_face(Operation operation, const OpenPlaces& open) const;
  Forms twisted(const OpenPlaces& open) const;
  Forms both_ways(const Expression& expression, const OpenPlaces& open);

  const PartGrid& grid_;
  const std::vector<bool>& entering_;
  std::vector<OpenPlaces> labels_;
  std::vector<LobeStation> lobes_;
  bool too_many_ = false;
};

Forms constant_form(const Ratio& value) { return {Growing{{}, value, {}}}; }

bool is_constant(const Expression& expression) {
  return expression.operation == Operation::standard || expression.operation == Operation::nominal;
}

Forms Expander::at_size(const OpenPlaces& open) const {
  if (open.stations.empty() || open.directions.empty()) return {};
  FETTLE_ASSERT(open.stations.size() == 1 && open.directions.size() == 1, "a size with several places open");
  const std::size_t cell = grid_.layout.cell(open.stations.front(), open.directions.front());
  if (!entering_[cell]) return {};
  return {Growing{{{cell, Ratio(1)}}, Ratio(), {}}};
}

Forms Expander::chosen(const Expression& expression, const OpenPlaces& open, bool outermost) {
  Forms out;
  for (const OpenPlaces& item : split(open, expression.over)) {
    Forms forms = expand(expression.parts[0], item, false);
    if (forms.empty()) continue;
    if (outermost) {
      for (Growing& form : forms) form.label = labels_.size();
      labels_.push_back(item);
    }
    out.insert(out.end(), forms.begin(), forms.end());
    if (out.size() > kMostForms) too_many_ = true;
    if (too_many_) return {};
  }
  return out;
}

Forms Expander::every_sum(const Forms& a, const Forms& b) {
  if (a.size() * b.size() > kMostForms) too_many_ = true;
  if (too_many_) return {};
  Forms out;
  out.reserve(a.size() * b.size());
  for (const Growing& left : a) {
    for (const Growing& right : b) out.push_back(sum(left, right));
  }
  return out;
}

Forms Expander::averaged(const Expression& expression, const OpenPlaces& open) {
  Forms total;
  int items = 0;
  for (const OpenPlaces& item : split(open, expression.over)) {
    const Forms forms = expand(expression.parts[0], item, false);
    if (forms.empty()) continue;
    total = items == 0 ? forms : every_sum(total, forms);
    ++items;
  }
  for (Growing& form : total) form = scaled(form, Ratio::of(1, items));
  return total;
}

/// Largest minus smallest of linear parts: the greatest of all differences of two of them. One part alone has no range.
Forms Expander::spread(const Expression& expression, const OpenPlaces& open) {
  Forms items;
  for (const OpenPlaces& item : split(open, expression.over)) {
    const Forms forms = expand(expression.parts[0], item, false);
    FETTLE_ASSERT(forms.size() <= 1, "range of something that is not linear");
    items.insert(items.end(), forms.begin(), forms.end());
  }
  Forms out;
  if (items.size() * items.size() > kMostForms) too_many_ = true;
  if (too_many_) return out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    for (std::size_t k = 0; k < items.size(); ++k) {
      if (i != k) out.push_back(sum(items[i], scaled(items[k], Ratio(-1))));
    }
  }
  return out;
}

Forms Expander::subtracted(const Expression& expression, const OpenPlaces& open, bool outermost) {
  const Expression& left = expression.parts[0];
  const Expression& right = expression.parts[1];
  const Forms a = expand(left, open, outermost && is_constant(right));
  Forms b = expand(right, open, outermost && is_constant(left));
  for (Growing& form : b) form = scaled(form, Ratio(-1));
  return every_sum(a, b);
}

/// a - b and b - a: the greatest of the two is how far they lie apart.
Forms Expander::both_ways(const Expression& expression, const OpenPlaces& open) {
  Forms out = subtracted(expression, open, false);
  FETTLE_ASSERT(out.size() <= 1, "apart of something that is not linear");
  if (!out.empty()) out.push_back(scaled(out.front(), Ratio(-1)));
  return out;
}

Forms Expander::scaled_part(const Expression& expression, const OpenPlaces& open, const Ratio& by, bool outermost) {
  Forms out = expand(expression.parts[0], open, outermost);
  for (Growing& form : out) form = scaled(form, by);
  return out;
}

Ratio Expander::one_over_length(const OpenPlaces& open) const {
  if (open.stations.empty()) return Ratio(1);
  const auto& first = grid_.layout.stations[open.stations.front()].depth;
  const auto& last = grid_.layout.stations[open.stations.back()].depth;
  FETTLE_ASSERT(first && last && *last > *first, "slope without depths");
  return Ratio::of(1, (*last - *first).counts());
}

void Expander::note_lobes(const OpenPlaces& open) {
  if (open.stations.empty()) return;
  LobeStation out{open.stations.front(), {}, {}, {}};
  for (std::size_t direction : open.directions) {
    const std::size_t cell = grid_.layout.cell(out.station, direction);
    if (!entering_[cell]) continue;
    out.directions.push_back(direction);
    out.cells.push_back(cell);
    out.angles_degrees.push_back(grid_.layout.directions[direction].angle_degrees);
  }
  if (out.directions.size() >= 3) lobes_.push_back(std::move(out));
}

Forms Expander::at_place(const std::string& station) const {
  const auto found = grid_.layout.find_station(station);
  if (!found) return {};
  return at_size({{*found}, {counted_places(grid_.layout).directions.front()}});
}

/// The plane through everything that was read of the part's own, and of it what is asked. Slopes are of counts per count.
Forms Expander::on_face(Operation operation, const OpenPlaces& open) const {
  const OpenPlaces all = counted_places(grid_.layout);
  std::vector<std::size_t> cells;
  std::vector<FacePoint> points;
  for (const std::size_t station : all.stations) {
    for (const std::size_t direction : all.directions) {
      if (!entering_[grid_.layout.cell(station, direction)]) continue;
      cells.push_back(grid_.layout.cell(station, direction));
      points.push_back({grid_.layout.stations[station].depth->millimetres(), grid_.layout.directions[direction].offset->millimetres()});
    }
  }
  const auto plane = FacePlane::through(points);
  if (!plane) return {};
  std::vector<Ratio> weights;
  const Ratio per_count(static_cast<Int128>(Length::kCountsPerMillimetre));
  if (operation == Operation::off_plane) {
    const auto here = std::find(cells.begin(), cells.end(), grid_.layout.cell(open.stations.front(), open.directions.front()));
    if (here == cells.end()) return {};
    weights = plane->off(static_cast<std::size_t>(here - cells.begin()));
  } else {
    weights = operation == Operation::tilt_along ? plane->slope_along() : plane->slope_across();
    for (Ratio& each : weights) each = each / per_count;
  }
  Growing form{{}, Ratio(), {}};
  for (std::size_t k = 0; k < cells.size(); ++k) form.coefficients.emplace(cells[k], weights[k]);
  return {form};
}

Forms Expander::twisted(const OpenPlaces& open) const {
  Growing form{{}, Ratio(), {}};
  for (const bool last_station : {false, true}) {
    for (const bool last_direction : {false, true}) {
      const std::size_t cell = grid_.layout.cell(last_station ? open.stations.back() : open.stations.front(),
                                                 last_direction ? open.directions.back() : open.directions.front());
      if (!entering_[cell]) return {};
      form.coefficients.emplace(cell, Ratio(last_station == last_direction ? 1 : -1));
    }
  }
  return form.coefficients.size() == 4 ? Forms{form} : Forms{};
}

Forms Expander::expand(const Expression& expression, const OpenPlaces& open, bool outermost) {
  if (too_many_) return {};
  switch (expression.operation) {
    case Operation::size: return at_size(open);
    case Operation::standard: return constant_form(grid_.given.standard.value().ratio());
    case Operation::nominal: return constant_form(grid_.given.nominal.value().ratio());
    case Operation::of: return expand(expression.parts[0], counted_places(grid_.layout, expression.member), outermost);
    case Operation::at: return expand(expression.parts[0], narrowed(open, expression, grid_.layout), outermost);
    case Operation::max:
    case Operation::min: return chosen(expression, open, outermost);
    case Operation::mean: return averaged(expression, open);
    case Operation::range: return spread(expression, open);
    case Operation::difference: return subtracted(expression, open, outermost);
    case Operation::factor: return scaled_part(expression, open, expression.number, outermost);
    case Operation::slope: return scaled_part(expression, open, one_over_length(open), outermost);
    case Operation::ratio: {
      const bool by_standard = expression.parts[1].operation == Operation::standard;
      const Length below = by_standard ? grid_.given.standard.value() : grid_.given.nominal.value();
      return scaled_part(expression, open, Ratio(1) / below.ratio(), outermost);
    }
    case Operation::amplitude: note_lobes(open); return {};
    case Operation::place: return at_place(expression.member);
    case Operation::number:
    case Operation::length: return constant_form(expression.number);
    case Operation::per_span: {
      Forms out = at_size(open);
      if (out.empty()) return out;
      const Length span = grid_.layout.stations[open.stations.front()].span.value();
      return {scaled(out.front(), Ratio(1) / span.ratio())};
    }
    case Operation::apart: return both_ways(expression, open);
    case Operation::sum: return every_sum(expand(expression.parts[0], open, false), expand(expression.parts[1], open, false));
    case Operation::tilt_along:
    case Operation::tilt_across:
    case Operation::off_plane: return on_face(expression.operation, open);
    case Operation::twist: return twisted(open);
    case Operation::product:
    case Operation::quotient:
    case Operation::cosine:
    case Operation::arccosine:
    case Operation::vector_difference:
    case Operation::neighbour_rule: break;  // formulas, which formula.h makes
  }
  return {};
}

void add_once(std::vector<std::size_t>& items, std::size_t item) {
  if (std::find(items.begin(), items.end(), item) == items.end()) items.push_back(item);
}

LinearForm finished(const Growing& form, std::size_t directions) {
  LinearForm out{{}, form.constant, {}};
  for (const auto& [cell, coefficient] : form.coefficients) {
    if (coefficient.sign() == 0) continue;
    out.terms.push_back({cell, coefficient});
    add_once(out.where.stations, cell / directions);
    add_once(out.where.directions, cell % directions);
  }
  std::sort(out.where.stations.begin(), out.where.stations.end());
  std::sort(out.where.directions.begin(), out.where.directions.end());
  return out;
}

/// Forms of one label stand together: they were made item by item.
std::vector<FormGroup> groups_of(const Forms& forms, const std::vector<OpenPlaces>& labels) {
  std::vector<FormGroup> out;
  for (std::size_t i = 0; i < forms.size(); ++i) {
    if (!forms[i].label) continue;
    if (i > 0 && forms[i - 1].label == forms[i].label) {
      ++out.back().count;
      continue;
    }
    const OpenPlaces& item = labels[*forms[i].label];
    FormGroup group{{}, {}, i, 1};
    if (item.stations.size() == 1) group.station = item.stations.front();
    if (item.directions.size() == 1) group.direction = item.directions.front();
    out.push_back(group);
  }
  return out;
}

void note_cells(const Definition& definition, const PartGrid& grid, Expansion& out) {
  std::vector<bool> used(grid.layout.cells(), false);
  for (const LinearForm& form : out.forms) {
    for (const Term& term : form.terms) used[term.cell] = true;
  }
  for (const LobeStation& lobe : out.lobes) {
    for (std::size_t cell : lobe.cells) used[cell] = true;
  }
  for (const Formula& formula : out.formulas) {
    for (std::size_t cell : formula.cells) used[cell] = true;
  }
  for (std::size_t cell : asked_cells(definition, grid)) (used[cell] ? out.used : out.missing).push_back(cell);
}

Result<Expansion> of_formulas(const Definition& definition, const PartGrid& grid, const std::vector<bool>& entering) {
  const Reckoning& reckoning = *definition.reckoning(grid.feature);
  Expansion out{reckoning.sense, definition.dimension, {}, {}, {}, {}, {}, formulas_of(reckoning.expression, grid, entering)};
  if (out.formulas.empty()) return places_lacking(definition, grid, entering);
  note_cells(definition, grid, out);
  return out;
}

}  // namespace

Result<Expansion> expand(const Definition& definition, const PartGrid& grid) {
  FETTLE_ASSERT(grid.read.size() == grid.layout.cells(), "one entry for each cell: " + definition.id);
  if (Problems needs = unmet_needs(definition, grid); !needs.empty()) return needs;
  const std::vector<bool> entering = entering_cells(definition, grid);
  if (Problems less = minimum_problems(definition, grid, entering); !less.empty()) return less;

  const Reckoning& reckoning = *definition.reckoning(grid.feature);
  if (is_formula(reckoning.sense)) return of_formulas(definition, grid, entering);
  Expander expander(grid, entering);
  const Forms forms = expander.expand(reckoning.expression, counted_places(grid.layout), true);
  if (expander.too_many()) {
    return Problem{"form.too_many_forms", {},
                   {word("definition", "definition." + definition.id), count("most", static_cast<std::int64_t>(kMostForms))}};
  }
  Expansion out{reckoning.sense, definition.dimension, {}, groups_of(forms, expander.labels()), expander.lobes(), {}, {}};
  for (const Growing& form : forms) out.forms.push_back(finished(form, grid.layout.directions.size()));
  for (const LobeStation& lobe : out.lobes) {
    if (const auto rows = two_lobe_rows(lobe.angles_degrees); !rows.ok()) return rows.problems();
  }
  const bool made_of_parts = definition.family == Family::clearance || definition.family == Family::figure;
  if (made_of_parts && out.forms.empty()) return places_lacking(definition, grid, entering);
  FETTLE_ASSERT(!out.forms.empty() || !out.lobes.empty(), "enough was read and nothing came of it: " + definition.id);
  note_cells(definition, grid, out);
  return out;
}

}  // namespace fettle
