#include "entry/line_template.h"

#include <algorithm>

#include "base/document.h"
#include "entry/characters.h"
#include "entry/needle_words.h"
#include "units/unit.h"

namespace fettle {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }
bool is_ascii_digit(char c) { return c >= '0' && c <= '9'; }

/// Letters of any script, arrows and the signs that units and needle words are made of.
bool is_of_a_word(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '"' || c == '-';
}

std::string_view without_ends(std::string_view line) {
  while (!line.empty() && is_blank(line.front())) line.remove_prefix(1);
  while (!line.empty() && is_blank(line.back())) line.remove_suffix(1);
  return line;
}

std::size_t word_bytes(std::string_view rest) {
  return static_cast<std::size_t>(std::find_if_not(rest.begin(), rest.end(), is_of_a_word) - rest.begin());
}

std::optional<std::size_t> number_bytes(std::string_view rest) {
  std::size_t at = !rest.empty() && (rest.front() == '+' || rest.front() == '-') ? 1 : 0;
  const std::size_t first = at;
  bool marked = false;
  for (; at < rest.size(); ++at) {
    const bool mark = (rest[at] == '.' || rest[at] == ',') && !marked && at + 1 < rest.size() && is_ascii_digit(rest[at + 1]);
    if (!mark && !is_ascii_digit(rest[at])) break;
    marked = marked || mark;
  }
  return at > first ? std::optional(at) : std::nullopt;
}

bool is_needle_side(std::string_view word) {
  const std::vector<char32_t> points = code_points(word);
  std::size_t from = 0;
  std::size_t to = points.size();
  const TakenSide taken = take_needle_side(points, from, to);
  return taken.side && !taken.conflict && from == to;
}

bool is_plain_line(std::string_view line) {
  return line.size() <= LineTemplate::kMostLineBytes && is_utf8(line) &&
         std::none_of(line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7f; });
}

}  // namespace

std::optional<LineTemplate::Field> LineTemplate::field_named(std::string_view name) {
  if (name == "number") return Field::number;
  if (name == "side") return Field::side;
  if (name == "unit") return Field::unit;
  if (name == "skip") return Field::skip;
  return std::nullopt;
}

std::optional<Problem> LineTemplate::fault_of(const std::vector<Piece>& pieces, std::string_view text) {
  const auto times = [&](Field field) { return std::count_if(pieces.begin(), pieces.end(), [&](const Piece& each) { return each.field == field; }); };
  const std::vector<Argument> shown = {verbatim("template", std::string(text))};
  if (times(Field::number) == 0) return Problem{"entry.template_number", {}, shown};
  if (times(Field::number) > 1 || times(Field::side) > 1 || times(Field::unit) > 1) return Problem{"entry.template_field_twice", {}, shown};
  for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
    const Field next = pieces[i + 1].field;
    // Where a field follows, nothing says where the skipped stretch ends.
    if (pieces[i].field == Field::skip && next != Field::letters && next != Field::blank) return Problem{"entry.template_skip", {}, shown};
  }
  return std::nullopt;
}

Result<LineTemplate> LineTemplate::read(std::string_view text) {
  const std::vector<Argument> shown = {verbatim("template", std::string(text))};
  if (!is_plain_line(text)) return Problem{"entry.template_brace", {}, shown};
  std::vector<Piece> pieces;
  const auto add_letter = [&](char c) {
    if (pieces.empty() || pieces.back().field != Field::letters) pieces.push_back({Field::letters, {}});
    pieces.back().letters += c;
  };
  for (std::string_view rest = without_ends(text); !rest.empty();) {
    if (rest.starts_with("{{") || rest.starts_with("}}")) {
      add_letter(rest.front());
      rest.remove_prefix(2);
    } else if (rest.front() == '{') {
      const auto end = rest.find('}');
      if (end == std::string_view::npos) return Problem{"entry.template_brace", {}, shown};
      const auto field = field_named(rest.substr(1, end - 1));
      if (!field) return Problem{"entry.template_field", {}, {verbatim("field", std::string(rest.substr(0, end + 1)))}};
      pieces.push_back({*field, {}});
      rest.remove_prefix(end + 1);
    } else if (rest.front() == '}') {
      return Problem{"entry.template_brace", {}, shown};
    } else if (is_blank(rest.front())) {
      pieces.push_back({Field::blank, {}});
      while (!rest.empty() && is_blank(rest.front())) rest.remove_prefix(1);
    } else {
      add_letter(rest.front());
      rest.remove_prefix(1);
    }
  }
  if (auto fault = fault_of(pieces, text)) return *std::move(fault);
  return LineTemplate(std::move(pieces));
}

std::optional<std::size_t> LineTemplate::bytes_of(std::size_t piece, std::string_view rest) const {
  switch (pieces_[piece].field) {
    case Field::letters:
      return rest.starts_with(pieces_[piece].letters) ? std::optional(pieces_[piece].letters.size()) : std::nullopt;
    case Field::blank: {
      const auto end = std::find_if_not(rest.begin(), rest.end(), is_blank);
      return end == rest.begin() ? std::nullopt : std::optional(static_cast<std::size_t>(end - rest.begin()));
    }
    case Field::number:
      return number_bytes(rest);
    case Field::side: {
      const std::size_t bytes = word_bytes(rest);
      return is_needle_side(rest.substr(0, bytes)) ? std::optional(bytes) : std::nullopt;
    }
    case Field::unit: {
      const std::size_t bytes = word_bytes(rest);
      return bytes > 0 && find_unit(rest.substr(0, bytes)) != nullptr ? std::optional(bytes) : std::nullopt;
    }
    case Field::skip: {
      if (piece + 1 == pieces_.size()) return rest.size();
      const bool to_blank = pieces_[piece + 1].field == Field::blank;
      const auto end = to_blank ? rest.find_first_of(" \t") : rest.find(pieces_[piece + 1].letters);
      return end == std::string_view::npos ? std::nullopt : std::optional(end);
    }
  }
  return std::nullopt;
}

std::optional<LineReading> LineTemplate::match(std::string_view line) const {
  if (!is_plain_line(line)) return std::nullopt;
  LineReading out{};
  std::string side;
  std::string_view rest = without_ends(line);
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    const auto bytes = bytes_of(i, rest);
    if (!bytes) return std::nullopt;
    const std::string_view taken = rest.substr(0, *bytes);
    if (pieces_[i].field == Field::number) out.text = taken;
    if (pieces_[i].field == Field::side) side = taken;
    if (pieces_[i].field == Field::unit) out.unit = find_unit(taken)->symbol;
    rest.remove_prefix(*bytes);
  }
  if (!rest.empty()) return std::nullopt;
  if (!side.empty()) out.text += " " + side;
  return out;
}

}  // namespace fettle
