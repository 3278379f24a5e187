#include "wire/event_reader.h"

#include <algorithm>

namespace fettle::json {

void Spot::add(std::string code, std::vector<Argument> more) const {
  if (full()) return;
  more.insert(more.begin(), verbatim("key", key.empty() ? std::string("event") : key));
  problems.push_back({std::move(code), place, std::move(more)});
}

EventReader::EventReader(const Read& node, Spot spot)
    : node_(node), spot_(std::move(spot)), before_(spot_.problems.size()) {
  if (!node_.is_object()) spot_.wrong_kind("wire.an_object");
}

const Read* EventReader::find(const char* key) {
  asked_.emplace_back(key);
  if (!node_.is_object()) return nullptr;
  const auto found = node_.find(key);
  return found == node_.end() ? nullptr : &*found;
}

const Read* EventReader::required(const char* key) {
  const Read* node = find(key);
  if (node == nullptr) missing(key);
  return node;
}

void EventReader::stands_only_if(const char* key, bool stands, bool wanted) {
  if (spot_.problems.size() > before_) return;
  if (wanted && !stands) missing(key);
  if (stands && !wanted) spot_.inside(key).add("wire.unknown_key");
}

void EventReader::missing(const char* key) {
  if (node_.is_object()) spot_.inside(key).add("wire.missing_key");
}

void EventReader::finish() {
  if (!node_.is_object()) return;
  for (const auto& [key, value] : node_.items()) {
    if (spot_.full()) return;
    if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) spot_.inside(key).add("wire.unknown_key");
  }
}

}  // namespace fettle::json
