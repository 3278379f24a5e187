#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"
#include "job/events.h"

namespace fettle {

// The one JSON form of the event log, src/wire/schemas/event.schema.json: one event a line, keys in a fixed order, so
// that the same event gives the same bytes. Fractions, lengths and quantities are exact and travel as text; nothing is
// rounded.

/// The largest whole number that is written or read: 2^53 - 1, which every reader of JSON keeps exactly.
inline constexpr std::int64_t kLargestWhole = 9'007'199'254'740'991;

/// One event in one line, without the line's end. Its id must be 32 hexadecimal digits, its texts UTF-8, its whole
/// numbers within kLargestWhole: anything else is a fault of ours.
[[nodiscard]] std::string event_json(const EventEnvelope& event);

/// Reads one line back, or gives every problem it has, at `place`. Never skips: a type that is not known and a version
/// newer than this program's are refused. Places of typed quantities are no part of an event and stay empty, so that
/// read_event(event_json(e)) equals without_places(e).
/// Problems: wire.too_large, wire.not_utf8, wire.not_json, wire.too_deep, wire.key_twice (each ends the reading);
/// wire.unknown_event_type, wire.newer_version (reported alone); wire.missing_key, wire.unknown_key, wire.wrong_kind,
/// wire.unknown_word, wire.not_exact, wire.out_of_range, wire.disagrees, wire.not_an_id.
[[nodiscard]] Result<EventEnvelope> read_event(std::string_view line, const Place& place);

/// The event as the log keeps it: without the places where its quantities were typed.
[[nodiscard]] EventEnvelope without_places(EventEnvelope event);

}  // namespace fettle
