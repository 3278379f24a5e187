#include "app/salvage_record.h"

#include <map>
#include <set>

#include "job/events.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

/// Events of one job, cut at the first place where the chain does not go on.
struct Pieces {
  std::vector<AcceptedEvent> whole;
  std::vector<Envelope> behind;
};

std::map<std::string, Pieces> pieces_by_job(const std::vector<AcceptedEvent>& events) {
  std::map<std::string, Pieces> out;
  for (const AcceptedEvent& each : events) {
    Pieces& pieces = out[each.envelope.job];
    const std::string& before = pieces.whole.empty() ? kNoHash : pieces.whole.back().accepted.hash;
    const bool goes_on = pieces.behind.empty() && each.accepted.position == static_cast<std::int64_t>(pieces.whole.size()) + 1 && each.accepted.previous == before;
    if (goes_on) {
      pieces.whole.push_back(each);
    } else {
      pieces.behind.push_back(each.envelope);
    }
  }
  return out;
}

std::set<std::string> files_named_in(const std::vector<AcceptedEvent>& events) {
  std::set<std::string> out;
  for (const AcceptedEvent& each : events) {
    const Result<EventEnvelope> event = read_event(each.envelope.line, {});
    const auto* attached = event.ok() ? std::get_if<FileAttached>(&event.value().payload) : nullptr;
    if (attached != nullptr) out.insert(attached->hash);
  }
  return out;
}

std::optional<StoredFile> file_of(Store* damaged, const std::string& hash) {
  if (damaged == nullptr) return std::nullopt;
  try {
    return damaged->file(hash);
  } catch (const StoreError&) {
    return std::nullopt;  // it lies on a damaged page
  }
}

}  // namespace

Result<SalvagedRecord> salvage_record(const SalvagedEvents& salvaged, Store* damaged, Store& into) {
  SalvagedRecord out{0, 0, 0, salvaged.missing, 0, 0};
  for (const std::string& hash : files_named_in(salvaged.events)) {
    const auto file = file_of(damaged, hash);
    if (file) into.keep_file(*file);
    ++(file ? out.files : out.files_missing);
  }
  for (const auto& [job, pieces] : pieces_by_job(salvaged.events)) {
    ++out.jobs;
    const Result<std::int64_t> taken = into.take_over(pieces.whole);
    if (!taken.ok()) return taken.problems();
    out.taken_over += taken.value();
    const Result<std::vector<Accepted>> anew = into.accept(pieces.behind);
    if (!anew.ok()) return anew.problems();
    out.accepted_anew += static_cast<std::int64_t>(anew.value().size());
  }
  return out;
}

}  // namespace fettle
