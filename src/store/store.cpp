#include "store/store.h"

#include "base/digest.h"

namespace fettle {

std::string judgement_hash(const StoredJudgement& judgement) {
  return long_digest({judgement.job, judgement.program, std::to_string(judgement.events), judgement.log_hash, judgement.verdicts});
}

}  // namespace fettle
