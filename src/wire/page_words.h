#pragma once

#include <optional>
#include <string>
#include <vector>

#include "wire/bench_page_json.h"
#include "wire/json_values.h"

// Inside `wire` only: what the answers to the page share. Everything stands in them, null where there is nothing.
namespace fettle::json {

using Lines = std::vector<std::string>;

template <class T>
[[nodiscard]] Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

/// A list made item by item.
template <class T, class Write>
[[nodiscard]] Json array_of(const std::vector<T>& items, const Write& write) {
  Json out = Json::array();
  for (const T& each : items) out.push_back(write(each));
  return out;
}

/// {"lines": [...]}, or null.
[[nodiscard]] inline Json lines_or_null(const std::optional<Lines>& lines) { return lines ? Json{{"lines", *lines}} : Json(nullptr); }

[[nodiscard]] inline Json page(const char* format) { return {{"format", format}, {"version", 1}}; }

[[nodiscard]] inline Json preset_choice(const PresetChoice& preset) {
  return {{"id", preset.id}, {"name", preset.name}, {"sort", preset.sort}, {"asks", preset.asks}};
}

[[nodiscard]] inline std::string text_of(const Json& page) { return page.dump(kIndent) + "\n"; }

}  // namespace fettle::json
