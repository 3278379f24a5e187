#include "server/line_splitter.h"

#include "entry/line_template.h"

namespace fettle {

std::vector<std::string> LineSplitter::lines_of(std::string_view bytes) {
  std::vector<std::string> out;
  for (const char c : bytes) {
    if (c != '\n' && c != '\r') {
      if (begun_.size() <= LineTemplate::kMostLineBytes) begun_ += c;
    } else if (!begun_.empty()) {
      out.push_back(std::move(begun_));
      begun_.clear();
    }
  }
  return out;
}

}  // namespace fettle
