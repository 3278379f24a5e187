#pragma once

#include <cstddef>
#include <cstdio>

#include <jpeglib.h>

#include <array>
#include <csetjmp>
#include <string>
#include <string_view>
#include <utility>

namespace fettle {

/// What libjpeg does when it meets trouble: nothing is printed, warnings are remembered, an error jumps back. Every function that calls libjpeg
/// sets `back` first, and holds nothing that would have to be destroyed between there and the call.
struct JpegTrouble {
  jpeg_error_mgr manager;  ///< first, so that libjpeg's pointer to it is one to the whole
  std::jmp_buf back;
  bool complained;         ///< libjpeg's own count begins anew with every picture that is written

  JpegTrouble();
  JpegTrouble(const JpegTrouble&) = delete;
  JpegTrouble& operator=(const JpegTrouble&) = delete;
};

/// A JPEG being read. Every function gives false if libjpeg gave up.
class JpegReader {
 public:
  JpegReader(std::string_view bytes, JpegTrouble& trouble);
  JpegReader(const JpegReader&) = delete;
  JpegReader& operator=(const JpegReader&) = delete;
  ~JpegReader();

  [[nodiscard]] bool read_header();
  /// Into room for width * height pixels of `step` bytes. Needs: the header was read.
  [[nodiscard]] bool decode(unsigned char* to, std::size_t row);
  [[nodiscard]] jpeg_decompress_struct& info() { return info_; }

 private:
  std::string_view bytes_;
  JpegTrouble& trouble_;
  jpeg_progress_mgr progress_;
  jpeg_decompress_struct info_;
};

/// A JPEG being written into a text.
class JpegWriter {
 public:
  explicit JpegWriter(JpegTrouble& trouble);
  JpegWriter(const JpegWriter&) = delete;
  JpegWriter& operator=(const JpegWriter&) = delete;
  ~JpegWriter();

  [[nodiscard]] bool copy_coefficients(JpegReader& from);
  struct Rows {
    const unsigned char* bytes;
    std::size_t row;
    int width;
    int height;
  };
  [[nodiscard]] bool encode(const Rows& rows, int quality, bool grey);
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  /// What libjpeg fills, and where it goes when it is full.
  struct Sink {
    jpeg_destination_mgr manager;  ///< first, as above
    std::string* out;
    std::array<JOCTET, 16384> room;
  };
  static void begin(j_compress_ptr info) noexcept;
  static boolean full(j_compress_ptr info) noexcept;
  static void end(j_compress_ptr info) noexcept;
  void create();

  JpegTrouble& trouble_;
  std::string out_;
  Sink sink_;
  jpeg_compress_struct info_;
};

}  // namespace fettle
