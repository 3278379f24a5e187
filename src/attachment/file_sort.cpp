#include "attachment/file_sort.h"

#include <algorithm>
#include <array>

namespace fettle {
namespace {

using namespace std::string_view_literals;

/// The brand at bytes 8 to 11 of a file whose bytes 4 to 7 are "ftyp".
constexpr std::array kHeicBrands = {"heic"sv, "heix"sv, "heim"sv, "heis"sv, "hevc"sv, "hevx"sv, "mif1"sv, "msf1"sv};
constexpr std::array kAvifBrands = {"avif"sv, "avis"sv};

template <class Brands>
bool has_brand(std::string_view bytes, const Brands& brands) {
  return bytes.size() >= 12 && bytes.substr(4, 4) == "ftyp" &&
         std::find(brands.begin(), brands.end(), bytes.substr(8, 4)) != brands.end();
}

bool is_webp(std::string_view bytes) { return bytes.starts_with("RIFF") && bytes.size() >= 12 && bytes.substr(8, 4) == "WEBP"; }

}  // namespace

FileSort sort_of(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xD8\xFF")) return FileSort::jpeg;
  if (bytes.starts_with("\x89PNG\r\n\x1A\n")) return FileSort::png;
  if (bytes.starts_with("%PDF-")) return FileSort::pdf;
  return FileSort::other;
}

std::string_view other_picture(std::string_view bytes) {
  if (has_brand(bytes, kHeicBrands)) return "HEIC";
  if (has_brand(bytes, kAvifBrands)) return "AVIF";
  if (is_webp(bytes)) return "WebP";
  if (bytes.starts_with("II*\0"sv) || bytes.starts_with("MM\0*"sv)) return "TIFF";
  if (bytes.starts_with("GIF87a") || bytes.starts_with("GIF89a")) return "GIF";
  if (bytes.starts_with("BM")) return "BMP";
  return {};
}

bool has_pdf_end(std::string_view bytes) {
  constexpr std::size_t kLookedAt = 1024;
  return bytes.substr(bytes.size() - std::min(bytes.size(), kLookedAt)).find("%%EOF") != std::string_view::npos;
}

}  // namespace fettle
