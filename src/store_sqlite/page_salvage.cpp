#include "store_sqlite/page_salvage.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "store_sqlite/hexadecimal.h"
#include "store_sqlite/raw_record.h"
#include "store_sqlite/schema.h"

namespace fettle {
namespace sqlite {
namespace {

constexpr std::int64_t kPositionBits = 0xFFFF'FFFF;

const std::string* text_in(const RawRecord& record, std::size_t column) {
  return column < record.size() ? std::get_if<std::string>(&record[column]) : nullptr;
}

const std::int64_t* number_in(const RawRecord& record, std::size_t column) {
  return column < record.size() ? std::get_if<std::int64_t>(&record[column]) : nullptr;
}

/// A row of the table `event` of schema/1.sql, if that is what it is and its hash is that of its bytes.
std::optional<AcceptedEvent> event_in(const RawRecord& record) {
  if (record.size() != 8) return std::nullopt;
  const std::int64_t* position = number_in(record, 2);
  if (position == nullptr) return std::nullopt;
  for (const std::size_t column : {1U, 3U, 4U, 5U, 6U, 7U}) {
    if (text_in(record, column) == nullptr) return std::nullopt;
  }
  AcceptedEvent event{{*text_in(record, 1), *text_in(record, 3), *text_in(record, 7)},
                      {*position, *text_in(record, 4), hash_digits(*text_in(record, 5)), hash_digits(*text_in(record, 6))}};
  const Accepted& accepted = event.accepted;
  if (accepted.hash != chain_hash(event.envelope, accepted.position, accepted.accepted_at, accepted.previous)) return std::nullopt;
  return event;
}

using Found = std::map<std::pair<std::string, std::int64_t>, AcceptedEvent>;
using Known = std::map<std::string, std::set<std::int64_t>>;

class Salvage {
 public:
  Salvage(const std::string& path, const std::string* job) : path_(path), job_(job) {
    // A file that somebody wrote anew with other pages says so in its header; ours is tried in any case, as the header may be damaged.
    scan(kPageBytes);
    const std::size_t said = said_page_bytes();
    if (said != kPageBytes) scan(said);
  }

  Found found;
  Known known;  ///< positions that the index of ids names

 private:
  [[nodiscard]] std::size_t said_page_bytes() const {
    std::string header(18, '\0');
    std::ifstream(path_, std::ios::binary).read(header.data(), static_cast<std::streamsize>(header.size()));
    const std::size_t said = big_endian(header, 16, 2) == 1 ? 65536 : big_endian(header, 16, 2);
    const bool power_of_two = said >= 512 && (said & (said - 1)) == 0;
    return power_of_two ? said : kPageBytes;
  }

  void scan(std::size_t page_bytes) {
    PageFile pages(path_, page_bytes);
    for (std::uint32_t number = 1; number <= pages.pages(); ++number) {
      if (const auto page = pages.page(number)) look_at(*page, number, pages);
      if (const auto older = pages.older_page(number)) look_at(*older, number, pages);
    }
  }

  void look_at(const std::string& page, std::uint32_t number, PageFile& pages) {
    switch (sort_of_page(page, number)) {
      case PageSort::rows_of_table:
        for (const RawCell& cell : cells_of(page, number, pages)) add_row(cell.record);
        return;
      case PageSort::entries_of_index:
        if (job_ != nullptr) return;
        for (const RawCell& cell : cells_of(page, number, pages)) add_entry(cell.record);
        return;
      case PageSort::other: return;
    }
  }

  void add_row(const RawRecord& record) {
    if (job_ != nullptr && (text_in(record, 1) == nullptr || *text_in(record, 1) != *job_)) return;
    if (auto event = event_in(record)) {
      std::pair<std::string, std::int64_t> key(event->envelope.job, event->accepted.position);
      found.emplace(std::move(key), *std::move(event));
    }
  }

  /// An entry of event_id: job, id, place.
  void add_entry(const RawRecord& record) {
    if (record.size() != 3 || text_in(record, 0) == nullptr || text_in(record, 1) == nullptr || number_in(record, 2) == nullptr) return;
    const std::int64_t place = *number_in(record, 2);
    if (place > kPositionBits && (place & kPositionBits) != 0) known[*text_in(record, 0)].insert(place & kPositionBits);
  }

  std::string path_;
  const std::string* job_;
};

void add_missing(std::vector<MissingEvents>& missing, const std::string& job, std::int64_t first, std::int64_t last) {
  if (first > last) return;
  if (!missing.empty() && missing.back().job == job && missing.back().last + 1 == first) {
    missing.back().last = last;
  } else {
    missing.push_back({job, first, last});
  }
}

/// `there` are the positions found, `named` those that the index knows.
void list_missing(std::vector<MissingEvents>& missing, const std::string& job, const std::set<std::int64_t>& there,
                  const std::set<std::int64_t>& named) {
  std::int64_t next = 1;
  for (const std::int64_t position : there) {
    add_missing(missing, job, next, position - 1);
    next = position + 1;
  }
  for (auto each = named.lower_bound(next); each != named.end(); ++each) add_missing(missing, job, *each, *each);
}

}  // namespace
}  // namespace sqlite

SalvagedEvents salvage_events(const std::string& path) {
  sqlite::Salvage salvage(path, nullptr);
  sqlite::Known there;
  SalvagedEvents out;
  for (auto& [key, event] : salvage.found) {
    there[key.first].insert(key.second);
    out.events.push_back(std::move(event));
  }
  for (const auto& [job, positions] : salvage.known) there[job];
  for (const auto& [job, positions] : there) sqlite::list_missing(out.missing, job, positions, salvage.known[job]);
  return out;
}

std::vector<AcceptedEvent> salvage_job(const std::string& path, const std::string& job, std::int64_t after) {
  std::vector<AcceptedEvent> out;
  for (auto& [key, event] : sqlite::Salvage(path, &job).found) {
    if (key.second > after) out.push_back(std::move(event));
  }
  return out;
}

}  // namespace fettle
