#include <fstream>
#include <iostream>
#include <string_view>

#include "checks.h"

namespace {

/// Writes docs/ERRORS.md anew. Gives the exit code.
int write_document(const std::filesystem::path& root) {
  const auto tree = fettle::house::read_source_tree(root);
  const std::filesystem::path path = root / "docs" / "ERRORS.md";
  std::ofstream out(path, std::ios::binary);
  out << fettle::house::errors_document(tree);
  out.close();
  std::cout << (out ? "written: " : "cannot be written: ") << path.string() << "\n";
  return out ? 0 : 2;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 3 && std::string_view(argv[2]) == "--write") return write_document(argv[1]);
  return fettle::house::run_check(argc, argv, "check_texts", fettle::house::check_texts);
}
