// For check_archive.py: our archives from files and back, so that another program's can be held beside them.
//   archive_tool pack <archive> <folder> <name>...     the named files of the folder, in this order
//   archive_tool unpack <archive> <folder>             into an empty folder; a refusal prints its codes and ends with 2
#include "archive/archive.h"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

namespace {

std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  FETTLE_ASSERT(in.good(), path.string());
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void write_file(const std::filesystem::path& path, const std::string& bytes) {
  std::filesystem::create_directories(path.parent_path());
  std::ofstream out(path, std::ios::binary);
  out << bytes;
  FETTLE_ASSERT(out.good(), path.string());
}

int pack_named(const std::vector<std::string>& arguments) {
  const std::filesystem::path folder = arguments.at(2);
  std::vector<fettle::PackedFile> files;
  for (std::size_t i = 3; i < arguments.size(); ++i) files.push_back({arguments.at(i), read_file(folder / arguments.at(i))});
  write_file(arguments.at(1), fettle::pack(files));
  return 0;
}

int unpack_into(const std::vector<std::string>& arguments) {
  const auto files = fettle::unpack(read_file(arguments.at(1)), {arguments.at(1), std::nullopt, std::nullopt});
  if (!files.ok()) {
    for (const fettle::Problem& each : files.problems()) std::cout << each.code << '\n';
    return 2;
  }
  for (const fettle::PackedFile& each : files.value()) {
    write_file(std::filesystem::path(arguments.at(2)) / each.name, each.bytes);
    std::cout << each.name << '\n';
  }
  return 0;
}

}  // namespace

int main(int count, char** values) {
  const std::vector<std::string> arguments(values + 1, values + count);
  return arguments.at(0) == "pack" ? pack_named(arguments) : unpack_into(arguments);
}
