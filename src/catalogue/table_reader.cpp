#include "catalogue/table_reader.h"

#include <algorithm>

namespace fettle {

TableReader::TableReader(const DocumentNode& node, Problems& problems) : node_(node), problems_(problems) {
  if (node.table() == nullptr) {
    problems_.push_back(Problem{"catalogue.wrong_kind", node.place, {verbatim("key", "[[...]]"), fettle::word("wanted", "catalogue.a_table")}});
  }
}

const DocumentNode* TableReader::find(std::string_view key) {
  asked_.emplace(key);
  return node_.find(key);
}

void TableReader::missing(std::string_view key) {
  problems_.push_back(Problem{"catalogue.missing_key", node_.place, {verbatim("key", std::string(key))}});
}

void TableReader::wrong_kind(std::string_view key, const Place& place, std::string_view wanted) {
  problems_.push_back(Problem{"catalogue.wrong_kind", place,
                              {verbatim("key", std::string(key)), fettle::word("wanted", "catalogue." + std::string(wanted))}});
}

void TableReader::unknown_word(std::string_view key, const std::string& read, const std::string& known) {
  const DocumentNode* found = node_.find(key);
  problems_.push_back(Problem{"catalogue.unknown_word", found == nullptr ? node_.place : found->place,
                              {verbatim("key", std::string(key)), verbatim("word", read), verbatim("known", known)}});
}

const DocumentNode* TableReader::node(std::string_view key) { return find(key); }

std::optional<std::string> TableReader::optional_text(std::string_view key) {
  const DocumentNode* found = find(key);
  if (found == nullptr) return std::nullopt;
  if (const std::string* text = found->text(); text != nullptr && !text->empty()) return *text;
  wrong_kind(key, found->place, "a_text");
  return std::nullopt;
}

std::string TableReader::text(std::string_view key) {
  if (find(key) == nullptr) missing(key);
  return optional_text(key).value_or(std::string());
}

std::optional<bool> TableReader::optional_truth(std::string_view key) {
  const DocumentNode* found = find(key);
  if (found == nullptr) return std::nullopt;
  if (const bool* truth = std::get_if<bool>(&found->value)) return *truth;
  wrong_kind(key, found->place, "a_truth");
  return std::nullopt;
}

std::optional<int> TableReader::optional_whole(std::string_view key) {
  const DocumentNode* found = find(key);
  if (found == nullptr) return std::nullopt;
  if (const auto* whole = std::get_if<std::int64_t>(&found->value); whole != nullptr && *whole >= 0 && *whole <= 1000) {
    return static_cast<int>(*whole);
  }
  wrong_kind(key, found->place, "a_whole");
  return std::nullopt;
}

std::optional<Quantity> TableReader::optional_quantity(std::string_view key) {
  const auto read = optional_text(key);
  if (!read) return std::nullopt;
  const auto quantity = read_figure_with_unit(*read);
  if (!quantity) wrong_kind(key, node_.find(key)->place, "a_quantity");
  return quantity;
}

std::optional<Length> TableReader::optional_length(std::string_view key) {
  const auto quantity = optional_quantity(key);
  if (!quantity) return std::nullopt;
  const auto length = exact_length(*quantity);
  if (!length) wrong_kind(key, node_.find(key)->place, "a_length");
  return length;
}

Ratio TableReader::figure(std::string_view key) {
  if (find(key) == nullptr) missing(key);
  const auto read = optional_text(key);
  if (!read) return Ratio();
  const auto number = read_figure(*read);
  if (!number) wrong_kind(key, node_.find(key)->place, "a_figure");
  return number.value_or(Ratio());
}

std::vector<std::string> TableReader::texts(std::string_view key) {
  const DocumentNode* found = find(key);
  std::vector<std::string> out;
  if (found == nullptr) return out;
  if (found->array() == nullptr) {
    wrong_kind(key, found->place, "a_list");
    return out;
  }
  for (const DocumentNode& item : *found->array()) {
    if (item.text() != nullptr) {
      out.push_back(*item.text());
    } else {
      wrong_kind(key, item.place, "a_text");
    }
  }
  return out;
}

std::vector<const DocumentNode*> TableReader::tables(std::string_view key) {
  const DocumentNode* found = find(key);
  std::vector<const DocumentNode*> out;
  if (found == nullptr) return out;
  if (found->array() == nullptr) {
    wrong_kind(key, found->place, "a_table");
    return out;
  }
  for (const DocumentNode& item : *found->array()) out.push_back(&item);
  return out;
}

void TableReader::finish() {
  if (node_.table() == nullptr) return;
  for (const auto& [key, value] : *node_.table()) {
    if (!asked_.contains(key)) problems_.push_back(Problem{"catalogue.unknown_key", value.place, {verbatim("key", key)}});
  }
}

void refuse_ids_twice(const std::vector<std::pair<std::string, Place>>& ids, Problems& problems) {
  std::set<std::string> seen;
  for (const auto& [id, place] : ids) {
    if (!seen.insert(id).second) problems.push_back(Problem{"catalogue.id_twice", place, {verbatim("id", id)}});
  }
}

}  // namespace fettle
