#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace fettle {

/// The words of the catalogue files for the values of one enum.
template <class E, std::size_t N>
using WordTable = std::array<std::pair<std::string_view, E>, N>;

template <class E, std::size_t N>
[[nodiscard]] std::optional<E> value_of(const WordTable<E, N>& table, std::string_view word) {
  for (const auto& [each, value] : table) {
    if (each == word) return value;
  }
  return std::nullopt;
}

/// The word that the files have for a value.
template <class E, std::size_t N>
[[nodiscard]] std::optional<std::string_view> word_of(const WordTable<E, N>& table, E value) {
  for (const auto& [word, each] : table) {
    if (each == value) return word;
  }
  return std::nullopt;
}

/// "first, middle, last": for the sentence that refuses another word.
template <class E, std::size_t N>
[[nodiscard]] std::string all_words(const WordTable<E, N>& table) {
  std::string out;
  for (const auto& entry : table) {
    if (!out.empty()) out += ", ";
    out += entry.first;
  }
  return out;
}

}  // namespace fettle
