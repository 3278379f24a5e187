#include "server/answers.h"


namespace fettle {
namespace {

// Nothing of a page may come from elsewhere, and nothing written into a page runs. Pictures that the page draws are data or blob.
constexpr std::string_view kSecurity =
    "Content-Security-Policy: default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'self'; "
    "frame-ancestors 'none'\r\n"
    "X-Content-Type-Options: nosniff\r\n"
    "X-Frame-Options: DENY\r\n"
    "Referrer-Policy: no-referrer\r\n"
    "Cross-Origin-Resource-Policy: same-origin\r\n"
    "Cross-Origin-Opener-Policy: same-origin\r\n";

std::string_view reason_of(int status) {
  switch (status) {
    case 200: return "OK";
    case 304: return "Not Modified";
    case 400: return "Bad Request";
    case 401: return "Unauthorized";
    case 403: return "Forbidden";
    case 404: return "Not Found";
    case 405: return "Method Not Allowed";
    case 408: return "Request Timeout";
    case 409: return "Conflict";
    case 413: return "Content Too Large";
    case 417: return "Expectation Failed";
    case 421: return "Misdirected Request";
    case 422: return "Unprocessable Content";
    case 429: return "Too Many Requests";
    case 431: return "Request Header Fields Too Large";
    case 500: return "Internal Server Error";
    case 503: return "Service Unavailable";
    default: return "Answer";
  }
}

}  // namespace

std::vector<SaidProblem> said(const Problems& problems, Language language) {
  std::vector<SaidProblem> out;
  for (const Problem& each : problems) {
    const std::string key = "problem." + each.code;
    out.push_back({each.code, sentence(Message{key, each.arguments}, language), sentence(Message{key + ".do", each.arguments}, language)});
  }
  return out;
}

HttpResponse refused(int status, const Problems& problems, Language language) {
  return {status, "application/json", {}, refusal_json(said(problems, language))};
}

HttpResponse answered(std::string json) { return {200, "application/json", {}, std::move(json)}; }

Language language_of_browser(std::string_view accept_language) {
  std::string_view rest = accept_language;
  while (!rest.empty()) {
    const auto end = rest.find(',');
    std::string_view each = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    while (each.starts_with(' ')) each.remove_prefix(1);
    const std::string_view tag = each.substr(0, each.find_first_of("-; "));
    if (tag == "de" || tag == "DE") return Language::german;
    if (tag == "en" || tag == "EN") return Language::english;
  }
  return Language::english;
}

std::string head_of(const HttpResponse& response, std::size_t length, bool keeps_open) {
  std::string out = "HTTP/1.1 " + std::to_string(response.status) + " " + std::string(reason_of(response.status)) + "\r\n";
  if (!response.type.empty()) {
    const bool text = response.type.starts_with("text/") && response.type.find("charset") == std::string::npos;
    out += "Content-Type: " + response.type + (text ? "; charset=utf-8" : "") + "\r\n";
  }
  bool cached = false;
  for (const auto& [name, value] : response.headers) {
    out += name + ": " + value + "\r\n";
    cached = cached || name == "Cache-Control";
  }
  if (!cached) out += "Cache-Control: no-store\r\n";
  out += kSecurity;
  if (response.status != 304) out += "Content-Length: " + std::to_string(length) + "\r\n";
  return out + (keeps_open ? "Connection: keep-alive\r\n\r\n" : "Connection: close\r\n\r\n");
}

std::string head_of_stream() {
  return "HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\nCache-Control: no-store\r\n" + std::string(kSecurity) + "Connection: close\r\n\r\n";
}

}  // namespace fettle
