#include <sys/time.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "cli/exit_code.h"

#include "cli/commands.h"
#include "server/serve.h"
#include "store_sqlite/page_salvage.h"
#include "store_sqlite/sqlite_store.h"

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

/// The wall clock of this machine, in UTC.
class SystemClock final : public fettle::Clock {
 public:
  [[nodiscard]] std::string now() override {
    timeval moment{};
    gettimeofday(&moment, nullptr);
    std::tm parts{};
    gmtime_r(&moment.tv_sec, &parts);
    char text[64];
    std::snprintf(text, sizeof text, "%04d-%02d-%02dT%02d:%02d:%02d.%06ldZ", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday, parts.tm_hour,
                  parts.tm_min, parts.tm_sec, moment.tv_usec);
    return text;
  }
};

void say_at_once(const std::string& line) {
  std::fputs((line + "\n").c_str(), stdout);
  std::fflush(stdout);
}

fettle::RecordKeeper embedded_records() {
  return {[](const std::string& path, fettle::Clock& clock, bool create) {
            fettle::SqliteOptions options = fettle::usual_sqlite_options();
            options.create = create;
            return fettle::open_sqlite_store(path, clock, options);
          },
          [](const std::string& path) { return fettle::check_sqlite_backup(path); },
          [](const std::string& path) { return fettle::salvage_events(path); }};
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGINT, ask_to_stop);
  TerminalProgress progress;
  SystemClock time;
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  const fettle::RunResult result = fettle::run(arguments, isatty(STDOUT_FILENO) == 1, fettle::World{progress, time, embedded_records(), fettle::serve, say_at_once});
  std::fwrite(result.error.data(), 1, result.error.size(), stderr);
  const bool written = std::fwrite(result.out.data(), 1, result.out.size(), stdout) == result.out.size();
  const bool flushed = std::fflush(stdout) == 0;
  return written && flushed ? result.exit_code : fettle::kWorldFailed;
}
