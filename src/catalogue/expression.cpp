#include "catalogue/expression.h"

#include <algorithm>

#include "catalogue/figure.h"
#include "catalogue/words.h"

namespace fettle {
namespace {

constexpr WordTable<Operation, 30> kOperations{{{"size", Operation::size},
                                                {"standard", Operation::standard},
                                                {"nominal", Operation::nominal},
                                                {"at", Operation::at},
                                                {"of", Operation::of},
                                                {"max", Operation::max},
                                                {"min", Operation::min},
                                                {"mean", Operation::mean},
                                                {"range", Operation::range},
                                                {"difference", Operation::difference},
                                                {"factor", Operation::factor},
                                                {"slope", Operation::slope},
                                                {"ratio", Operation::ratio},
                                                {"amplitude", Operation::amplitude},
                                                {"place", Operation::place},
                                                {"number", Operation::number},
                                                {"length", Operation::length},
                                                {"sum", Operation::sum},
                                                {"apart", Operation::apart},
                                                {"cosine", Operation::cosine},
                                                {"arccosine", Operation::arccosine},
                                                {"product", Operation::product},
                                                {"quotient", Operation::quotient},
                                                {"vector-difference", Operation::vector_difference},
                                                {"neighbour-rule", Operation::neighbour_rule},
                                                {"per-span", Operation::per_span},
                                                {"tilt-along", Operation::tilt_along},
                                                {"tilt-across", Operation::tilt_across},
                                                {"twist", Operation::twist},
                                                {"off-plane", Operation::off_plane}}};
constexpr WordTable<Over, 3> kOver{{{"heights", Over::heights}, {"directions", Over::directions}, {"all", Over::all}}};
constexpr WordTable<Axis, 2> kAxes{{{"main", Axis::main}, {"cross", Axis::cross}}};
/// Stations that `at` may name. A reference station never counts, so no definition can reach it.
constexpr WordTable<StationRole, 4> kNameable{{{"first", StationRole::first},
                                               {"middle", StationRole::middle},
                                               {"last", StationRole::last},
                                               {"inner", StationRole::inner}}};
Problem form_problem(const DocumentNode& node, std::string_view operation) {
  return Problem{"catalogue.expression_form", node.place, {verbatim("operation", std::string(operation))}};
}

Problem word_problem(const DocumentNode& node, const std::string& read, const std::string& known) {
  return Problem{"catalogue.unknown_word", node.place,
                 {verbatim("key", "expression"), verbatim("word", read), verbatim("known", known)}};
}

/// How many items stand behind the operation, and how many of them (the last ones) are expressions.
struct Arity {
  std::size_t items;
  std::size_t parts;
};

Arity arity_of(Operation operation) {
  switch (operation) {
    case Operation::size:
    case Operation::standard:
    case Operation::nominal:
    case Operation::vector_difference:
    case Operation::neighbour_rule:
    case Operation::per_span:
    case Operation::tilt_along:
    case Operation::tilt_across:
    case Operation::twist:
    case Operation::off_plane: return {0, 0};
    case Operation::place:
    case Operation::number:
    case Operation::length: return {1, 0};
    case Operation::slope:
    case Operation::cosine:
    case Operation::arccosine:
    case Operation::amplitude: return {1, 1};
    case Operation::at:
    case Operation::of:
    case Operation::max:
    case Operation::min:
    case Operation::mean:
    case Operation::range:
    case Operation::factor: return {2, 1};
    case Operation::difference:
    case Operation::apart:
    case Operation::sum:
    case Operation::product:
    case Operation::quotient:
    case Operation::ratio: return {2, 2};
  }
  return {0, 0};
}

std::string operation_name(Operation operation) {
  for (const auto& [name, value] : kOperations) {
    if (value == operation) return std::string(name);
  }
  return {};
}

void read_names(const DocumentNode& node, Expression& out, Problems& problems) {
  if (node.array() == nullptr || node.array()->empty()) {
    problems.push_back(form_problem(node, "at"));
    return;
  }
  for (const DocumentNode& item : *node.array()) {
    const std::string name = item.text() == nullptr ? std::string() : *item.text();
    if (const auto role = value_of(kNameable, name)) {
      out.roles.push_back(*role);
    } else if (const auto axis = value_of(kAxes, name)) {
      out.axes.push_back(*axis);
    } else if (name.size() > 1 && name.front() == '=') {
      out.groups.push_back(name.substr(1));
    } else {
      problems.push_back(word_problem(item, name, all_words(kNameable) + ", " + all_words(kAxes)));
    }
  }
}

/// What stands between the operation and its parts: the names of `at`, the number of `factor`, what a reduction closes.
void read_detail(const DocumentNode& node, Expression& out, Problems& problems) {
  if (out.operation == Operation::at) {
    read_names(node, out, problems);
    return;
  }
  const std::string word = node.text() == nullptr ? std::string() : *node.text();
  if (out.operation == Operation::factor || out.operation == Operation::number) {
    // A circle is an area: π to eighteen digits.
    const auto number = word == "pi" ? Ratio::of(314159265358979324, 100000000000000000) : read_figure(word).value_or(Ratio());
    if (number.sign() == 0) problems.push_back(form_problem(node, operation_name(out.operation)));
    out.number = number;
    return;
  }
  if (out.operation == Operation::length) {
    const auto quantity = read_figure_with_unit(word);
    const auto length = quantity ? exact_length(*quantity) : std::nullopt;
    if (!length) problems.push_back(form_problem(node, "length"));
    out.number = length.value_or(Length()).ratio();
    return;
  }
  if (out.operation == Operation::of || out.operation == Operation::place) {
    if (word.empty()) problems.push_back(form_problem(node, operation_name(out.operation)));
    out.member = word;
    return;
  }
  const auto over = value_of(kOver, word);
  if (!over) problems.push_back(word_problem(node, word, all_words(kOver)));
  out.over = over.value_or(Over::all);
}

Expression read_part(const DocumentNode& node, Problems& problems) {
  Expression out{Operation::size, Over::all, {}, {}, Ratio(), {}};
  const DocumentNode::Array* items = node.array();
  const std::string* name = items == nullptr || items->empty() ? nullptr : items->front().text();
  if (name == nullptr) {
    problems.push_back(form_problem(node, "..."));
    return out;
  }
  const auto operation = value_of(kOperations, *name);
  if (!operation) {
    problems.push_back(word_problem(items->front(), *name, all_words(kOperations)));
    return out;
  }
  out.operation = *operation;
  const Arity arity = arity_of(*operation);
  if (items->size() != arity.items + 1) {
    problems.push_back(form_problem(node, *name));
    return out;
  }
  if (arity.items > arity.parts) read_detail((*items)[1], out, problems);
  for (std::size_t i = items->size() - arity.parts; i < items->size(); ++i) {
    out.parts.push_back(read_part((*items)[i], problems));
  }
  return out;
}

/// Walks an expression as it will be evaluated, knowing only what is still open.
class Checker {
 public:
  Checker(const Place& place, Problems& problems) : place_(place), problems_(problems) {}

