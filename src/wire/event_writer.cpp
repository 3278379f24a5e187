#include "wire/event_writer.h"

#include "wire/event_id.h"
#include "wire/event_json.h"

namespace fettle {
namespace json {

constexpr int kEveryCount = 7;  // decimals of a millimetre

Json exact(const Ratio& value) {
  return {{"numerator", to_text(value.numerator())}, {"denominator", to_text(value.denominator())}};
}

Json exact(Length length) {
  return {{"value", in_unit(length.ratio(), UnitId::millimetre, kEveryCount)},
          {"unit", std::string(unit_definition(UnitId::millimetre).symbol)}};
}

Json whole(std::int64_t number) {
  FETTLE_ASSERT(number >= -kLargestWhole && number <= kLargestWhole, std::to_string(number));
  return number;
}

}  // namespace json

std::string event_json(const EventEnvelope& event) {
  FETTLE_ASSERT(json::is_event_id(event.id), event.id);
  const EventType type = type_of(event.payload);
  json::EventWriter envelope;
  json::describe_envelope(envelope, event);
  json::Json line = std::move(envelope).take();
  line["type"] = std::string(type.name);
  line["version"] = type.version;
  line["payload"] = std::visit(
      [](const auto& payload) {
        json::EventWriter walk;
        json::describe(walk, payload);
        return std::move(walk).take();
      },
      event.payload);
  try {
    return line.dump();
  } catch (const json::Json::type_error& error) {
    throw InternalError(std::string("an event that is no text: ") + error.what());
  }
}

}  // namespace fettle
