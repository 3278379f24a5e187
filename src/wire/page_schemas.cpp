#include "wire/page_schemas.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "embedded/page_schema_files.h"

namespace fettle {
namespace {

constexpr std::string_view kTokenReference = "#/components/parameters/token";

}  // namespace

std::string_view openapi_text() { return page_schema_files("openapi.json"); }

std::string_view page_schema_text(const std::string& file) { return file == "openapi.json" ? std::string_view() : page_schema_files(file); }

std::vector<ApiOperation> openapi_operations() {
  const auto document = nlohmann::ordered_json::parse(openapi_text());
  std::vector<ApiOperation> out;
  for (const auto& [path, methods] : document.at("paths").items()) {
    for (const auto& [method, operation] : methods.items()) {
      ApiOperation each{method, path, false};
      std::transform(each.method.begin(), each.method.end(), each.method.begin(), [](char letter) { return static_cast<char>(letter - 'a' + 'A'); });
      for (const auto& parameter : operation.at("parameters")) each.token = each.token || parameter.value("$ref", "") == kTokenReference;
      out.push_back(std::move(each));
    }
  }
  return out;
}

}  // namespace fettle