  ExpressionFacts facts(const Expression& expression, bool heights_open, bool directions_open);

 private:
  void refuse(Problem problem, std::string_view operation);
  ExpressionFacts reduced(const Expression& expression, bool heights_open, bool directions_open);
  ExpressionFacts narrowed(const Expression& expression, bool heights_open, bool directions_open);
  ExpressionFacts combined(const Expression& expression, bool heights_open, bool directions_open);
  ExpressionFacts divided(const Expression& expression, bool heights_open, bool directions_open);
  ExpressionFacts amplitude(const Expression& expression, bool heights_open, bool directions_open);

  const Place& place_;
  Problems& problems_;
};

constexpr ExpressionFacts kLength{Sense::linear, ResultDimension::length, false, false, false};

void Checker::refuse(Problem problem, std::string_view operation) {
  problem.place = place_;
  problem.arguments.push_back(verbatim("operation", std::string(operation)));
  problems_.push_back(std::move(problem));
}

Sense turned(Sense sense) {
  switch (sense) {
    case Sense::linear: return Sense::linear;
    case Sense::greatest: return Sense::least;
    case Sense::least: return Sense::greatest;
    case Sense::amplitude: return Sense::amplitude;
    case Sense::formula: return Sense::least_formula;
    case Sense::least_formula: return Sense::formula;
  }
  return sense;
}

ExpressionFacts Checker::reduced(const Expression& expression, bool heights_open, bool directions_open) {
  const bool heights = expression.over != Over::directions;
  const bool directions = expression.over != Over::heights;
  if ((heights && !heights_open) || (directions && !directions_open)) {
    refuse(Problem{"catalogue.nothing_open", {}, {}}, operation_name(expression.operation));
  }
  ExpressionFacts out = facts(expression.parts[0], heights_open && !heights, directions_open && !directions);
  const auto takes = [&](bool fits, Sense sense) {
    if (!fits) refuse(Problem{"catalogue.two_sided", {}, {}}, operation_name(expression.operation));
    out.sense = sense;
  };
  if (is_formula(out.sense)) {
    if (expression.operation == Operation::range) refuse(Problem{"catalogue.two_sided", {}, {}}, "range");
    if (expression.operation == Operation::min) out.sense = Sense::least_formula;
    if (expression.operation == Operation::max) out.sense = Sense::formula;
    return out;
  }
  const bool linear = out.sense == Sense::linear;
  const bool wave = out.sense == Sense::amplitude;
  if (expression.operation == Operation::max) {
    takes(out.sense != Sense::least, wave ? Sense::amplitude : Sense::greatest);
  } else if (expression.operation == Operation::min) {
    takes(linear || out.sense == Sense::least, Sense::least);
  } else if (expression.operation == Operation::range) {
    takes(linear, Sense::greatest);
  } else {
    takes(!wave, out.sense);
  }
  return out;
}

ExpressionFacts Checker::narrowed(const Expression& expression, bool heights_open, bool directions_open) {
  if (((!expression.roles.empty() || !expression.groups.empty()) && !heights_open) || (!expression.axes.empty() && !directions_open)) {
    refuse(Problem{"catalogue.nothing_open", {}, {}}, "at");
  }
  const bool one_station = expression.roles.size() == 1 && expression.roles.front() != StationRole::inner;
  return facts(expression.parts[0], heights_open && !one_station, directions_open && expression.axes.size() != 1);
}

ExpressionFacts Checker::combined(const Expression& expression, bool heights_open, bool directions_open) {
  const ExpressionFacts a = facts(expression.parts[0], heights_open, directions_open);
  const ExpressionFacts b = facts(expression.parts[1], heights_open, directions_open);
  const std::string name = operation_name(expression.operation);
  ExpressionFacts out{Sense::formula, a.dimension, a.uses_standard || b.uses_standard, a.uses_nominal || b.uses_nominal,
                      a.uses_depths || b.uses_depths, true};
  if (a.sense == Sense::amplitude || b.sense == Sense::amplitude) refuse(Problem{"catalogue.two_sided", {}, {}}, name);
  const bool product = expression.operation == Operation::product || expression.operation == Operation::quotient;
  if (product || is_formula(a.sense) || is_formula(b.sense)) return out;
  out.any_dimension = a.any_dimension || b.any_dimension;
  if (a.dimension != b.dimension && !out.any_dimension) refuse(Problem{"catalogue.mixed_dimensions", {}, {}}, name);
  if (expression.operation == Operation::apart) {
    if (a.sense != Sense::linear || b.sense != Sense::linear) refuse(Problem{"catalogue.two_sided", {}, {}}, name);
    out.sense = Sense::greatest;
    return out;
  }
  const Sense minus = expression.operation == Operation::sum ? b.sense : turned(b.sense);
  const bool fits = a.sense == Sense::linear || minus == Sense::linear || a.sense == minus;
  if (!fits) refuse(Problem{"catalogue.two_sided", {}, {}}, name);
  out.sense = a.sense == Sense::linear ? minus : a.sense;
  return out;
}

/// slope and ratio: a length becomes a pure number.
ExpressionFacts Checker::divided(const Expression& expression, bool heights_open, bool directions_open) {
  const bool slope = expression.operation == Operation::slope;
  if (slope && !heights_open) refuse(Problem{"catalogue.nothing_open", {}, {}}, "slope");
  ExpressionFacts out = facts(expression.parts[0], heights_open, directions_open);
  if (out.dimension != ResultDimension::length) {
    refuse(Problem{"catalogue.mixed_dimensions", {}, {}}, operation_name(expression.operation));
  }
  if (!slope) {
    const Operation below = expression.parts[1].operation;
    if (below != Operation::standard && below != Operation::nominal) {
      refuse(Problem{"catalogue.expression_form", {}, {}}, "ratio");
    }
    out.uses_standard = out.uses_standard || below == Operation::standard;
    out.uses_nominal = out.uses_nominal || below == Operation::nominal;
  }
  if (out.sense == Sense::amplitude) {
    refuse(Problem{"catalogue.two_sided", {}, {}}, operation_name(expression.operation));
  }
  out.uses_depths = out.uses_depths || slope;
  out.dimension = ResultDimension::ratio;
  return out;
}

ExpressionFacts Checker::amplitude(const Expression& expression, bool heights_open, bool directions_open) {
  if (heights_open) refuse(Problem{"catalogue.open_size", {}, {}}, "amplitude");
  if (!directions_open) refuse(Problem{"catalogue.nothing_open", {}, {}}, "amplitude");
  if (expression.parts[0].operation != Operation::size) {
    refuse(Problem{"catalogue.expression_form", {}, {}}, "amplitude");
  }
  ExpressionFacts out = kLength;
  out.sense = Sense::amplitude;
  return out;
}

ExpressionFacts Checker::facts(const Expression& expression, bool heights_open, bool directions_open) {
  ExpressionFacts out = kLength;
  switch (expression.operation) {
    case Operation::size:
      if (heights_open || directions_open) {
        refuse(Problem{"catalogue.open_size", {}, {}}, "size");
      }
      return out;
    case Operation::standard: out.uses_standard = true; return out;
    case Operation::nominal: out.uses_nominal = true; return out;
    case Operation::at: return narrowed(expression, heights_open, directions_open);
    case Operation::of: return facts(expression.parts[0], true, true);
    case Operation::max:
    case Operation::min:
    case Operation::mean:
    case Operation::range: return reduced(expression, heights_open, directions_open);
    case Operation::difference:
    case Operation::apart:
    case Operation::sum:
    case Operation::product:
    case Operation::quotient: return combined(expression, heights_open, directions_open);
    case Operation::cosine:
    case Operation::arccosine:
      out = facts(expression.parts[0], heights_open, directions_open);
      if (out.sense != Sense::linear && out.sense != Sense::formula) refuse(Problem{"catalogue.two_sided", {}, {}}, operation_name(expression.operation));
      out.sense = Sense::formula;
      out.any_dimension = true;
      return out;
    case Operation::place: out.any_dimension = true; return out;
    case Operation::number: out.any_dimension = true; return out;
    case Operation::length: return out;
    case Operation::vector_difference:
    case Operation::neighbour_rule:
      if (!heights_open) refuse(Problem{"catalogue.nothing_open", {}, {}}, operation_name(expression.operation));
      out.sense = Sense::formula;
      return out;
    case Operation::off_plane:
    case Operation::per_span:
      if (heights_open || directions_open) refuse(Problem{"catalogue.open_size", {}, {}}, operation_name(expression.operation));
      out.uses_depths = true;
      if (expression.operation == Operation::per_span) out.dimension = ResultDimension::ratio;
      return out;
    case Operation::tilt_along:
    case Operation::tilt_across:
    case Operation::twist:
      if (!heights_open || !directions_open) refuse(Problem{"catalogue.nothing_open", {}, {}}, operation_name(expression.operation));
      out.uses_depths = expression.operation != Operation::twist;
      if (out.uses_depths) out.dimension = ResultDimension::ratio;
      return out;
    case Operation::factor:
      out = facts(expression.parts[0], heights_open, directions_open);
      if (out.sense == Sense::amplitude) {
        refuse(Problem{"catalogue.two_sided", {}, {}}, "factor");
      }
      if (expression.number.sign() < 0) out.sense = turned(out.sense);
      return out;
    case Operation::slope:
    case Operation::ratio: return divided(expression, heights_open, directions_open);
    case Operation::amplitude: return amplitude(expression, heights_open, directions_open);
  }
  return out;
}

}  // namespace

Dimension typed_dimension(ResultDimension dimension) {
  switch (dimension) {
    case ResultDimension::length:
    case ResultDimension::ratio: return Dimension::length;
    case ResultDimension::number: return Dimension::count;
    case ResultDimension::force:
    case ResultDimension::force_per_length: return Dimension::force;
    case ResultDimension::volume: return Dimension::volume;
    case ResultDimension::angle: return Dimension::angle;
    case ResultDimension::mass: return Dimension::mass;
    case ResultDimension::pressure: return Dimension::pressure;
  }
  return Dimension::length;
}

bool is_per_length(ResultDimension dimension) {
  return dimension == ResultDimension::ratio || dimension == ResultDimension::force_per_length;
}

Result<Expression> read_expression(const DocumentNode& node) {
  Problems problems;
  Expression out = read_part(node, problems);
  if (!problems.empty()) return problems;
  return out;
}

Result<ExpressionFacts> check_expression(const Expression& expression, const Place& place) {
  Problems problems;
  const ExpressionFacts out = Checker(place, problems).facts(expression, true, true);
  if (!problems.empty()) return problems;
  return out;
}

}  // namespace fettle
