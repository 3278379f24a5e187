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
