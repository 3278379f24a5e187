#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/document.h"
#include "catalogue/figure.h"
#include "catalogue/words.h"

namespace fettle {

/// Reads one table of a catalogue file key by key and gathers every problem: a key that is missing, of the wrong kind, or that
/// nobody asked for.
class TableReader {
 public:
  /// `node` must outlive the reader. A node that is no table is a problem and reads as an empty one.
  TableReader(const DocumentNode& node, Problems& problems);

  [[nodiscard]] std::string text(std::string_view key);
  [[nodiscard]] std::optional<std::string> optional_text(std::string_view key);
  [[nodiscard]] std::optional<bool> optional_truth(std::string_view key);
  [[nodiscard]] std::optional<int> optional_whole(std::string_view key);
  [[nodiscard]] std::optional<Quantity> optional_quantity(std::string_view key);
  [[nodiscard]] std::optional<Length> optional_length(std::string_view key);
  [[nodiscard]] Ratio figure(std::string_view key);
  [[nodiscard]] std::vector<std::string> texts(std::string_view key);
  /// The tables under `key`; none if the key is missing.
  [[nodiscard]] std::vector<const DocumentNode*> tables(std::string_view key);
  [[nodiscard]] const DocumentNode* node(std::string_view key);

  template <class E, std::size_t N>
  [[nodiscard]] std::optional<E> optional_word(std::string_view key, const WordTable<E, N>& table) {
    const auto read = optional_text(key);
    if (!read) return std::nullopt;
    const auto found = value_of(table, *read);
    if (!found) unknown_word(key, *read, all_words(table));
    return found;
  }
  /// The word's value; a missing or unknown one is a problem and gives the table's first value.
  template <class E, std::size_t N>
  [[nodiscard]] E word(std::string_view key, const WordTable<E, N>& table) {
    if (find(key) == nullptr) missing(key);
    return optional_word(key, table).value_or(table.front().second);
  }

  void missing(std::string_view key);
  void unknown_word(std::string_view key, const std::string& read, const std::string& known);
  /// Every key that nobody asked for is a problem: a misspelt key must not be skipped.
  void finish();
  [[nodiscard]] const Place& place() const { return node_.place; }

 private:
  [[nodiscard]] const DocumentNode* find(std::string_view key);
  void wrong_kind(std::string_view key, const Place& place, std::string_view wanted);

  const DocumentNode& node_;
  Problems& problems_;
  std::set<std::string, std::less<>> asked_;
};

/// Adds catalogue.id_twice for every id that stands before in the list.
void refuse_ids_twice(const std::vector<std::pair<std::string, Place>>& ids, Problems& problems);

}  // namespace fettle
