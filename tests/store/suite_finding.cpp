#include <gmock/gmock.h>

#include <algorithm>

#include "numeric/xoshiro.h"
#include "store/store_suite.h"

namespace fettle {
namespace {

std::string small(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
  }
  return text;
}

bool holds(const std::string& field, const std::string& wanted) { return small(field).find(small(wanted)) != std::string::npos; }

bool part_fits(const PartRow& part, const FindQuery& query) {
  return (!query.part || part.part == *query.part || part.kind == *query.part) && (!query.state || part.state == *query.state);
}

/// What the words of index_rows.h mean, row by row.
bool fits(const JobRow& row, const FindQuery& query) {
  if (query.engine && !holds(row.job, *query.engine) && !holds(row.name, *query.engine) && !holds(row.engine, *query.engine) &&
      !holds(row.serial, *query.engine)) {
    return false;
  }
  if (query.from && (row.last_made_at.empty() || row.last_made_at < *query.from)) return false;
  if (query.until && (row.first_made_at.empty() || row.first_made_at > *query.until)) return false;
  if (query.person && std::find(row.people.begin(), row.people.end(), *query.person) == row.people.end()) return false;
  if (!query.part && !query.state) return true;
  return std::any_of(row.parts.begin(), row.parts.end(), [&](const PartRow& part) { return part_fits(part, query); });
}

FoundJobs found_by_hand(const std::vector<JobRow>& rows, const FindQuery& query) {
  FoundJobs out{{}, 0};
  for (const JobRow& row : rows) {
    if (!fits(row, query)) continue;
    const auto nth = static_cast<std::size_t>(out.all++);
    if (nth < query.skip || nth - query.skip >= query.most) continue;
    JobRow shown = row;
    std::erase_if(shown.parts, [&](const PartRow& part) { return !part_fits(part, query); });
    out.rows.push_back(shown);
  }
  return out;
}

/// Each condition is asked for or not, so that all combinations come up.
FindQuery some_query(std::uint64_t number) {
  Xoshiro256 bits = Xoshiro256::stream(91, number);
  const auto draw = [&](std::size_t below) { return bits.next() % below; };
  const auto one_of = [&](std::vector<std::string> texts) { return texts[draw(texts.size())]; };
  FindQuery query{{}, {}, {}, {}, {}, {}, 0, 20};
  if (draw(3) == 0) query.engine = one_of({"curlew", "REBE 1", "job-00001", "engine 7", "s12", "", "%", "_", "nowhere", "3\x1fs", "\x1f", "Curlew 3\x1fS1"});
  if (draw(3) == 0) query.part = one_of({"bore-1", "bore", "main", "pin-2", "no-part", ""});
  if (draw(3) == 0) query.state = one_of({"as-new", "beyond", "too-close", "unheard-of", ""});
  if (draw(3) == 0) query.from = one_of({"2031-05-09", "2031-05-20", "2031-06-01", ""});
  if (draw(3) == 0) query.until = one_of({"2031-05-09", "2031-05-20", "2031-04-01", ""});
  if (draw(3) == 0) query.person = one_of({"Ada", "Bo", "ada", "Nobody", ""});
  query.skip = draw(3) == 0 ? draw(30) : 0;
  query.most = draw(4) == 0 ? draw(3) : 20;
  return query;
}

std::string shown(const FindQuery& query) {
  std::string out;
  const auto add = [&](const char* name, const std::optional<std::string>& value) { out += value ? std::string(name) + "=" + *value + " " : ""; };
  add("engine", query.engine);
  add("part", query.part);
  add("state", query.state);
  add("from", query.from);
  add("until", query.until);
  add("person", query.person);
  return out + "skip " + std::to_string(query.skip) + " most " + std::to_string(query.most);
}

TEST_P(StoreSuite, FindsWhatALookAtEveryRowFinds) {
  std::vector<JobRow> rows;
  for (std::int64_t i = 0; i < 120; ++i) rows.push_back(some_row(i));
  for (std::size_t i = 0; i < rows.size(); ++i) store->keep_row(rows[(i * 53) % rows.size()]);
  int fitting = 0;
  for (std::uint64_t number = 0; number < 600; ++number) {
    const FindQuery query = some_query(number);
    const FoundJobs wanted = found_by_hand(rows, query);
    const FoundJobs found = store->find(query);
    ASSERT_EQ(found.all, wanted.all) << shown(query);
    ASSERT_EQ(found.rows, wanted.rows) << shown(query);
    fitting += wanted.all > 0 ? 1 : 0;
  }
  EXPECT_GT(fitting, 150);
}

}  // namespace
}  // namespace fettle
