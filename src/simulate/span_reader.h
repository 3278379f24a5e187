#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/assertion.h"
#include "base/result.h"
#include "catalogue/table_reader.h"
#include "simulate/family.h"

namespace fettle {

inline constexpr double kCountsPerMicrometre = static_cast<double>(Length::kCountsPerMillimetre) / 1000.0;

/// Of a length in µm, a temperature difference in °C, a share.
inline constexpr double kLargest = 1000.0;

/// A table with spans, lengths and shares beside what every catalogue file has.
class SpanReader {
 public:
  SpanReader(const DocumentNode& node, Problems& problems)
      : table(node, problems), problems_(problems), place_(node.place) {}

  double micrometres(std::string_view key) { return one(key, true).value_or(0.0); }
  double celsius(std::string_view key) { return number(key, Dimension::temperature).value_or(0.0); }

  /// "a" or ["a", "b"] with a ≤ b.
  Span span(std::string_view key, bool length) {
    const DocumentNode* node = table.node(key);
    if (node == nullptr) {
      table.missing(key);
      return {0.0, 0.0};
    }
    if (node->text() != nullptr) {
      const double value =
          value_of_text(key, *node, length ? std::optional(Dimension::length) : std::nullopt).value_or(0.0);
      return {value, value};
    }
    if (node->array() == nullptr || node->array()->size() != 2) {
      wrong(key, node->place, length ? "a_span_of_lengths" : "a_span");
      return {0.0, 0.0};
    }
    const std::vector<double> both = list(key, length);
    if (both.size() != 2) return {0.0, 0.0};  // told by list
    if (both[0] > both[1]) add("simulate.span", node->place, key);
    return {both[0], both[1]};
  }

  /// As span; nothing if it was refused, so that what follows from it need not be told as well.
  std::optional<Span> sound_span(std::string_view key, bool length) {
    const std::size_t before = problems_.size();
    const Span out = span(key, length);
    return problems_.size() == before ? std::optional(out) : std::nullopt;
  }

  Span span_not_negative(std::string_view key, bool length) {
    const Span out = span(key, length);
    if (out.low < 0.0) add("simulate.negative", table.node(key)->place, key);
    return out;
  }

  double not_negative(std::string_view key, double value) {
    if (value < 0.0) add("simulate.negative", table.node(key)->place, key);
    return value;
  }

  std::vector<double> list(std::string_view key, bool length) {
    std::vector<double> out;
    const DocumentNode* node = table.node(key);
    if (node == nullptr) {
      table.missing(key);
      return out;
    }
    if (node->array() == nullptr) {
      wrong(key, node->place, "a_list");
      return out;
    }
    for (const DocumentNode& each : *node->array()) {
      const auto value = value_of_text(key, each, length ? std::optional(Dimension::length) : std::nullopt);
      if (value) out.push_back(*value);
    }
    return out;
  }

  int whole(std::string_view key) {
    if (table.node(key) == nullptr) table.missing(key);
    return table.optional_whole(key).value_or(1);
  }

  /// Nothing if it is missing or refused.
  std::optional<Length> exact(std::string_view key) {
    if (table.node(key) == nullptr) table.missing(key);
    return table.optional_length(key);
  }

  /// An id that can stand in a file name, a row of a table and a key: letters, digits, hyphens.
  std::string id() {
    std::string out = table.text("id");
    const auto fits = [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
    };
    if (!std::all_of(out.begin(), out.end(), fits)) add("simulate.id", {verbatim("id", out)});
    return out;
  }

  /// 0 ° to below 180 °.
  Ratio angle() {
    const auto read = table.optional_quantity("angle");
    if (!read || read->dimension() != Dimension::angle) {
      table.missing("angle");
      return {};
    }
    const Ratio degrees = read->in_base();
    if (degrees.sign() < 0 || degrees >= Ratio(180)) add("catalogue.layout_angle", {verbatim("id", table.text("id"))});
    return degrees;
  }

  void add(const char* code, const Place& place, std::string_view key, std::vector<Argument> arguments = {}) {
    arguments.push_back(verbatim("key", std::string(key)));
    problems_.push_back({code, place, std::move(arguments)});
  }
  void add(const char* code, std::vector<Argument> arguments = {}) {
    problems_.push_back({code, place_, std::move(arguments)});
  }

  TableReader table;  // NOLINT(misc-non-private-member-variables-in-classes): it is what this class adds to

 private:
  std::optional<double> one(std::string_view key, bool length) {
    return number(key, length ? std::optional(Dimension::length) : std::nullopt);
  }

  std::optional<double> number(std::string_view key, std::optional<Dimension> dimension) {
    const DocumentNode* node = table.node(key);
    if (node == nullptr) {
      table.missing(key);
      return std::nullopt;
    }
    return value_of_text(key, *node, dimension);
  }

  /// As figure_or_nothing; past what a hand gauge or a family can mean it is a problem.
  std::optional<double> value_of_text(std::string_view key, const DocumentNode& node,
                                      std::optional<Dimension> dimension) {
    const auto value = figure_or_nothing(key, node, dimension);
    if (value && (*value > kLargest || *value < -kLargest)) {
      add("simulate.too_large", node.place, key);
      return std::nullopt;
    }
    return value;
  }

  /// Lengths in µm, temperatures in °C, else a plain figure.
  std::optional<double> figure_or_nothing(std::string_view key, const DocumentNode& node,
                                          std::optional<Dimension> dimension) {
    const std::string* text = node.text();
    if (text != nullptr && !dimension) {
      if (const auto figure = read_figure(*text)) return figure->to_double();
    } else if (text != nullptr) {
      const auto quantity = read_figure_with_unit(*text);
      if (quantity && quantity->dimension() == *dimension) {
        return dimension == Dimension::length ? quantity->in_base().to_double() / kCountsPerMicrometre
                                              : quantity->in_base().to_double();
      }
    }
    wrong(key, node.place, !dimension ? "a_figure" : dimension == Dimension::length ? "a_length" : "a_quantity");
    return std::nullopt;
  }

  void wrong(std::string_view key, const Place& place, const std::string& wanted) {
    add("catalogue.wrong_kind", place, key, {word("wanted", "catalogue." + wanted)});
  }

  Problems& problems_;
  Place place_;
};

/// Adds catalogue.id_twice for every item whose id an earlier one has.
template <class T>
void refuse_twice(const std::vector<T>& items, const std::vector<const DocumentNode*>& nodes, Problems& problems) {
  std::vector<std::pair<std::string, Place>> ids;
  for (std::size_t i = 0; i < items.size(); ++i) ids.emplace_back(items[i].id, nodes[i]->place);
  refuse_ids_twice(ids, problems);
}

/// By place, each once: what stands in [usual] would be told for every family.
inline void tell_once(Problems& problems) {
  sort_by_place(problems);
  problems.erase(std::unique(problems.begin(), problems.end()), problems.end());
}

/// For what is built in: a problem in it is ours.
template <class T>
std::vector<T> must_read(Result<std::vector<T>> read) {
  if (read.ok()) return std::move(read).value();
  std::string all;
  for (const Problem& each : read.problems()) {
    all += each.place.file + ":" + std::to_string(each.place.line.value_or(0)) + " " + each.code + "; ";
  }
  throw InternalError("the built-in families and hands: " + all);
}

template <class T>
const T* with_id(const std::vector<T>& items, std::string_view id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const T& each) { return each.id == id; });
  return found == items.end() ? nullptr : &*found;
}

}  // namespace fettle
