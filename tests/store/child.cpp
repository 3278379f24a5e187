#include "store/child.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <iostream>
#include <stdexcept>

namespace fettle {
namespace {

/// One write of less than a page of the pipe is whole or not at all, also from several threads.
void tell_line(int pipe, const std::string& line) {
  const std::string text = line + "\n";
  if (::write(pipe, text.data(), text.size()) != static_cast<ssize_t>(text.size())) ::_exit(3);
}

[[noreturn]] void run(int pipe, const std::function<void(const Child::Tell& tell)>& work) {
  try {
    work([&](const std::string& line) { tell_line(pipe, line); });
  } catch (const std::exception& error) {
    std::cerr << "child: " << error.what() << "\n";
    ::_exit(2);
  }
  ::_exit(0);
}

}  // namespace

Child::Child(const std::function<void(const Tell& tell)>& work) {
  std::array<int, 2> ends{};
  if (::pipe(ends.data()) != 0) throw std::runtime_error("no pipe");
  process_ = ::fork();
  if (process_ < 0) throw std::runtime_error("no process");
  if (process_ == 0) {
    ::close(ends[0]);
    run(ends[1], work);
  }
  ::close(ends[1]);
  pipe_ = ends[0];
}

Child::~Child() {
  kill();
  (void)lines();
  ::close(pipe_);
}

void Child::kill() {
  if (process_ > 0) ::kill(process_, SIGKILL);
}

bool Child::read_some() {
  std::array<char, 4096> bytes{};
  const ssize_t count = ::read(pipe_, bytes.data(), bytes.size());
  if (count > 0) told_.append(bytes.data(), static_cast<std::size_t>(count));
  return count > 0;
}

void Child::wait_for(std::size_t lines) {
  while (static_cast<std::size_t>(std::count(told_.begin(), told_.end(), '\n')) < lines && read_some()) {
  }
}

std::vector<std::string> Child::lines() {
  while (read_some()) {
  }
  if (process_ > 0) {
    int status = 0;
    ::waitpid(process_, &status, 0);
    ended_well_ = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    process_ = -1;
  }
  std::vector<std::string> out;
  std::size_t begin = 0;
  for (auto end = told_.find('\n'); end != std::string::npos; end = told_.find('\n', begin)) {
    out.push_back(told_.substr(begin, end - begin));
    begin = end + 1;
  }
  return out;
}

}  // namespace fettle
