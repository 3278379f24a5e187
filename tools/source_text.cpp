#include "source_text.h"

#include <algorithm>

namespace fettle::house {
namespace {

bool is_name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

enum class Stretch { code, comment, string, raw_string, character };

/// Cuts text into stretches of code, comments and literals.
class Cutter {
 public:
  explicit Cutter(std::string_view text) : text_(text) {}

  [[nodiscard]] bool done() const { return at_ >= text_.size(); }

  struct Piece {
    Stretch kind;
    std::size_t begin;
    std::size_t end;
  };

  Piece next() {
    const std::size_t begin = at_;
    const Stretch kind = kind_here();
    at_ = std::min(end_of(kind), text_.size());
    return {kind, begin, at_};
  }

 private:
  [[nodiscard]] bool starts(std::string_view with) const { return text_.substr(at_).starts_with(with); }
  [[nodiscard]] char before(std::size_t at) const { return at == 0 ? '\n' : text_[at - 1]; }

  [[nodiscard]] Stretch kind_here() const {
    if (starts("//") || starts("/*")) return Stretch::comment;
    if (starts("\"")) return before(at_) == 'R' ? Stretch::raw_string : Stretch::string;
    if (starts("'") && !is_name_character(before(at_))) return Stretch::character;
    return Stretch::code;
  }

  [[nodiscard]] std::size_t after(std::string_view mark, std::size_t from) const {
    const auto found = text_.find(mark, from);
    return found == std::string_view::npos ? text_.size() : found + mark.size();
  }

  [[nodiscard]] std::size_t end_of(Stretch kind) const {
    switch (kind) {
      case Stretch::code: return at_ + 1;
      case Stretch::comment: return starts("//") ? std::min(text_.find('\n', at_), text_.size()) : after("*/", at_ + 2);
      case Stretch::raw_string: return after(")" + raw_mark() + "\"", at_);
      case Stretch::string: return end_of_quoted('"');
      case Stretch::character: return end_of_quoted('\'');
    }
    return text_.size();
  }

  [[nodiscard]] std::string raw_mark() const {
    const auto open = text_.find('(', at_);
    return open == std::string_view::npos ? std::string() : std::string(text_.substr(at_ + 1, open - at_ - 1));
  }

  [[nodiscard]] std::size_t end_of_quoted(char quote) const {
    std::size_t at = at_ + 1;
    while (at < text_.size() && text_[at] != quote && text_[at] != '\n') at += text_[at] == '\\' ? 2U : 1U;
    return at + 1;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

void blank(std::string& text, std::size_t begin, std::size_t end) {
  for (std::size_t i = begin; i < end && i < text.size(); ++i) {
    if (text[i] != '\n') text[i] = ' ';
  }
}

std::string blanked(std::string_view text, bool literals_too) {
  std::string out(text);
  Cutter cutter(text);
  while (!cutter.done()) {
    const Cutter::Piece piece = cutter.next();
    switch (piece.kind) {
      case Stretch::code: break;
      case Stretch::comment: blank(out, piece.begin, piece.end); break;
      case Stretch::string:
      case Stretch::raw_string:
      case Stretch::character:
        if (literals_too) blank(out, piece.begin + 1, piece.end - 1);
        break;
    }
  }
  return out;
}

std::string qualifier_before(std::string_view text, std::size_t begin) {
  const auto last = text.find_last_not_of(" \t", begin == 0 ? 0 : begin - 1);
  if (begin == 0 || last == std::string_view::npos) return {};
  if (text[last] == '.') return ".";
  if (text[last] == '>' && last > 0 && text[last - 1] == '-') return "->";
  if (text[last] != ':' || last == 0 || text[last - 1] != ':') return {};
  std::size_t first = last - 1;
  while (first > 0 && is_name_character(text[first - 1])) --first;
  return std::string(text.substr(first, last + 1 - first));
}

}  // namespace

std::string blank_comments(std::string_view text) { return blanked(text, false); }

std::string blank_comments_and_literals(std::string_view text) { return blanked(text, true); }

std::vector<Literal> string_literals(std::string_view text) {
  std::vector<Literal> out;
  Cutter cutter(text);
  while (!cutter.done()) {
    const Cutter::Piece piece = cutter.next();
    if (piece.kind != Stretch::string || piece.end < piece.begin + 2) continue;
    const auto line = std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(piece.begin), '\n') + 1;
    out.push_back({std::string(text.substr(piece.begin + 1, piece.end - piece.begin - 2)), piece.begin, static_cast<int>(line)});
  }
  return out;
}

std::vector<Name> names_in(std::string_view text) {
  constexpr std::size_t kLookAhead = 16;
  std::vector<Name> out;
  int line = 1;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '\n') ++line;
    if (!is_name_character(text[i])) {
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < text.size() && is_name_character(text[end])) ++end;
    const auto next = std::min(text.find_first_not_of(" \t", end), text.size());
    out.push_back({std::string(text.substr(i, end - i)), qualifier_before(text, i),
                   std::string(text.substr(next, kLookAhead)), line});
    i = end;
  }
  return out;
}

}  // namespace fettle::house
