#include <unistd.h>

#include <cstdio>
#include <string>
#include <vector>

#include "cli/commands.h"

int main(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  const fettle::RunResult result = fettle::run(arguments, isatty(STDOUT_FILENO) == 1);
  std::fwrite(result.error.data(), 1, result.error.size(), stderr);
  const bool written = std::fwrite(result.out.data(), 1, result.out.size(), stdout) == result.out.size();
  const bool flushed = std::fflush(stdout) == 0;
  constexpr int kWorldFailed = 3;
  return written && flushed ? result.exit_code : kWorldFailed;
}
