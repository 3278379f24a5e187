#include "app/text_files.h"

#include <filesystem>
#include <fstream>
#include <iterator>

namespace fettle {
namespace {

constexpr std::uintmax_t kLargestFile = 64U << 20U;

}  // namespace

std::optional<std::string> read_text_file(const std::string& path, Problems& problems) {
  std::error_code error;
  const bool regular = std::filesystem::is_regular_file(path, error);
  const auto size = regular ? std::filesystem::file_size(path, error) : 0;
  if (!regular || error) {
    problems.push_back(Problem{"app.no_file", {}, {verbatim("file", path)}});
    return std::nullopt;
  }
  if (size > kLargestFile) {
    problems.push_back(Problem{"app.file_too_large", {}, {verbatim("file", path)}});
    return std::nullopt;
  }
  std::ifstream stream(path, std::ios::binary);
  std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  if (stream.bad()) {
    problems.push_back(Problem{"app.no_file", {}, {verbatim("file", path)}});
    return std::nullopt;
  }
  return text;
}

Problems write_new_text_file(const std::string& path, const std::string& text) {
  std::error_code error;
  if (std::filesystem::exists(path, error)) return {Problem{"app.file_exists", {}, {verbatim("file", path)}}};
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  if (!folder.empty()) std::filesystem::create_directories(folder, error);
  std::ofstream stream(path, std::ios::binary);
  stream << text;
  stream.close();
  if (error || !stream) return {Problem{"app.cannot_write", {}, {verbatim("file", path)}}};
  return {};
}

Problems prepare_folder(const std::string& folder, const std::vector<std::string>& names) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error || !std::filesystem::is_directory(folder, error)) return {Problem{"app.cannot_write", {}, {verbatim("file", folder)}}};
  std::string first;
  std::int64_t taken = 0;
  for (const std::string& name : names) {
    const std::filesystem::path path = std::filesystem::path(folder) / name;
    if (!std::filesystem::exists(path, error)) continue;
    if (std::filesystem::is_directory(path, error) && std::filesystem::is_empty(path, error)) continue;
    if (++taken == 1) first = name;
  }
  if (taken == 0) return {};
  return {Problem{"app.names_taken", {}, {verbatim("folder", folder), count("taken", taken), verbatim("first", first)}}};
}

}  // namespace fettle
