#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// Bytes as they come, to whole lines: each ends at a line feed or a carriage return; empty ones are passed over. Of a line that is longer
/// than any gauge sends only the beginning is kept, one byte more than a template reads, so that it is never taken for a reading.
class LineSplitter {
 public:
  [[nodiscard]] std::vector<std::string> lines_of(std::string_view bytes);
  /// What was begun is forgotten: half a line may look like a whole one.
  void forget() { begun_.clear(); }

 private:
  std::string begun_;
};

}  // namespace fettle
