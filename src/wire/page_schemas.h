#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// src/wire/openapi.json as it was built in.
[[nodiscard]] std::string_view openapi_text();

/// A schema file that it refers to ("bench.schema.json"); empty where there is none.
[[nodiscard]] std::string_view page_schema_text(const std::string& file);

/// One operation of openapi.json.
struct ApiOperation {
  std::string method;  ///< "GET"
  std::string path;    ///< "/api/jobs/{job}"
  bool token;          ///< asks for the token
};

/// In the order of the document.
[[nodiscard]] std::vector<ApiOperation> openapi_operations();

}  // namespace fettle
