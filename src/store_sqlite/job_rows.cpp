#include "store_sqlite/job_rows.h"

#include <algorithm>
#include <iterator>

#include "base/digest.h"

namespace fettle::sqlite {
namespace {

std::string row_seal(const JobRow& row) {
  const std::string events = std::to_string(row.events);
  const std::string readings = std::to_string(row.readings);
  const std::string people = std::to_string(row.people.size());
  std::vector<std::string_view> fields = {row.job,    row.name, row.engine,  row.serial, row.first_made_at, row.last_made_at,
                                          row.word,   events,   readings, people};
  fields.insert(fields.end(), row.people.begin(), row.people.end());
  for (const PartRow& part : row.parts) fields.insert(fields.end(), {part.part, part.kind, part.state});
  return digest(fields);
}

std::string found_by(const JobRow& row) {
  return in_small_letters(row.job + kBetweenFields + row.name + kBetweenFields + row.engine + kBetweenFields + row.serial);
}

void write_people(Connection& writer, const JobRow& row) {
  writer.statement("delete from job_person where job = ?").text(row.job).run();
  for (const std::string& person : row.people) {
    writer.statement("insert into job_person (job, person) values (?, ?)").text(row.job).text(person).run();
  }
}

void write_parts(Connection& writer, const JobRow& row) {
  writer.statement("delete from job_part where job = ?").text(row.job).run();
  std::int64_t nth = 0;
  for (const PartRow& part : row.parts) {
    writer.statement("insert into job_part (job, nth, part, kind, state) values (?, ?, ?, ?, ?)")
        .text(row.job)
        .number(++nth)
        .text(part.part)
        .text(part.kind)
        .text(part.state)
        .run();
  }
}

/// Only what differs: the ways to ask of one job lie far apart, each on a page of its own.
void write_asked(Connection& writer, const std::string& job, const std::vector<AskedPart>& before, const std::vector<AskedPart>& after) {
  std::vector<AskedPart> gone;
  std::vector<AskedPart> fresh;
  std::set_difference(before.begin(), before.end(), after.begin(), after.end(), std::back_inserter(gone));
  std::set_difference(after.begin(), after.end(), before.begin(), before.end(), std::back_inserter(fresh));
  for (const AskedPart& each : gone) {
    writer.statement("delete from job_with where named = ? and state = ? and job = ?").text(each.named).text(each.state).text(job).run();
  }
  for (const AskedPart& each : fresh) {
    // One that is there although it should not be: left by damage, and right now.
    writer.statement("insert or ignore into job_with (named, state, job) values (?, ?, ?)").text(each.named).text(each.state).text(job).run();
  }
}

void write_row(Connection& writer, const JobRow& row) {
  const std::string found = found_by(row);
  const std::string seal = row_seal(row);
  writer
      .statement("insert or replace into job_row (job, found, first_made_at, last_made_at, name, engine, serial, events, readings, word, seal) "
                 "values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
      .text(row.job)
      .text(found)
      .text(row.first_made_at)
      .text(row.last_made_at)
      .text(row.name)
      .text(row.engine)
      .text(row.serial)
      .number(row.events)
      .number(row.readings)
      .text(row.word)
      .text(seal)
      .run();
}

void read_people_and_parts(Connection& reader, JobRow& row) {
  Statement people = reader.statement("select person from job_person where job = ? order by person");
  people.text(row.job);
  while (people.step()) row.people.push_back(people.bytes(0));
  Statement parts = reader.statement("select part, kind, state from job_part where job = ? order by nth");
  parts.text(row.job);
  while (parts.step()) row.parts.push_back({parts.bytes(0), parts.bytes(1), parts.bytes(2)});
}

}  // namespace

std::string in_small_letters(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

std::vector<AskedPart> asked_parts(const JobRow& row) {
  std::vector<AskedPart> out;
  for (const PartRow& part : row.parts) {
    for (const std::string& named : {part.part, part.kind, std::string()}) {
      out.push_back({named, part.state});
      if (!named.empty()) out.push_back({named, {}});
    }
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

void keep_job_row(Connection& writer, const JobRow& row) {
  const auto old = read_job_row(writer, row.job);
  const JobRow none{};
  const JobRow& before = old ? old->row : none;
  if (!old || before.people != row.people) write_people(writer, row);
  if (!old || before.parts != row.parts) {
    write_parts(writer, row);
    write_asked(writer, row.job, asked_parts(before), asked_parts(row));
  }
  write_row(writer, row);
}

void drop_job_rows(Connection& writer) {
  for (const char* table : {"job_row", "job_person", "job_part", "job_with"}) writer.statement(std::string("delete from ") + table).run();
}

std::optional<ReadRow> read_job_row(Connection& reader, const std::string& job) {
  Statement asked =
      reader.statement("select job, name, engine, serial, first_made_at, last_made_at, events, readings, word, seal, found from job_row where job = ?");
  if (!asked.text(job).step()) return std::nullopt;
  ReadRow out{{asked.bytes(0), asked.bytes(1), asked.bytes(2), asked.bytes(3), asked.bytes(4), asked.bytes(5), {}, asked.integer(6),
               asked.integer(7), asked.bytes(8), {}},
              false};
  read_people_and_parts(reader, out.row);
  out.as_kept = asked.bytes(9) == row_seal(out.row) && asked.bytes(10) == found_by(out.row);
  return out;
}

}  // namespace fettle::sqlite
