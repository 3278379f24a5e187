#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fettle {

/// What a gauge's line says, as a person would have typed it: "71 acw" and "div", "+0.071" and "mm".
struct LineReading {
  std::string text;
  std::string unit;  ///< its usual spelling; empty: the line names none
  bool operator==(const LineReading&) const = default;
};

/// How the lines of a gauge look: letters that stand as they are, and fields in braces. It is no language of patterns: a field takes all that
/// it can, once, from left to right, so that no line takes longer than it is long.
///
///   {number}  digits with at most one point or comma between them, and a sign before them if there is one; needed, once
///   {side}    which side the needle stands: cw, acw, ccw, ↻, ↺ and their like
///   {unit}    a unit that the program knows: mm, in, µm, div ...
///   {skip}    anything up to what stands next in the template
///
/// A blank stands for one or more blanks or tabs; those at both ends of the line do not count. {{ and }} are braces. Lines are UTF-8 without
/// control characters, at most kMostLineBytes long.
class LineTemplate {
 public:
  static constexpr std::size_t kMostLineBytes = 256;

  /// Problems: entry.template_brace, .template_field, .template_field_twice, .template_number, .template_skip.
  [[nodiscard]] static Result<LineTemplate> read(std::string_view text);

  /// Nothing: the line does not look so.
  [[nodiscard]] std::optional<LineReading> match(std::string_view line) const;

 private:
  enum class Field { letters, blank, number, side, unit, skip };
  struct Piece {
    Field field;
    std::string letters;  ///< of `letters` alone
  };
  explicit LineTemplate(std::vector<Piece> pieces) : pieces_(std::move(pieces)) {}
  [[nodiscard]] static std::optional<Field> field_named(std::string_view name);
  [[nodiscard]] static std::optional<Problem> fault_of(const std::vector<Piece>& pieces, std::string_view text);
  /// How many bytes of `rest` the piece takes; nothing: it does not stand there.
  [[nodiscard]] std::optional<std::size_t> bytes_of(std::size_t piece, std::string_view rest) const;

  std::vector<Piece> pieces_;
};

}  // namespace fettle
