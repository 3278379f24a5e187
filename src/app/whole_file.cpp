#include "app/whole_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace fettle {
namespace {

bool wait_for_disk(const std::string& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC);
  if (file < 0) return false;
  const bool there = ::fsync(file) == 0;
  return ::close(file) == 0 && there;
}

Problem about(const char* code, const std::string& path) { return {code, {}, {verbatim("file", path)}}; }

/// `write` writes a file of the name it is given, and says whether it could.
template <class Write>
Problems put_in_place(const std::string& path, const Write& write) {
  std::error_code error;
  if (std::filesystem::exists(path, error)) return {about("app.file_exists", path)};
  const std::string unfinished = path + ".unfinished";
  const std::string folder = std::filesystem::absolute(path, error).parent_path().string();
  const bool whole = write(unfinished) && wait_for_disk(unfinished, O_RDONLY);
  if (whole) std::filesystem::rename(unfinished, path, error);
  if (whole && !error && wait_for_disk(folder, O_RDONLY | O_DIRECTORY)) return {};
  std::filesystem::remove(unfinished, error);
  return {about("app.cannot_write", path)};
}

}  // namespace

std::optional<std::string> read_whole_file(const std::string& path, std::uint64_t most_bytes, Problems& problems) {
  std::error_code error;
  const bool regular = std::filesystem::is_regular_file(path, error);
  const std::uint64_t size = regular ? std::filesystem::file_size(path, error) : 0;
  std::ifstream stream(path, std::ios::binary);
  if (!regular || error || !stream) {
    problems.push_back(about("app.cannot_read", path));
    return std::nullopt;
  }
  if (size > most_bytes) {
    problems.push_back({"app.larger_than", {}, {verbatim("file", path), count("mebibytes", static_cast<std::int64_t>(most_bytes >> 20U))}});
    return std::nullopt;
  }
  std::string out(size, '\0');
  stream.read(out.data(), static_cast<std::streamsize>(size));
  if (static_cast<std::uint64_t>(stream.gcount()) != size) problems.push_back(about("app.cannot_read", path));
  return static_cast<std::uint64_t>(stream.gcount()) == size ? std::optional(std::move(out)) : std::nullopt;
}

Problems write_whole_file(const std::string& path, std::string_view bytes) {
  return put_in_place(path, [&](const std::string& unfinished) {
    std::ofstream stream(unfinished, std::ios::binary | std::ios::trunc);
    stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    stream.close();
    return bool(stream);
  });
}

Problems copy_whole_file(const std::string& from, const std::string& to) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(from, error)) return {about("app.no_file", from)};
  return put_in_place(to, [&](const std::string& unfinished) {
    return std::filesystem::copy_file(from, unfinished, std::filesystem::copy_options::overwrite_existing, error) && !error;
  });
}

}  // namespace fettle
