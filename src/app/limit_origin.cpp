#include "app/limit_origin.h"

#include <algorithm>

namespace fettle {

Message origin_message(const Limit& limit) {
  const LimitOrigin& origin = limit.origin;
  const std::string book = origin.book + (origin.edition.empty() ? "" : ", " + origin.edition);
  if (origin.rule_of_thumb) {
    return {"origin.thumb", {book.empty() ? word("source", "origin.no_source") : verbatim("source", book),
                             origin.decision.empty() ? word("who", "origin.nobody") : verbatim("who", origin.decision)}};
  }
  if (origin.page.empty()) return {"words.one", {verbatim("word", book)}};
  return {"origin.book", {verbatim("book", book), verbatim("page", origin.page)}};
}

std::string thumb_sign(const Limit& limit) { return limit.origin.rule_of_thumb ? " " + std::string(kThumbSign) : std::string(); }

Message said_by(Message said, bool by_thumb) {
  if (!by_thumb) return said;
  return {"said.by_thumb", {list("said", {std::move(said)})}};
}

std::vector<std::string> thumb_limits_at_work(const JudgedJob& judged) {
  std::vector<std::string> out;
  for (const auto& kept : judged.job.limits) {
    const Limit& limit = kept.value;
    if (!limit.origin.rule_of_thumb || limit.role != LimitRole::service) continue;
    const auto& verdicts = judged.judgement.verdicts;
    const bool any = std::any_of(verdicts.begin(), verdicts.end(), [&](const Verdict& each) { return each.limit == limit.id && each.word != VerdictWord::not_judged; });
    if (any) out.push_back(limit.id);
  }
  return out;
}

}  // namespace fettle
