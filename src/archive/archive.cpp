#include "archive/archive.h"

#include <algorithm>
#include <set>

#include "archive/zip_directory.h"
#include "base/document.h"

namespace fettle {
namespace {

constexpr std::uint32_t kTypeOfMode = 0170000;
constexpr std::uint32_t kPlainFile = 0100000;
constexpr std::uint32_t kFolder = 0040000;

bool is_part_of_path(std::string_view part) { return !part.empty() && part != "." && part != ".."; }

bool is_control(char letter) { return static_cast<unsigned char>(letter) < 0x20 || letter == 0x7F; }
bool is_wrong_letter(char letter) { return letter == '\\' || letter == ':' || is_control(letter); }

bool is_folder(const ZipEntry& entry) { return entry.name.ends_with('/'); }

/// A link, a device, or a folder that is called like a file.
bool is_neither(const ZipEntry& entry) {
  const std::uint32_t type = entry.mode.value_or(0) & kTypeOfMode;
  return type != 0 && type != kPlainFile && !(type == kFolder && is_folder(entry));
}

Problem too_large(const Place& place) {
  return {"archive.too_large", place, {count("most", static_cast<std::int64_t>(kMostPackedBytes >> 30U))}};
}

/// The name as it may be shown: what a terminal could take for an order is a question mark.
std::string shown(std::string_view name) {
  if (!is_utf8(name)) return "?";
  std::string out(name);
  std::replace_if(out.begin(), out.end(), is_control, '?');
  return out;
}

/// Looks at names as they come: each once, and none both a file and a folder of others.
class Names {
 public:
  void look_at(const std::string& name, bool folder, const Place& place, Problems& problems) {
    if (!may_be_packed(name)) {
      problems.push_back({"archive.name", place, {verbatim("name", shown(name))}});
    } else if (names_.contains(name) || lies_in_file(name) || (!folder && holds_others(name))) {
      problems.push_back({"archive.name_twice", place, {verbatim("name", name)}});
    }
    names_.insert(name);
    if (!folder) files_.insert(name);
  }

 private:
  [[nodiscard]] bool lies_in_file(std::string_view name) const {
    for (auto slash = name.find('/'); slash != std::string_view::npos; slash = name.find('/', slash + 1)) {
      if (files_.contains(name.substr(0, slash))) return true;
    }
    return false;
  }
  [[nodiscard]] bool holds_others(const std::string& name) const {
    const auto next = names_.lower_bound(name + '/');
    return next != names_.end() && next->starts_with(name + '/');
  }

  std::set<std::string, std::less<>> names_;
  std::set<std::string, std::less<>> files_;
};

std::string without_slash(const std::string& name) { return name.ends_with('/') ? name.substr(0, name.size() - 1) : name; }

void look_at(const ZipEntry& entry, const Place& place, Problems& problems) {
  const auto told = [&](std::string code) {
    problems.push_back({std::move(code), place, {verbatim("name", shown(entry.name))}});
  };
  if ((entry.flags & kEncrypted) != 0) {
    told("archive.encrypted");
  } else if (entry.method != kStored && entry.method != kDeflated) {
    told("archive.method");
  } else if (is_neither(entry)) {
    told("archive.link");
  } else if (is_folder(entry) && entry.size != 0) {
    told("archive.file_damaged");
  }
}

Problems look_at_all(const std::vector<ZipEntry>& entries, const Place& place) {
  Problems problems;
  Names names;
  std::uint64_t size = 0;
  for (const ZipEntry& each : entries) {
    names.look_at(without_slash(each.name), is_folder(each), place, problems);
    look_at(each, place, problems);
    size += each.size;
  }
  if (size > kMostPackedBytes) problems.push_back(too_large(place));
  return problems;
}

}  // namespace

bool may_be_packed(std::string_view name) {
  if (name.size() > kLongestPackedName || !is_utf8(name)) return false;
  for (const char letter : name) {
    if (is_wrong_letter(letter)) return false;
  }
  while (true) {
    const std::size_t slash = name.find('/');
    if (!is_part_of_path(name.substr(0, slash))) return false;
    if (slash == std::string_view::npos) return true;
    name.remove_prefix(slash + 1);
  }
}

Problems why_not_packed(const std::vector<PackedFile>& files, const Place& place) {
  Problems problems;
  Names names;
  std::uint64_t size = 0;
  for (const PackedFile& each : files) {
    names.look_at(each.name, false, place, problems);
    size += each.bytes.size();
  }
  if (files.size() > kMostPackedFiles) {
    problems.push_back({"archive.too_many", place, {count("most", static_cast<std::int64_t>(kMostPackedFiles))}});
  }
  if (size > kMostPackedBytes) problems.push_back(too_large(place));
  return problems;
}

Result<std::vector<PackedFile>> unpack(std::string_view bytes, const Place& place) {
  const Result<std::vector<ZipEntry>> entries = read_zip_directory(bytes, place);
  if (!entries.ok()) return entries.problems();
  Problems problems = look_at_all(entries.value(), place);
  if (!problems.empty()) return problems;
  std::vector<PackedFile> files;
  for (const ZipEntry& each : entries.value()) {
    if (is_folder(each)) continue;
    if (std::optional<std::string> content = zip_bytes(bytes, each)) {
      files.push_back({each.name, *std::move(content)});
    } else {
      problems.push_back({"archive.file_damaged", place, {verbatim("name", each.name)}});
    }
  }
  if (!problems.empty()) return problems;
  return files;
}

}  // namespace fettle
