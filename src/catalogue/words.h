#pragma once

#include <array>
#include <optional>
#include <ranges>
#include <string>
#include <string_view>
#include <utility>

#include "base/joined.h"

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

/// "first, middle, last": for the sentence that refuses another word.
template <class E, std::size_t N>
[[nodiscard]] std::string all_words(const WordTable<E, N>& table) {
  return joined(table | std::views::keys);
}

}  // namespace fettle
