#include "wire/event_json.h"

#include <algorithm>
#include <utility>

#include "wire/event_id.h"
#include "wire/event_reader.h"

namespace fettle {
namespace {

using json::EventReader;
using json::Read;
using json::Spot;

/// Asks `visit` for one empty payload of every type, in the order of the variant.
template <class Visit, std::size_t... I>
void for_each_payload(const Visit& visit, std::index_sequence<I...>) {
  (visit(std::variant_alternative_t<I, Payload>{}), ...);
}
template <class Visit>
void for_each_payload(const Visit& visit) {
  for_each_payload(visit, std::make_index_sequence<std::variant_size_v<Payload>>{});
}

std::optional<EventType> known_type(const std::string& name) {
  std::optional<EventType> found;
  for_each_payload([&](const auto& empty) {
    if (const EventType type = type_of(empty); type.name == name) found = type;
  });
  return found;
}

std::string known_types() {
  std::string out;
  for_each_payload([&](const auto& empty) { out += (out.empty() ? "" : ", ") + std::string(type_of(empty).name); });
  return out;
}

/// Reads the payload of the type named `type`, which is known.
Payload read_payload(const Read& node, const Spot& spot, std::string_view type) {
  Payload out;
  for_each_payload([&](auto empty) {
    if (type_of(empty).name != type) return;
    EventReader reader(node, spot);
    json::describe(reader, empty);
    reader.finish();
    out = std::move(empty);
  });
  return out;
}

/// Whether this program can read what stands in the envelope. If it cannot, that is all that is said: a newer program
/// may have changed everything else.
bool type_is_readable(const std::string& name, std::int64_t version, const Spot& spot) {
  const auto known = known_type(name);
  if (!known) {
    spot.inside("type").add("wire.unknown_event_type", {verbatim("type", name), verbatim("known", known_types())});
    return false;
  }
  if (version > known->version) {
    spot.inside("version").add("wire.newer_version",
                               {verbatim("type", name), count("version", version), count("known", known->version)});
    return false;
  }
  if (version < 1) {
    spot.inside("version").add("wire.out_of_range",
                               {verbatim("least", "1"), verbatim("most", std::to_string(known->version))});
    return false;
  }
  return true;
}

class EnvelopeReader {
 public:
  EnvelopeReader(const Read& node, const Place& place) : node_(node), spot_{"", place, problems_} {}

  Result<EventEnvelope> read() && {
    EventReader reader(node_, spot_);
    std::string type;
    std::int64_t version = 0;
    reader("type", type);
    reader("version", version);
    if (!problems_.empty()) return std::move(problems_);
    if (!type_is_readable(type, version, spot_)) return std::move(problems_);
    EventEnvelope event{};
    json::describe_envelope(reader, event);
    if (const Read* payload = reader.required("payload"))
      event.payload = read_payload(*payload, spot_.inside("payload"), type);
    reader.finish();
    if (problems_.empty() && !json::is_event_id(event.id)) spot_.inside("id").add("wire.not_an_id");
    if (!problems_.empty()) return std::move(problems_);
    return event;
  }

 private:
  const Read& node_;
  Problems problems_;
  Spot spot_;
};

/// The walk of event_fields.h that empties places.
class PlaceRemover {
 public:
  template <class T>
  void operator()(const char*, T& value) {
    clear(value);
  }
  void stands_only_if(const char*, bool, bool) const {}

 private:
  static void clear(TypedQuantity& quantity) { quantity.place = {}; }
  template <class T>
  static void clear(std::optional<T>& value) {
    if (value) clear(*value);
  }
  template <class T>
  static void clear(std::vector<T>& list) {
    for (T& each : list) clear(each);
  }
  template <class T>
  static void clear(T& value) {
    PlaceRemover inner;
    if constexpr (requires { json::describe(inner, value); }) json::describe(inner, value);
  }
};

}  // namespace

Result<EventEnvelope> read_event(std::string_view line, const Place& place) {
  Problems problems;
  const auto node = json::read_line(line, place, problems);
  if (!node) return problems;
  return EnvelopeReader(*node, place).read();
}

EventEnvelope without_places(EventEnvelope event) {
  PlaceRemover walk;
  std::visit([&](auto& payload) { json::describe(walk, payload); }, event.payload);
  return event;
}

}  // namespace fettle
