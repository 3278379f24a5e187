#include "store_sqlite/group_commit.h"

namespace fettle::sqlite {

void GroupCommit::run(const Work& work) {
  Call call{&work, nullptr, false};
  std::unique_lock lock(mutex_);
  waiting_.push_back(&call);
  turn_.wait(lock, [&] { return call.done || !writing_; });
  if (!call.done) lead(lock);
  if (call.failed) std::rethrow_exception(call.failed);
}

void GroupCommit::lead(std::unique_lock<std::mutex>& lock) {
  writing_ = true;
  std::vector<Call*> calls;
  calls.swap(waiting_);
  lock.unlock();
  if (calls.size() == 1) {
    write_alone(*calls.front());
  } else {
    write_together(calls);
  }
  lock.lock();
  for (Call* call : calls) call->done = true;
  writing_ = false;
  turn_.notify_all();
}

void GroupCommit::write_together(const std::vector<Call*>& calls) {
  try {
    Transaction transaction(*writer_, Begins::writing);
    for (Call* call : calls) write_within(*call);
    transaction.commit();
    return;
  } catch (const std::exception&) {
    // One of them took the whole transaction with it, or the commit failed: each by itself, so that only the guilty one fails.
    for (Call* call : calls) call->failed = nullptr;
  }
  for (Call* call : calls) write_alone(*call);
}

/// In a savepoint of its own. Throws where SQLite gave up the whole transaction.
void GroupCommit::write_within(Call& call) {
  writer_->statement("savepoint call").run();
  bool keep = false;
  try {
    keep = (*call.work)(*writer_);
  } catch (const std::exception&) {
    if (!writer_->in_transaction()) throw;
    call.failed = std::current_exception();
  }
  if (!keep) writer_->statement("rollback to call").run();
  writer_->statement("release call").run();
}

void GroupCommit::write_alone(Call& call) {
  try {
    Transaction transaction(*writer_, Begins::writing);
    if ((*call.work)(*writer_)) transaction.commit();
  } catch (const std::exception&) {
    call.failed = std::current_exception();
  }
}

}  // namespace fettle::sqlite
