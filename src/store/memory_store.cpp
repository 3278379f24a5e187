#include "store/memory_store.h"

#include <algorithm>
namespace fettle {
namespace {

const AcceptedEvent* find_id(const std::vector<AcceptedEvent>& log, const std::string& id) {
  const auto found = std::find_if(log.begin(), log.end(), [&](const AcceptedEvent& each) { return each.envelope.id == id; });
  return found == log.end() ? nullptr : &*found;
}

std::string lower(std::string text) {
  for (char& each : text) {
    if (each >= 'A' && each <= 'Z') each = static_cast<char>(each - 'A' + 'a');
  }
  return text;
}

bool holds(const std::string& text, const std::string& wanted) { return lower(text).find(lower(wanted)) != std::string::npos; }

/// Parts that were asked for; all where none were.
std::vector<PartRow> wanted_parts(const JobRow& row, const FindQuery& query) {
  std::vector<PartRow> out;
  for (const PartRow& each : row.parts) {
    const bool named = !query.part || each.part == *query.part || each.kind == *query.part;
    if (named && (!query.state || each.state == *query.state)) out.push_back(each);
  }
  return out;
}

bool fits(const JobRow& row, const FindQuery& query) {
  if (query.engine && !holds(row.job, *query.engine) && !holds(row.name, *query.engine) && !holds(row.engine, *query.engine) &&
      !holds(row.serial, *query.engine)) {
    return false;
  }
  if (query.from && row.last_made_at < *query.from) return false;
  if (query.until && (row.first_made_at.empty() || row.first_made_at > *query.until)) return false;
  if (query.person && std::find(row.people.begin(), row.people.end(), *query.person) == row.people.end()) return false;
  return (!query.part && !query.state) || !wanted_parts(row, query).empty();
}

}  // namespace

Result<std::vector<Accepted>> MemoryStore::accept(const std::vector<Envelope>& envelopes) {
  const std::lock_guard hold(lock_);
  return accept_held(envelopes);
}

Result<std::vector<Accepted>> MemoryStore::accept_after(const std::vector<Envelope>& envelopes, std::int64_t position) {
  const std::lock_guard hold(lock_);
  const std::string& job = envelopes.front().job;
  const auto log = logs_.find(job);
  if ((log == logs_.end() ? 0 : static_cast<std::int64_t>(log->second.size())) != position) return Problem{"store.moved_on", {}, {verbatim("job", job)}};
  return accept_held(envelopes);
}

Result<std::vector<Accepted>> MemoryStore::accept_held(const std::vector<Envelope>& envelopes) {
  auto logs = logs_;
  std::vector<Accepted> out;
  for (const Envelope& each : envelopes) {
    std::vector<AcceptedEvent>& log = logs[each.job];
    if (const AcceptedEvent* there = find_id(log, each.id)) {
      if (there->envelope.line != each.line) return Problem{"store.other_bytes", {}, {verbatim("job", each.job), verbatim("id", each.id)}};
      out.push_back(there->accepted);
      continue;
    }
    Accepted accepted{static_cast<std::int64_t>(log.size()) + 1, clock_.now(), log.empty() ? kNoHash : log.back().accepted.hash, {}};
    accepted.hash = chain_hash(each, accepted.position, accepted.accepted_at, accepted.previous);
    log.push_back({each, accepted});
    out.push_back(accepted);
  }
  logs_ = std::move(logs);
  return out;
}

Result<std::int64_t> MemoryStore::take_over(const std::vector<AcceptedEvent>& events) {
  const std::lock_guard hold(lock_);
  auto logs = logs_;
  std::int64_t fresh = 0;
  for (const AcceptedEvent& each : events) {
    std::vector<AcceptedEvent>& log = logs[each.envelope.job];
    const std::int64_t position = each.accepted.position;
    const std::vector<Argument> where = {verbatim("job", each.envelope.job), count("position", position)};
    if (each.accepted.hash != chain_hash(each.envelope, position, each.accepted.accepted_at, each.accepted.previous)) {
      return Problem{"store.chain_broken", {}, where};
    }
    if (position >= 1 && position <= static_cast<std::int64_t>(log.size())) {
      if (log[static_cast<std::size_t>(position - 1)] != each) return Problem{"store.went_apart", {}, where};
      continue;
    }
    const bool goes_on = position == static_cast<std::int64_t>(log.size()) + 1 && each.accepted.previous == (log.empty() ? kNoHash : log.back().accepted.hash);
    if (!goes_on) return Problem{"store.chain_broken", {}, where};
    log.push_back(each);
    ++fresh;
  }
  logs_ = std::move(logs);
  return fresh;
}

std::vector<AcceptedEvent> MemoryStore::events(const std::string& job, std::int64_t after) {
  const std::lock_guard hold(lock_);
  std::vector<AcceptedEvent> out;
  const auto log = logs_.find(job);
  if (log == logs_.end()) return out;
  for (const AcceptedEvent& each : log->second) {
    if (each.accepted.position > after) out.push_back(each);
  }
  return out;
}

std::optional<Accepted> MemoryStore::last(const std::string& job) {
  const std::lock_guard hold(lock_);
  const auto log = logs_.find(job);
  if (log == logs_.end() || log->second.empty()) return std::nullopt;
  return log->second.back().accepted;
}

std::vector<std::string> MemoryStore::jobs() {
  const std::lock_guard hold(lock_);
  std::vector<std::string> out;
  for (const auto& [job, log] : logs_) out.push_back(job);
  return out;
}

void MemoryStore::keep_file(const StoredFile& file) {
  const std::lock_guard hold(lock_);
  files_.emplace(file.hash, file);
}

std::optional<StoredFile> MemoryStore::file(const std::string& hash) {
  const std::lock_guard hold(lock_);
  const auto found = files_.find(hash);
  return found == files_.end() ? std::nullopt : std::optional(found->second);
}

std::vector<StoredFileRow> MemoryStore::files() {
  const std::lock_guard hold(lock_);
  std::vector<StoredFileRow> out;
  for (const auto& [hash, file] : files_) out.push_back({hash, file.type, static_cast<std::int64_t>(file.bytes.size())});
  return out;
}

void MemoryStore::keep_row(const JobRow& row) {
  const std::lock_guard hold(lock_);
  rows_[row.job] = row;
}

void MemoryStore::drop_rows() {
  const std::lock_guard hold(lock_);
  rows_.clear();
}

std::optional<JobRow> MemoryStore::row(const std::string& job) {
  const std::lock_guard hold(lock_);
  const auto found = rows_.find(job);
  return found == rows_.end() ? std::nullopt : std::optional(found->second);
}

FoundJobs MemoryStore::find(const FindQuery& query) {
  const std::lock_guard hold(lock_);
  FoundJobs out{{}, 0};
  for (const auto& [job, row] : rows_) {
    if (!fits(row, query)) continue;
    ++out.all;
    if (static_cast<std::size_t>(out.all) <= query.skip || out.rows.size() >= query.most) continue;
    out.rows.push_back(row);
    if (query.part || query.state) out.rows.back().parts = wanted_parts(row, query);
  }
  return out;
}

void MemoryStore::keep_judgement(const StoredJudgement& judgement) {
  const std::lock_guard hold(lock_);
  std::vector<StoredJudgement>& all = judgements_[judgement.job];
  std::erase_if(all, [&](const StoredJudgement& each) { return each.program == judgement.program; });
  all.push_back(judgement);
  all.back().hash = judgement_hash(judgement);
}

std::vector<StoredJudgement> MemoryStore::judgements(const std::string& job) {
  const std::lock_guard hold(lock_);
  const auto found = judgements_.find(job);
  return found == judgements_.end() ? std::vector<StoredJudgement>{} : found->second;
}

void MemoryStore::keep_device(const StoredDevice& device) {
  const std::lock_guard hold(lock_);
  const bool there = std::any_of(devices_.begin(), devices_.end(), [&](const StoredDevice& each) { return each.id == device.id; });
  if (!there) devices_.push_back(device);
}

bool MemoryStore::revoke_device(const std::string& id) {
  const std::lock_guard hold(lock_);
  const auto found = std::find_if(devices_.begin(), devices_.end(), [&](const StoredDevice& each) { return each.id == id; });
  if (found == devices_.end()) return false;
  found->revoked = true;
  return true;
}

void MemoryStore::device_seen(const std::string& id, const std::string& at) {
  const std::lock_guard hold(lock_);
  for (StoredDevice& each : devices_) {
    if (each.id == id) each.last_seen = at;
  }
}

std::vector<StoredDevice> MemoryStore::devices() {
  const std::lock_guard hold(lock_);
  return devices_;
}

std::int64_t MemoryStore::keep_gauge_line(const std::string& port, const std::string& bytes, const std::string& received_at) {
  const std::lock_guard hold(lock_);
  gauge_lines_.push_back({++last_line_, port, bytes, received_at});
  return last_line_;
}

bool MemoryStore::drop_gauge_line(std::int64_t number) {
  const std::lock_guard hold(lock_);
  return std::erase_if(gauge_lines_, [&](const StoredGaugeLine& each) { return each.number == number; }) > 0;
}

std::vector<StoredGaugeLine> MemoryStore::gauge_lines() {
  const std::lock_guard hold(lock_);
  return gauge_lines_;
}

std::vector<StoreFault> MemoryStore::faults() {
  const std::lock_guard hold(lock_);
  std::vector<StoreFault> out;
  for (const auto& [job, log] : logs_) {
    for (const ChainBreak& each : chain_breaks(log)) {
      out.push_back({job, {"store.chain_broken", {}, {verbatim("job", job), count("position", each.position)}}});
    }
  }
  return out;
}

Problems MemoryStore::back_up(const std::string& path) { return {Problem{"store.cannot_write", {}, {verbatim("file", path)}}}; }

}  // namespace fettle
