#include "base/document.h"

#include <toml++/toml.h>

#include <algorithm>
#include <functional>

namespace fettle {
namespace {

constexpr std::size_t kLargestDocument = 4U << 20U;
constexpr int kDeepest = 32;

Place place_of(const toml::source_region& region, const std::string& file) {
  return {file, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

DocumentNode convert(const toml::node& node, const std::string& file, int depth);

DocumentNode::Table convert_table(const toml::table& table, const std::string& file, int depth) {
  DocumentNode::Table out;
  for (const auto& [key, child] : table) out.push_back({std::string(key.str()), convert(child, file, depth + 1)});
  // As written, not as sorted: problems and ids follow the file.
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.node.place < b.node.place; });
  return out;
}

DocumentNode convert(const toml::node& node, const std::string& file, int depth) {
  DocumentNode out{std::string(), place_of(node.source(), file)};
  FETTLE_ASSERT(depth < kDeepest, "document nested too deeply");
  if (const auto* table = node.as_table()) {
    out.value = convert_table(*table, file, depth);
  } else if (const auto* array = node.as_array()) {
    DocumentNode::Array items;
    for (const auto& child : *array) items.push_back(convert(child, file, depth + 1));
    out.value = std::move(items);
  } else if (const auto* text = node.as_string()) {
    out.value = text->get();
  } else if (const auto* number = node.as_integer()) {
    out.value = number->get();
  } else if (const auto* truth = node.as_boolean()) {
    out.value = truth->get();
  } else if (const auto* real = node.as_floating_point()) {
    out.value = DocumentNode::BareFloat{real->get()};
  } else {
    // Dates and times of TOML: kept as a bare value that every reader refuses with "put it in quotes".
    out.value = DocumentNode::BareFloat{0.0};
  }
  return out;
}

/// Behind the text in quotes that begins at `from`: of one line, or of many between three quotes.
std::size_t behind_quotes(std::string_view text, std::size_t from) {
  const char quote = text[from];
  const std::string three(3, quote);
  const bool many_lines = text.substr(from).starts_with(three);
  std::size_t at = from + (many_lines ? three.size() : 1);
  while (at < text.size()) {
    if (text[at] == '\\' && quote == '"') {
      at += 2;
    } else if (many_lines && text.substr(at).starts_with(three)) {
      return at + three.size();
    } else if (!many_lines && (text[at] == quote || text[at] == '\n')) {
      return at + 1;
    } else {
      ++at;
    }
  }
  return text.size();
}

/// toml++ recurses; brackets are counted before it sees the text, but not those in quotes and comments.
bool nested_too_deeply(std::string_view text) {
  int depth = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (c == '#') at = std::min(text.find('\n', at), text.size());
    if (c == '"' || c == '\'') at = behind_quotes(text, at) - 1;
    if (c == '[' || c == '{') ++depth;
    if ((c == ']' || c == '}') && depth > 0) --depth;
    if (depth >= kDeepest - 4) return true;
  }
  return false;
}

}  // namespace

const DocumentNode* DocumentNode::find(std::string_view key) const {
  const Table* entries = table();
  if (entries == nullptr) return nullptr;
  const auto found = std::find_if(entries->begin(), entries->end(), [&](const auto& entry) { return entry.key == key; });
  return found == entries->end() ? nullptr : &found->node;
}

bool has_control_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : '\0');
    if (byte < 0x20 || byte == 0x7f || (byte == 0xc2 && next >= 0x80 && next < 0xa0)) return true;
  }
  return false;
}

bool is_utf8(std::string_view text) {
  std::size_t i = 0;
  while (i < text.size()) {
    const auto lead = static_cast<unsigned char>(text[i]);
    const int length = lead < 0x80 ? 1 : lead < 0xC2 ? 0 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : lead < 0xF5 ? 4 : 0;
    if (length == 0 || lead == 0 || i + static_cast<std::size_t>(length) > text.size()) return false;
    for (int k = 1; k < length; ++k) {
      const auto next = static_cast<unsigned char>(text[i + static_cast<std::size_t>(k)]);
      if ((next & 0xC0U) != 0x80U) return false;
      const bool overlong = k == 1 && ((lead == 0xE0 && next < 0xA0) || (lead == 0xF0 && next < 0x90));
      const bool surrogate = k == 1 && lead == 0xED && next >= 0xA0;
      const bool beyond = k == 1 && lead == 0xF4 && next >= 0x90;
      if (overlong || surrogate || beyond) return false;
    }
    i += static_cast<std::size_t>(length);
  }
  return true;
}

Result<DocumentNode> read_document(std::string_view text, const std::string& file) {
  if (text.size() > kLargestDocument) {
    return Problem{"document.too_large", {file, {}, {}}, {count("most", static_cast<std::int64_t>(kLargestDocument >> 20U))}};
  }
  if (!is_utf8(text)) return Problem{"document.not_utf8", {file, {}, {}}, {}};
  if (nested_too_deeply(text)) return Problem{"document.too_deep", {file, {}, {}}, {}};
  try {
    const toml::table root = toml::parse(text, file);
    return DocumentNode{convert_table(root, file, 0), {file, 1, 1}};
  } catch (const toml::parse_error& error) {
    return Problem{"document.syntax", place_of(error.source(), file), {verbatim("detail", std::string(error.description()))}};
  }
}

}  // namespace fettle
