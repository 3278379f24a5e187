#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>

namespace fettle {

using TextTable = std::map<std::string, std::string, std::less<>>;

/// Reads "key = sentence" lines; '#' begins a comment line; blank lines are skipped; "\n" in a sentence is a line break. Adds to
/// `table`. A line that is none of these, or a key given twice, is an InternalError: the files are part of the program.
void read_text_file(std::string_view text, std::string_view name, TextTable& table);

}  // namespace fettle
