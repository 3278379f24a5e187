#include "wire/json_at.h"

#include <nlohmann/json.hpp>

namespace fettle {

std::string json_at(const std::string& document, const std::string& pointer) {
  const auto read = nlohmann::ordered_json::parse(document, nullptr, false);
  const nlohmann::ordered_json::json_pointer at(pointer);
  if (read.is_discarded() || !read.contains(at)) return "(nothing)";
  const auto& value = read.at(at);
  return value.is_string() ? value.get<std::string>() : value.dump();
}

std::size_t json_size(const std::string& document, const std::string& pointer) {
  const auto read = nlohmann::ordered_json::parse(document, nullptr, false);
  const nlohmann::ordered_json::json_pointer at(pointer);
  if (read.is_discarded() || !read.contains(at)) return 0;
  const auto& value = read.at(at);
  return value.is_structured() ? value.size() : 0;
}

}  // namespace fettle
