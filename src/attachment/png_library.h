#pragma once

#include <png.h>

#include <csetjmp>
#include <cstddef>
#include <string>
#include <string_view>

namespace fettle {

/// What is needed of a PNG to write its pixels down again. The pointers live as long as their reader.
struct PngShape {
  png_uint_32 width;
  png_uint_32 height;
  int depth;
  int colour;
  png_colorp palette;
  int palette_size;
  png_bytep alpha;
  int alpha_size;
  png_color_16p transparent;
};

/// A PNG being read, its pixels never narrower than a byte. Nothing is printed; every function gives false if libpng gave up, and holds
/// nothing that would have to be destroyed when it does.
class PngReader {
 public:
  explicit PngReader(std::string_view bytes) : rest_(bytes) {}
  PngReader(const PngReader&) = delete;
  PngReader& operator=(const PngReader&) = delete;
  ~PngReader();

  [[nodiscard]] bool read_header();
  /// Bytes of a row. Needs: the header was read.
  [[nodiscard]] std::size_t row() const { return png_get_rowbytes(png_, info_); }
  /// Into room for all rows. Needs: the header was read.
  [[nodiscard]] bool decode(unsigned char* to);
  /// Needs: decoded, because the chunks looked for may stand behind the pixels.
  [[nodiscard]] PngShape shape() const;
  [[nodiscard]] std::string_view exif() const;

 private:
  static void give(png_structp png, png_bytep to, png_size_t size);

  std::jmp_buf back_{};
  std::string_view rest_;
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

/// A PNG being written into a text.
class PngWriter {
 public:
  PngWriter() = default;
  PngWriter(const PngWriter&) = delete;
  PngWriter& operator=(const PngWriter&) = delete;
  ~PngWriter();

  [[nodiscard]] bool encode(const PngShape& shape, const unsigned char* rows, std::size_t row);
  [[nodiscard]] const std::string& bytes() const { return out_; }

 private:
  static void take(png_structp png, png_bytep from, png_size_t size) noexcept;

  std::jmp_buf back_{};
  std::string out_;
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

}  // namespace fettle
