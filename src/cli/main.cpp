#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <string>
#include <vector>

#include "cli/exit_code.h"

#include "cli/commands.h"

namespace {

volatile std::sig_atomic_t asked_to_stop = 0;

void ask_to_stop(int) { asked_to_stop = 1; }

/// Writes how far a long computation is to the terminal, and stops it when the person presses Ctrl-C.
class TerminalProgress final : public fettle::Progress {
 public:
  [[nodiscard]] bool tell(long done, long all) override {
    const long percent = all > 0 ? 100 * done / all : 100;
    if (percent != shown_ && isatty(STDERR_FILENO) == 1) {
      std::fprintf(stderr, "\r%3ld %%", percent);
      if (done == all) std::fprintf(stderr, "\r     \r");
      std::fflush(stderr);
      shown_ = percent;
    }
    return asked_to_stop == 0;
  }

 private:
  long shown_ = -1;
};

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGINT, ask_to_stop);
  TerminalProgress progress;
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  const fettle::RunResult result = fettle::run(arguments, isatty(STDOUT_FILENO) == 1, progress);
  std::fwrite(result.error.data(), 1, result.error.size(), stderr);
  const bool written = std::fwrite(result.out.data(), 1, result.out.size(), stdout) == result.out.size();
  const bool flushed = std::fflush(stdout) == 0;
  return written && flushed ? result.exit_code : fettle::kWorldFailed;
}
