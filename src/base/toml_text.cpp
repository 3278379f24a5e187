#include "base/toml_text.h"

#include <algorithm>

namespace fettle {
namespace {

/// What a control character is written as, and nothing for all others.
std::string escape_of(char c) {
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  constexpr unsigned char kFirstPrintable = 0x20;
  constexpr unsigned char kDelete = 0x7F;
  switch (c) {
    case '"': return "\\\"";
    case '\\': return "\\\\";
    case '\n': return "\\n";
    case '\r': return "\\r";
    case '\t': return "\\t";
    default: break;
  }
  const auto byte = static_cast<unsigned char>(c);
  if (byte >= kFirstPrintable && byte != kDelete) return {};
  return std::string("\\u00") + kDigits[byte / kDigits.size()] + kDigits[byte % kDigits.size()];
}

/// "{ key = value, ... }"
std::string inline_table(const std::vector<std::string>& entries) {
  std::string inside;
  for (const std::string& entry : entries) inside += (inside.empty() ? "" : ", ") + entry;
  return "{ " + inside + " }";
}

bool is_bare(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-'; }

}  // namespace

std::string toml_text(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const std::string escape = escape_of(c);
    if (escape.empty()) {
      out += c;
    } else {
      out += escape;
    }
  }
  return out + "\"";
}

std::string toml_list(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& each : texts) out += (out.empty() ? "" : ", ") + toml_text(each);
  return "[" + out + "]";
}

std::string toml_key(std::string_view key) {
  const bool bare = !key.empty() && std::all_of(key.begin(), key.end(), is_bare);
  return bare ? std::string(key) : toml_text(key);
}

void TomlText::table(std::string_view head) { text_ += "\n" + std::string(head) + "\n"; }

void TomlText::line(std::string_view key, const std::string& value) { text_ += toml_key(key) + " = " + value + "\n"; }

void TomlText::text(std::string_view key, std::string_view value) {
  if (!value.empty()) line(key, toml_text(value));
}

void TomlText::text_if(std::string_view key, const std::optional<std::string>& value) {
  if (value) text(key, *value);
}

void TomlText::list(std::string_view key, const std::vector<std::string>& values) {
  if (!values.empty()) line(key, toml_list(values));
}

void TomlText::truth(std::string_view key, bool value) { line(key, value ? "true" : "false"); }

void TomlText::whole(std::string_view key, std::int64_t value) { line(key, std::to_string(value)); }

void TomlText::tables(std::string_view key, const std::vector<std::vector<std::string>>& entries) {
  if (entries.empty()) return;
  text_ += toml_key(key) + " = [\n";
  for (const auto& table : entries) text_ += "  " + inline_table(table) + ",\n";
  text_ += "]\n";
}

void TomlText::table_on_a_line(std::string_view key, const std::vector<std::string>& entries) { line(key, inline_table(entries)); }

void TomlText::comment(std::string_view line) {
  std::string shown(line);
  std::replace_if(shown.begin(), shown.end(), [](char c) { return !escape_of(c).empty() && c != '"' && c != '\\'; }, '?');
  text_ += "# " + shown + "\n";
}

}  // namespace fettle
