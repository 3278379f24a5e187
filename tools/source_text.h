#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::house {

/// C++ text with every character of a comment turned into a space; lines stay where they are. Strings, raw strings, character
/// literals and digit separators are told apart from comments.
[[nodiscard]] std::string blank_comments(std::string_view text);

/// The same, and the inside of every literal turned into spaces as well (the quotes stay).
[[nodiscard]] std::string blank_comments_and_literals(std::string_view text);

/// A string literal without its quotes, as written, where its opening quote stands, and on which line (from 1).
struct Literal {
  std::string text;
  std::size_t at;
  int line;
};
[[nodiscard]] std::vector<Literal> string_literals(std::string_view text);

/// A name in C++ text, with what touches it: enough to tell `std::rand(` from `operand`.
struct Name {
  std::string text;
  std::string before;  ///< the qualifier or punctuation directly before it, spaces skipped: "std::", ".", "->", or ""
  std::string after;   ///< the rest of the text that follows, spaces skipped, at most 16 characters
  int line;
};
/// The names in text that is already without comments and literals.
[[nodiscard]] std::vector<Name> names_in(std::string_view blanked);

}  // namespace fettle::house
