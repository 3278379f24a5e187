#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace fettle {

/// A sentence that has not been made yet: a key of the text files and named arguments. Only the room `text` makes sentences.
struct Message;

/// Shown as it stands in every language: an id, or what a person typed.
struct Verbatim {
  std::string text;
  bool operator==(const Verbatim&) const = default;
};
/// A figure already rounded for print, written with a point ("-84.0978"); `text` puts the decimal mark of the language.
struct DecimalText {
  std::string digits;
  std::string unit;  ///< unit symbol, may be empty
  bool operator==(const DecimalText&) const = default;
};
/// Several figures with their units, each with a point: "84.000…84.020 mm = 3.3071…3.3079 in". `text` puts the decimal marks.
struct FigureText {
  std::string text;
  bool operator==(const FigureText&) const = default;
};
/// A key that is translated in turn: the word for a state, a kind, a direction.
struct WordKey {
  std::string key;
  bool operator==(const WordKey&) const = default;
};

struct Argument {
  std::string name;
  std::variant<Verbatim, std::int64_t, DecimalText, FigureText, WordKey, std::vector<Message>> value;
  bool operator==(const Argument&) const;
};

struct Message {
  std::string key;
  std::vector<Argument> arguments;
  bool operator==(const Message&) const = default;
};

inline bool Argument::operator==(const Argument& other) const { return name == other.name && value == other.value; }

[[nodiscard]] inline Argument verbatim(std::string name, std::string text) {
  return {std::move(name), Verbatim{std::move(text)}};
}
[[nodiscard]] inline Argument word(std::string name, std::string key) {
  return {std::move(name), WordKey{std::move(key)}};
}
[[nodiscard]] inline Argument count(std::string name, std::int64_t value) { return {std::move(name), value}; }
[[nodiscard]] inline Argument decimal(std::string name, std::string digits, std::string unit = {}) {
  return {std::move(name), DecimalText{std::move(digits), std::move(unit)}};
}
[[nodiscard]] inline Argument figures(std::string name, std::string text) { return {std::move(name), FigureText{std::move(text)}}; }
[[nodiscard]] inline Argument list(std::string name, std::vector<Message> messages) {
  return {std::move(name), std::move(messages)};
}

}  // namespace fettle
