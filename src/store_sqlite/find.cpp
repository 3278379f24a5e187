#include "store_sqlite/find.h"

#include <algorithm>

#include "store_sqlite/job_rows.h"

namespace fettle::sqlite {
namespace {

/// The separator between the fields stands in no field that people type. Who asks for it must be answered field by field.
bool asks_for_separator(const FindQuery& query) { return query.engine && query.engine->find(kBetweenFields) != std::string::npos; }

/// Begins with the table that the other conditions are then looked up for, in the order of jobs: the narrowest first.
class Question {
 public:
  void from(const std::string& table, const std::string& alias) {
    out_.sql += first_ ? "select " + alias + ".job from " + table : " cross join " + table + " on " + alias + ".job = " + job_;
    if (first_) job_ = alias + ".job";
    first_ = false;
  }
  void where(const std::string& condition, const std::string& value) {
    conditions_ += (conditions_.empty() ? " where " : " and ") + condition;
    out_.values.push_back(value);
  }
  FindQuestion done() && {
    out_.sql += conditions_ + " order by " + job_;
    return std::move(out_);
  }

 private:
  FindQuestion out_;
  std::string conditions_;
  std::string job_;
  bool first_ = true;
};

bool scans(const FindQuery& query) { return query.engine || query.from || query.until; }

void ask_fields(Question& question, const FindQuery& query) {
  if (query.from) question.where("r.last_made_at <> '' and r.last_made_at >= ?", *query.from);
  if (query.until) question.where("r.first_made_at <> '' and r.first_made_at <= ?", *query.until);
  if (!query.engine) return;
  const std::string engine = in_small_letters(*query.engine);
  question.where("instr(r.found, ?) > 0", engine);
}

bool fits(const PartRow& part, const FindQuery& query) {
  const bool named = !query.part || part.part == *query.part || part.kind == *query.part;
  return named && (!query.state || part.state == *query.state);
}

bool fits_a_field(const JobRow& row, const std::string& engine) {
  const std::string wanted = in_small_letters(engine);
  const auto holds = [&](const std::string& field) { return in_small_letters(field).find(wanted) != std::string::npos; };
  return holds(row.job) || holds(row.name) || holds(row.engine) || holds(row.serial);
}

}  // namespace

FindQuestion find_question(const FindQuery& query) {
  Question question;
  if (query.part || query.state) question.from("job_with w", "w");
  if (query.person) question.from("job_person p", "p");
  const bool first = !query.part && !query.state && !query.person;
  if (first) question.from("job_row r indexed by job_scan", "r");
  if (!first && scans(query)) question.from("job_row r indexed by job_scan", "r");
  if (query.part || query.state) {
    question.where("w.named = ?", query.part.value_or(""));
    question.where("w.state = ?", query.state.value_or(""));
  }
  if (query.person) question.where("p.person = ?", *query.person);
  ask_fields(question, query);
  return std::move(question).done();
}

FoundJobs find_jobs(Connection& reader, const FindQuery& query) {
  FoundJobs out{{}, 0};
  // No part and no state has an empty id, which would mean any.
  if (query.part == std::string() || query.state == std::string()) return out;
  const FindQuestion question = find_question(query);
  Statement asked = reader.statement(question.sql);
  for (const std::string& value : question.values) asked.text(value);
  const bool by_field = asks_for_separator(query);
  while (asked.step()) {
    const auto nth = static_cast<std::size_t>(out.all);
    const bool shown = nth >= query.skip && nth - query.skip < query.most;
    if (!shown && !by_field) {
      ++out.all;
      continue;
    }
    auto found = read_job_row(reader, asked.bytes(0));
    if (by_field && found && !fits_a_field(found->row, *query.engine)) continue;
    ++out.all;
    if (!shown || !found || !found->as_kept) continue;
    std::erase_if(found->row.parts, [&](const PartRow& part) { return !fits(part, query); });
    out.rows.push_back(std::move(found->row));
  }
  return out;
}

}  // namespace fettle::sqlite
