#include "server/static_files.h"

#include <algorithm>

namespace fettle {
namespace {

/// "gzip" among the codings, and not with the weight 0.
bool takes_gzip(std::string_view accept) {
  std::string_view rest = accept;
  while (!rest.empty()) {
    const auto end = rest.find(',');
    std::string_view each = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    while (each.starts_with(' ')) each.remove_prefix(1);
    const auto semicolon = each.find(';');
    std::string_view name = each.substr(0, semicolon);
    while (name.ends_with(' ')) name.remove_suffix(1);
    if (!same_field_name(name, "gzip")) continue;
    const std::string_view weight = semicolon == std::string_view::npos ? std::string_view() : each.substr(semicolon);
    return weight.find_first_of("123456789") != std::string_view::npos || weight.empty();
  }
  return false;
}

bool names_tag(std::string_view if_none_match, const std::string& tag) {
  return if_none_match == "*" || if_none_match.find(tag) != std::string_view::npos;
}

}  // namespace

std::optional<HttpResponse> static_file(const std::vector<PageFile>& files, const std::string& path, const Incoming& incoming) {
  const std::string_view wanted = path == "/" ? std::string_view("/index.html") : std::string_view(path);
  const auto file = std::find_if(files.begin(), files.end(), [&](const PageFile& each) { return each.path == wanted; });
  if (file == files.end()) return std::nullopt;
  const bool packed = !file->gzipped.empty() && takes_gzip(field_of(incoming, "Accept-Encoding"));
  // The packed bytes are another answer, so they have a tag of their own.
  const std::string tag = "\"" + std::string(file->tag) + (packed ? "-gz\"" : "\"");
  const bool for_ever = wanted.starts_with("/assets/");
  HttpResponse out{200, std::string(file->type), {{"ETag", tag}, {"Vary", "Accept-Encoding"}}, {}};
  out.headers.emplace_back("Cache-Control", for_ever ? "public, max-age=31536000, immutable" : "no-cache");
  if (names_tag(field_of(incoming, "If-None-Match"), tag)) {
    out.status = 304;
    out.type.clear();
    return out;
  }
  if (packed) out.headers.emplace_back("Content-Encoding", "gzip");
  out.body = std::string(packed ? file->gzipped : file->bytes);
  return out;
}

HttpResponse no_page(Language language) {
  return {404, "text/plain", {{"Cache-Control", "no-cache"}}, sentence(Problem{"server.no_page", {}, {}}, language) + "\n"};
}

}  // namespace fettle
