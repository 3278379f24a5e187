#pragma once

#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/assertion.h"
#include "wire/event_fields.h"
#include "wire/event_words.h"
#include "wire/json_values.h"

// Inside `wire` only.
namespace fettle::json {

/// {"numerator": "19", "denominator": "20"}
[[nodiscard]] Json exact(const Ratio& value);
/// {"value": "12.0000000", "unit": "mm"}: seven decimals show every count of 0.1 nm.
[[nodiscard]] Json exact(Length length);
/// A whole number within kLargestWhole.
[[nodiscard]] Json whole(std::int64_t number);

/// The walk of event_fields.h that writes: every member becomes a key, in the order of the description.
class EventWriter {
 public:
  template <class T>
  void operator()(const char* key, const T& value) {
    out_[key] = written(value);
  }
  template <class T>
  void operator()(const char* key, const std::optional<T>& value) {
    if (value) out_[key] = written(*value);
  }
  /// An optional member that another one asks for, or forbids.
  void stands_only_if(const char* key, bool stands, bool wanted) const { FETTLE_ASSERT(stands == wanted, key); }
  [[nodiscard]] Json take() && { return std::move(out_); }

 private:
  static Json written(const std::string& text) { return text; }
  static Json written(bool truth) { return truth; }
  static Json written(int number) { return number; }
  static Json written(std::int64_t number) { return whole(number); }
  static Json written(const Ratio& value) { return exact(value); }
  static Json written(Length value) { return exact(value); }
  static Json written(UnitId unit) { return std::string(unit_definition(unit).symbol); }
  static Json written(const TypedQuantity& quantity) { return typed(quantity); }

  template <class T>
  static Json written(const std::vector<T>& list) {
    Json out = Json::array();
    for (const T& each : list) out.push_back(written(each));
    return out;
  }

  template <class T>
  static Json written(const T& value) {
    if constexpr (std::is_enum_v<T>) {
      for (const auto& [word, each] : words_of(For<T>{})) {
        if (each == value) return std::string(word);
      }
      FETTLE_ASSERT(false, "a value without a word");
      return nullptr;
    } else {
      EventWriter inner;
      describe(inner, value);
      return std::move(inner).take();
    }
  }

  Json out_ = Json::object();
};

}  // namespace fettle::json
