#pragma once

#include <string_view>
#include <vector>

namespace fettle {

/// One file of the page as it was built into the program.
struct PageFile {
  std::string_view path;  ///< "/index.html", "/assets/index-1a2b.js"
  std::string_view type;  ///< for Content-Type
  std::string_view bytes;
  std::string_view gzipped;  ///< the same, packed; empty where that is no smaller
  std::string_view tag;      ///< hash of the bytes, for ETag
};

/// Empty where the program was built without its page.
[[nodiscard]] const std::vector<PageFile>& page_files();

}  // namespace fettle
