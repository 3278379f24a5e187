#include "cli/paragraph.h"

#include <sstream>

#include "cli/table.h"

namespace fettle {

std::string paragraph(const std::string& lead, const std::string& text) {
  const std::string indent(shown_width(lead), ' ');
  std::string out;
  std::string line = lead;
  bool begun = false;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (begun && shown_width(line) + 1 + shown_width(word) > kPageWidth) {
      out += line + "\n";
      line = indent;
      begun = false;
    }
    line += (begun ? " " : "") + word;
    begun = true;
  }
  return out + line + "\n";
}

}  // namespace fettle
