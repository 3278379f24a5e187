#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "units/unit.h"

namespace fettle {

/// How a figure of a book follows from others, in plain arithmetic: names of rows, figures, pi, + - x / and brackets. A minus between rows
/// stands between blanks, since names may hold one: "hole - 2 x shell - journal", "1 + swept / clearance", "pi / 4 x bore x bore x stroke".
class SheetExpression {
 public:
  struct Node;
  /// Ends of a range.
  struct Span {
    double low;
    double high;
    int power;           ///< of a length: 1 a length, 0 a plain figure, 3 a volume
    bool mixed = false;  ///< things that are not alike were added
  };
  explicit SheetExpression(std::shared_ptr<const Node> root) : root_(std::move(root)) {}

  /// Each row that is named, once, in the order of the text.
  [[nodiscard]] std::vector<std::string> names() const;
  /// Each end by the ends that make it least and greatest; exact where a row is named once. `of` gives the span of a row.
  [[nodiscard]] Span value(const std::function<Span(const std::string&)>& of) const;

 private:
  std::shared_ptr<const Node> root_;
};

/// SheetExpression::Span::power of a row's figures: 1 for a length, 3 for a volume, 0 for anything that is taken as it is printed.
[[nodiscard]] constexpr int length_power(Dimension dimension) { return dimension == Dimension::length ? 1 : dimension == Dimension::volume ? 3 : 0; }

/// Problems: limits.from_unreadable, with the text and where it stops being readable.
[[nodiscard]] Result<SheetExpression> read_sheet_expression(std::string_view text, const Place& place);

}  // namespace fettle
