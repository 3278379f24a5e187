#include "store_sqlite/judgement_rows.h"

namespace fettle::sqlite {
namespace {

const char* const kJudgementColumns = "select job, program, events, log_hash, verdicts, hash from judgement ";

StoredJudgement judgement_in(const Statement& row) {
  return {row.bytes(0), row.bytes(1), row.integer(2), row.bytes(3), row.bytes(4), row.bytes(5)};
}

}  // namespace

void keep_judgement_row(Connection& writer, const StoredJudgement& judgement) {
  const std::string hash = judgement_hash(judgement);
  writer.statement("delete from judgement where job = ? and program = ?").text(judgement.job).text(judgement.program).run();
  writer.statement("insert into judgement (job, program, events, log_hash, verdicts, hash) values (?, ?, ?, ?, ?, ?)")
      .text(judgement.job)
      .text(judgement.program)
      .number(judgement.events)
      .text(judgement.log_hash)
      .text(judgement.verdicts)
      .text(hash)
      .run();
}

std::vector<StoredJudgement> judgement_rows(Connection& reader, const std::string& job) {
  std::vector<StoredJudgement> out;
  Statement rows = reader.statement(std::string(kJudgementColumns) + "where job = ? order by number");
  rows.text(job);
  while (rows.step()) {
    StoredJudgement judgement = judgement_in(rows);
    if (judgement.hash == judgement_hash(judgement)) out.push_back(std::move(judgement));
  }
  return out;
}

std::vector<StoredJudgement> unverified_judgements(Connection& reader) {
  std::vector<StoredJudgement> out;
  Statement rows = reader.statement(std::string(kJudgementColumns) + "order by number");
  while (rows.step()) out.push_back(judgement_in(rows));
  return out;
}

}  // namespace fettle::sqlite
