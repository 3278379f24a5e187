#pragma once

namespace fettle {

/// How a long computation tells how far it is and learns that it should stop. Stages get one from `app`; they own no thread.
class Progress {
 public:
  virtual ~Progress() = default;
  /// `done` of `all` steps are finished. Gives false when the computation should stop and give up its result.
  [[nodiscard]] virtual bool tell(long done, long all) = 0;
};

}  // namespace fettle
