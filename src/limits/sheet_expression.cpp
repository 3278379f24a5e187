#include "limits/sheet_expression.h"

#include <algorithm>

#include "entry/characters.h"
#include "entry/typed_number.h"
#include "entry/text_fault.h"

namespace fettle {

struct SheetExpression::Node {
  enum class Sort { figure, name, add, subtract, multiply, divide, negate };
  Sort sort;
  double figure = 0.0;
  std::string name = {};
  std::shared_ptr<const Node> left = nullptr;
  std::shared_ptr<const Node> right = nullptr;
};

namespace {

using Node = SheetExpression::Node;
using Span = SheetExpression::Span;
using Tree = std::shared_ptr<const Node>;

constexpr double kPi = 3.14159265358979323846;
constexpr int kDeepest = 40;

class ExpressionReader {
 public:
  explicit ExpressionReader(std::string_view text) {
    for (const char32_t each : code_points(text)) points_.push_back(each == U'×' || each == U'·' ? U'*' : each == U'÷' ? U'/' : plain_form(each));
  }

  /// Nothing where it cannot be read; `at` says up to where it could.
  Tree read() {
    Tree out = sum();
    skip();
    return at_ == points_.size() ? out : nullptr;
  }
  [[nodiscard]] std::size_t at() const { return at_; }

 private:
  void skip() {
    while (at_ < points_.size() && points_[at_] == U' ') ++at_;
  }
  bool take(char32_t sign) {
    skip();
    if (at_ >= points_.size() || points_[at_] != sign) return false;
    ++at_;
    return true;
  }
  /// "x" between blanks is a sign of multiplication.
  bool take_times() {
    if (take(U'*')) return true;
    const bool alone = at_ > 0 && points_[at_ - 1] == U' ' && at_ + 1 < points_.size() && points_[at_ + 1] == U' ';
    return alone && take(U'x');
  }

  static Tree pair(Node::Sort sort, Tree left, Tree right) {
    if (!left || !right) return nullptr;
    return std::make_shared<Node>(Node{sort, 0.0, {}, std::move(left), std::move(right)});
  }

  Tree sum() {
    if (++depth_ > kDeepest) return nullptr;
    Tree out = product();
    while (out) {
      if (take(U'+')) {
        out = pair(Node::Sort::add, out, product());
      } else if (take(U'-')) {
        out = pair(Node::Sort::subtract, out, product());
      } else {
        break;
      }
    }
    --depth_;
    return out;
  }
  Tree product() {
    Tree out = single();
    while (out) {
      if (take_times()) {
        out = pair(Node::Sort::multiply, out, single());
      } else if (take(U'/')) {
        out = pair(Node::Sort::divide, out, single());
      } else {
        break;
      }
    }
    return out;
  }
  Tree single() {
    if (take(U'(')) {
      Tree out = sum();
      return take(U')') ? out : nullptr;
    }
    if (take(U'-')) {
      if (++depth_ > kDeepest) return nullptr;
      Tree of = single();
      return of ? std::make_shared<Node>(Node{Node::Sort::negate, 0.0, {}, std::move(of), nullptr}) : nullptr;
    }
    skip();
    if (at_ >= points_.size()) return nullptr;
    return is_digit(points_[at_]) || points_[at_] == U'.' ? number() : name();
  }
  Tree number() {
    std::size_t end = at_;
    while (end < points_.size() && (is_digit(points_[end]) || points_[end] == U'.')) ++end;
    const std::vector<char32_t> digits(points_.begin(), points_.begin() + static_cast<std::ptrdiff_t>(end));
    std::vector<TextFault> faults;
    const auto read = read_number(digits, at_, faults);
    if (!read || !faults.empty()) return nullptr;
    at_ = end;
    return std::make_shared<Node>(Node{Node::Sort::figure, read->magnitude.to_double()});
  }
  static bool in_name(char32_t point) {
    return (point >= U'a' && point <= U'z') || (point >= U'A' && point <= U'Z') || is_digit(point) || point == U'-' || point == U'_' || point == U'.' || point > 0x7F;
  }
  Tree name() {
    std::size_t end = at_;
    while (end < points_.size() && in_name(points_[end])) ++end;
    if (end == at_) return nullptr;
    std::string word = utf8(points_, at_, end);
    at_ = end;
    if (word == "pi" || word == "π") return std::make_shared<Node>(Node{Node::Sort::figure, kPi});
    return std::make_shared<Node>(Node{Node::Sort::name, 0.0, std::move(word)});
  }

  std::vector<char32_t> points_;
  std::size_t at_ = 0;
  int depth_ = 0;
};

void names_of(const Tree& tree, std::vector<std::string>& out) {
  if (!tree) return;
  if (tree->sort == Node::Sort::name && std::find(out.begin(), out.end(), tree->name) == out.end()) out.push_back(tree->name);
  names_of(tree->left, out);
  names_of(tree->right, out);
}

Span of_corners(double a, double b, double c, double d, int power, bool mixed) { return {std::min({a, b, c, d}), std::max({a, b, c, d}), power, mixed}; }

Span of_two(Node::Sort sort, const Span& a, const Span& b) {
  const bool mixed = a.mixed || b.mixed;
  const bool alike = a.power == b.power;
  if (sort == Node::Sort::add) return {a.low + b.low, a.high + b.high, a.power, mixed || !alike};
  if (sort == Node::Sort::subtract) return {a.low - b.high, a.high - b.low, a.power, mixed || !alike};
  if (sort == Node::Sort::multiply) return of_corners(a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high, a.power + b.power, mixed);
  return of_corners(a.low / b.low, a.low / b.high, a.high / b.low, a.high / b.high, a.power - b.power, mixed);
}

Span value_of(const Tree& tree, const std::function<Span(const std::string&)>& of) {
  if (tree->sort == Node::Sort::figure) return {tree->figure, tree->figure, 0};
  if (tree->sort == Node::Sort::name) return of(tree->name);
  const Span left = value_of(tree->left, of);
  if (tree->sort == Node::Sort::negate) return {-left.high, -left.low, left.power, left.mixed};
  return of_two(tree->sort, left, value_of(tree->right, of));
}

}  // namespace

std::vector<std::string> SheetExpression::names() const {
  std::vector<std::string> out;
  names_of(root_, out);
  return out;
}

SheetExpression::Span SheetExpression::value(const std::function<Span(const std::string&)>& of) const { return value_of(root_, of); }

Result<SheetExpression> read_sheet_expression(std::string_view text, const Place& place) {
  ExpressionReader reader(text);
  auto root = reader.read();
  if (!root) return Problem{"limits.from_unreadable", place, {verbatim("text", std::string(text)), count("at", static_cast<std::int64_t>(reader.at()) + 1)}};
  return SheetExpression(std::move(root));
}

}  // namespace fettle
