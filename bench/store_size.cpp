// The store at full size: 100,000 jobs of 100 events and about 20 parts each, 10 million events. Prints how long each form of question
// takes, after it checked the answers against sums that were kept while the jobs were made. By hand, needs about 10 GB:
//   fettle_store_size <folder> [jobs]     makes the store if it is not in the folder yet, then asks
#include <algorithm>
#include <chrono>
#include <filesystem>
#include <functional>
#include <iostream>
#include <map>
#include <stdexcept>
#include <vector>

#include "store_sqlite/sqlite_store.h"

namespace fettle {
namespace {

constexpr std::int64_t kEventsOfJob = 100;
constexpr std::int64_t kJobsAtOnce = 100;
constexpr int kRepeats = 5;

class OneTime final : public Clock {
 public:
  std::string now() override { return "2031-05-04T08:12:00.000000Z"; }
};

void need(bool holds, const std::string& what) {
  if (!holds) throw std::runtime_error("void: " + what);
}

std::string padded(std::int64_t number, std::size_t digits) {
  const std::string text = std::to_string(number);
  return std::string(digits - std::min(digits, text.size()), '0') + text;
}

/// Spreads whole numbers, the same on every machine.
std::uint64_t spread(std::int64_t job, std::uint64_t about) {
  std::uint64_t z = static_cast<std::uint64_t>(job) * 0x9e37'79b9'7f4a'7c15U + about * 0xbf58'476d'1ce4'e5b9U;
  z = (z ^ (z >> 30U)) * 0xbf58'476d'1ce4'e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d0'49bb'1331'11ebU;
  return z ^ (z >> 31U);
}

const char* const kStates[] = {"as-new", "serviceable", "beyond", "too-close", "not-judged"};
const char* const kEngines[] = {"Curlew 3", "Grebe 12", "Tern 2", "Knot 4", "Lark 6", "Wren 1", "Avocet 8", "Plover 5"};

std::string day_of(std::uint64_t number) {
  return std::to_string(2021 + number / 336 % 10) + "-" + padded(static_cast<std::int64_t>(number / 28 % 12 + 1), 2) + "-" +
         padded(static_cast<std::int64_t>(number % 28 + 1), 2);
}

std::string job_of(std::int64_t job) { return "job-" + padded(job, 6); }

JobRow row_of(std::int64_t job) {
  const std::uint64_t day = spread(job, 1) % 3300;
  JobRow row{job_of(job),
             "Order " + padded(job * 7, 7),
             kEngines[spread(job, 2) % 8],
             "SN" + padded(static_cast<std::int64_t>(spread(job, 3) % 10'000'000), 7),
             day_of(day),
             day_of(day + spread(job, 4) % 20),
             {"person-" + padded(static_cast<std::int64_t>(spread(job, 5) % 40), 2)},
             kEventsOfJob,
             kEventsOfJob - 10,
             kStates[spread(job, 6) % 5],
             {}};
  if (spread(job, 7) % 2 == 0) row.people.push_back("person-99");
  const auto add = [&](const std::string& kind, std::int64_t count) {
    for (std::int64_t i = 1; i <= count; ++i) {
      row.parts.push_back({kind + "-" + std::to_string(i), kind, kStates[spread(job, 100 + row.parts.size()) % 5]});
    }
  };
  add("bore", static_cast<std::int64_t>(3 + spread(job, 8) % 4));
  add("main", 5);
  add("pin", 4);
  add("spring", static_cast<std::int64_t>(4 + spread(job, 9) % 4));
  return row;
}

std::vector<Envelope> events_of(std::int64_t job) {
  std::vector<Envelope> out;
  for (std::int64_t i = 1; i <= kEventsOfJob; ++i) {
    out.push_back({job_of(job), padded(static_cast<std::int64_t>(spread(job, static_cast<std::uint64_t>(1000 + i)) >> 1U), 32),
                   R"({"type":"ReadingTaken","version":1,"part":"bore-3","station":"mid","direction":"thrust","text":"+0,031","unit":"mm",)"
                   R"("setting":"first","round":1,"who":"Ada","made_at":"2031-05-04T10:12:00+02:00","device":"tablet-2","sequence":)" +
                       std::to_string(i) + "}"});
  }
  return out;
}

double seconds(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

void make(Store& store, std::int64_t jobs) {
  const auto there = static_cast<std::int64_t>(store.jobs().size());
  for (std::int64_t first = there; first < jobs; first += kJobsAtOnce) {
    std::vector<Envelope> events;
    const std::int64_t end = std::min(jobs, first + kJobsAtOnce);
    for (std::int64_t job = first; job < end; ++job) {
      for (Envelope& each : events_of(job)) events.push_back(std::move(each));
    }
    need(store.accept(events).ok(), "accept");
    for (std::int64_t job = first; job < end; ++job) store.keep_row(row_of(job));
    if (first % 10'000 == 0) std::cerr << first << " jobs\n";
  }
}

struct Form {
  std::string name;
  FindQuery query;
  std::function<bool(const JobRow&)> fits;
};

std::string small(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return text;
}

bool holds(const JobRow& row, const std::string& wanted) {
  return small(row.job + "\n" + row.name + "\n" + row.engine + "\n" + row.serial).find(wanted) != std::string::npos;
}

bool has_part(const JobRow& row, const std::optional<std::string>& part, const std::optional<std::string>& state) {
  return std::any_of(row.parts.begin(), row.parts.end(), [&](const PartRow& each) {
    return (!part || each.part == *part || each.kind == *part) && (!state || each.state == *state);
  });
}

bool has_person(const JobRow& row, const std::string& person) { return std::find(row.people.begin(), row.people.end(), person) != row.people.end(); }

std::vector<Form> forms() {
  const FindQuery all{{}, {}, {}, {}, {}, {}, 0, 50};
  std::vector<Form> out;
  const auto add = [&](const std::string& name, const std::function<void(FindQuery&)>& change, std::function<bool(const JobRow&)> fits) {
    FindQuery query = all;
    change(query);
    out.push_back({name, query, std::move(fits)});
  };
  add("all", [](FindQuery&) {}, [](const JobRow&) { return true; });
  add("all, from the 90,000th on", [](FindQuery& q) { q.skip = 90'000; }, [](const JobRow&) { return true; });
  add("engine, many", [](FindQuery& q) { q.engine = "curlew"; }, [](const JobRow& r) { return holds(r, "curlew"); });
  add("engine, one", [](FindQuery& q) { q.engine = "JOB-054321"; }, [](const JobRow& r) { return holds(r, "job-054321"); });
  add("engine, none", [](FindQuery& q) { q.engine = "nightjar"; }, [](const JobRow& r) { return holds(r, "nightjar"); });
  add("engine, one letter", [](FindQuery& q) { q.engine = "r"; }, [](const JobRow& r) { return holds(r, "r"); });
  add("part by id", [](FindQuery& q) { q.part = "bore-6"; }, [](const JobRow& r) { return has_part(r, "bore-6", {}); });
  add("part of every job", [](FindQuery& q) { q.part = "main-1"; }, [](const JobRow& r) { return has_part(r, "main-1", {}); });
  add("kind", [](FindQuery& q) { q.part = "bore"; }, [](const JobRow& r) { return has_part(r, "bore", {}); });
  add("state", [](FindQuery& q) { q.state = "beyond"; }, [](const JobRow& r) { return has_part(r, {}, "beyond"); });
  add("part and state", [](FindQuery& q) { q.part = "bore-2", q.state = "beyond"; }, [](const JobRow& r) { return has_part(r, "bore-2", "beyond"); });
  add("kind and state", [](FindQuery& q) { q.part = "spring", q.state = "too-close"; }, [](const JobRow& r) { return has_part(r, "spring", "too-close"); });
  add("days", [](FindQuery& q) { q.from = "2024-03-01", q.until = "2024-03-20"; },
      [](const JobRow& r) { return r.last_made_at >= "2024-03-01" && r.first_made_at <= "2024-03-20"; });
  add("days, nearly all", [](FindQuery& q) { q.from = "2021-03-01"; }, [](const JobRow& r) { return r.last_made_at >= "2021-03-01"; });
  add("person", [](FindQuery& q) { q.person = "person-07"; }, [](const JobRow& r) { return has_person(r, "person-07"); });
  add("person of half the jobs", [](FindQuery& q) { q.person = "person-99"; }, [](const JobRow& r) { return has_person(r, "person-99"); });
  add("all of it", [](FindQuery& q) { q.engine = "tern", q.part = "bore", q.state = "beyond", q.from = "2022-01-01", q.until = "2029-01-01", q.person = "person-99"; },
      [](const JobRow& r) {
        return holds(r, "tern") && has_part(r, "bore", "beyond") && r.last_made_at >= "2022-01-01" && r.first_made_at <= "2029-01-01" && has_person(r, "person-99");
      });
  add("all of it, of nearly all", [](FindQuery& q) { q.engine = "r", q.part = "bore", q.state = "beyond", q.from = "2021-01-01", q.person = "person-99"; },
      [](const JobRow& r) { return holds(r, "r") && has_part(r, "bore", "beyond") && r.last_made_at >= "2021-01-01" && has_person(r, "person-99"); });
  add("kind and person", [](FindQuery& q) { q.part = "main", q.person = "person-99"; },
      [](const JobRow& r) { return has_part(r, "main", {}) && has_person(r, "person-99"); });
  add("kind and days", [](FindQuery& q) { q.part = "main", q.until = "2030-01-01"; },
      [](const JobRow& r) { return has_part(r, "main", {}) && r.first_made_at <= "2030-01-01"; });
  return out;
}

std::map<std::string, std::int64_t> wanted_counts(std::int64_t jobs, const std::vector<Form>& asked) {
  std::map<std::string, std::int64_t> out;
  for (std::int64_t job = 0; job < jobs; ++job) {
    const JobRow row = row_of(job);
    for (const Form& form : asked) out[form.name] += form.fits(row) ? 1 : 0;
  }
  return out;
}

void ask(Store& store, const Form& form, std::int64_t wanted) {
  std::vector<double> times;
  for (int i = 0; i < kRepeats; ++i) {
    FoundJobs found{{}, 0};
    times.push_back(seconds([&] { found = store.find(form.query); }));
    need(found.all == wanted, form.name + ": " + std::to_string(found.all) + " instead of " + std::to_string(wanted));
    const auto left = static_cast<std::size_t>(wanted) - std::min(static_cast<std::size_t>(wanted), form.query.skip);
    need(found.rows.size() == std::min<std::size_t>(50, left), form.name + ": rows");
    for (const JobRow& row : found.rows) need(form.query.skip > 0 || form.fits(row_of(std::stoll(row.job.substr(4)))), form.name + ": " + row.job);
  }
  std::cout << form.name << ": " << wanted << " found, first " << times.front() * 1000 << " ms";
  std::sort(times.begin(), times.end());
  std::cout << ", middle " << times[times.size() / 2] * 1000 << " ms, longest " << times.back() * 1000 << " ms\n";
}

void run(const std::string& folder, std::int64_t jobs) {
  std::filesystem::create_directories(folder);
  OneTime time;
  const std::string path = folder + "/store";
  const auto store = std::move(open_sqlite_store(path, time, usual_sqlite_options())).value();
  const double making = seconds([&] { make(*store, jobs); });
  std::cout << jobs << " jobs, made in " << making << " s; " << std::filesystem::file_size(path) / 1'000'000 << " MB\n";
  const std::vector<Form> asked = forms();
  const auto wanted = wanted_counts(jobs, asked);
  for (const Form& form : asked) ask(*store, form, wanted.at(form.name));
  const std::int64_t late = static_cast<std::int64_t>(store->events("zz-late", 0).size());
  std::cout << "list of ids: " << seconds([&] { need(store->jobs().size() == static_cast<std::size_t>(jobs + (late > 0 ? 1 : 0)), "ids"); }) * 1000 << " ms\n";
  const std::string middle = job_of(jobs / 2);
  std::vector<AcceptedEvent> events;
  std::cout << "a job of " << kEventsOfJob << " events opened: " << seconds([&] { events = store->events(middle, 0); }) * 1000 << " ms\n";
  need(events.size() == static_cast<std::size_t>(kEventsOfJob) && chain_breaks(events).empty(), "events");
  const double writing = seconds([&] {
    for (std::int64_t i = late; i < late + 200; ++i) need(store->accept({{"zz-late", padded(i, 32), "one more"}}).ok(), "late event");
  });
  std::cout << "an event accepted: " << writing / 200 * 1000 << " ms\n";
}

}  // namespace
}  // namespace fettle

int main(int argc, char** argv) {
  if (argc < 2) {
    std::cerr << "fettle_store_size <folder> [jobs]\n";
    return 2;
  }
  try {
    fettle::run(argv[1], argc > 2 ? std::stoll(argv[2]) : 100'000);
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
  return 0;
}
