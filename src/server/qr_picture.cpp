#include "server/qr_picture.h"

#include <qrencode.h>

#include <memory>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr int kQuietRim = 4;

struct FreesCode {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

std::string escaped_title(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else {
      out += c;
    }
  }
  return out;
}

/// Each run of dark squares of a row as one bar.
std::string bars(const QRcode& code) {
  std::string out;
  for (int row = 0; row < code.width; ++row) {
    for (int from = 0; from < code.width;) {
      int to = from;
      while (to < code.width && (code.data[row * code.width + to] & 1U) != 0) ++to;
      if (to > from) {
        const std::string length = std::to_string(to - from);
        out += "M" + std::to_string(from + kQuietRim) + " " + std::to_string(row + kQuietRim) + "h" + length + "v1h-" + length + "z";
      }
      from = to + 1;
    }
  }
  return out;
}

}  // namespace

std::string qr_picture(const std::string& text, const std::string& title) {
  const std::unique_ptr<QRcode, FreesCode> code(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M));
  FETTLE_ASSERT(code != nullptr, text);
  const std::string size = std::to_string(code->width + 2 * kQuietRim);
  return R"(<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 )" + size + " " + size + R"("><title>)" + escaped_title(title) +
         R"(</title><rect width=")" + size + R"(" height=")" + size + R"(" fill="#fff"/><path fill="#000" d=")" + bars(*code) + R"("/></svg>)";
}

}  // namespace fettle
