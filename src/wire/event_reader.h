#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/problem.h"
#include "wire/event_fields.h"
#include "wire/event_words.h"
#include "wire/json_line.h"

// Inside `wire` only.
namespace fettle::json {

/// Where in the line a value stands ("payload.stations[2].depth"), and where its problems go.
struct Spot {
  std::string key;
  const Place& place;
  Problems& problems;

  [[nodiscard]] Spot inside(const std::string& member) const {
    return {key.empty() ? member : key + "." + member, place, problems};
  }
  [[nodiscard]] Spot item(std::size_t index) const {
    return {key + "[" + std::to_string(index) + "]", place, problems};
  }
  /// Past kMostProblems nothing is added: the line is refused already.
  [[nodiscard]] bool full() const { return problems.size() >= kMostProblems; }
  void add(std::string code, std::vector<Argument> more = {}) const;
  /// `wanted` is the key of a word: wire.a_text and its like.
  void wrong_kind(const char* wanted) const { add("wire.wrong_kind", {word("wanted", wanted)}); }
};

// One value each. What cannot be read is a problem and leaves `out` as it was.
void read_value(const Read& node, const Spot& spot, std::string& out);
void read_value(const Read& node, const Spot& spot, bool& out);
void read_value(const Read& node, const Spot& spot, int& out);
void read_value(const Read& node, const Spot& spot, std::int64_t& out);
void read_value(const Read& node, const Spot& spot, Ratio& out);
void read_value(const Read& node, const Spot& spot, Length& out);
void read_value(const Read& node, const Spot& spot, UnitId& out);
void read_value(const Read& node, const Spot& spot, TypedQuantity& out);

/// The text under a word table; an unknown one is a problem that lists the known ones.
template <class E, std::size_t N>
void read_word(const Read& node, const Spot& spot, const WordTable<E, N>& table, E& out) {
  std::string text;
  const std::size_t before = spot.problems.size();
  read_value(node, spot, text);
  if (spot.problems.size() > before) return;
  if (const auto found = value_of(table, text)) {
    out = *found;
  } else {
    spot.add("wire.unknown_word", {verbatim("word", text), verbatim("known", all_words(table))});
  }
}

/// The walk of event_fields.h that reads: every member must be there unless it is optional, and `finish` refuses every
/// other key.
class EventReader {
 public:
  /// `node` must outlive the reader. One that is no object is a problem and reads as an empty one, without a word on
  /// its members.
  EventReader(const Read& node, Spot spot);

  template <class T>
  void operator()(const char* key, T& value) {
    if (const Read* node = find(key)) {
      read(*node, spot_.inside(key), value);
    } else {
      missing(key);
    }
  }
  template <class T>
  void operator()(const char* key, std::optional<T>& value) {
    const Read* node = find(key);
    if (node == nullptr) return;
    value.emplace();
    read(*node, spot_.inside(key), *value);
  }
  /// An optional member that another one asks for, or forbids. Says nothing where one of the two could not be read.
  void stands_only_if(const char* key, bool stands, bool wanted);
  /// A key whose value somebody else reads; nothing, and a problem, if it is missing.
  [[nodiscard]] const Read* required(const char* key);
  void finish();

 private:
  [[nodiscard]] const Read* find(const char* key);
  void missing(const char* key);

  template <class T>
  static void read(const Read& node, const Spot& spot, std::vector<T>& list) {
    if (!node.is_array()) {
      spot.wrong_kind("wire.a_list");
      return;
    }
    for (const Read& item : node) {
      if (spot.full()) return;
      T& fresh = list.emplace_back();
      read(item, spot.item(list.size() - 1), fresh);
    }
  }

  template <class T>
  static void read(const Read& node, const Spot& spot, T& value) {
    if constexpr (requires { words_of(For<T>{}); }) {
      read_word(node, spot, words_of(For<T>{}), value);
    } else if constexpr (requires { read_value(node, spot, value); }) {
      read_value(node, spot, value);
    } else {
      EventReader inner(node, spot);
      describe(inner, value);
      inner.finish();
    }
  }

  const Read& node_;
  Spot spot_;
  std::size_t before_;  ///< problems of the line before this object
  std::vector<std::string_view> asked_;  ///< few: looking along them is quicker than a tree
};

}  // namespace fettle::json
