#include "attachment/png_library.h"

#include <algorithm>
#include <array>

namespace fettle {
namespace {

/// Everything but the pixels, their palette, transparency and orientation: passed over unread, so that none of it can be a bomb.
constexpr std::array<png_byte, 85> kPassedOver = {
    'b', 'K', 'G', 'D', 0, 'c', 'H', 'R', 'M', 0, 'g', 'A', 'M', 'A', 0, 'h', 'I', 'S', 'T', 0, 'i', 'C', 'C', 'P', 0, 'i', 'T', 'X', 'T',
    0,   'o', 'F', 'F', 's', 0, 'p', 'C', 'A', 'L', 0, 'p', 'H', 'Y', 's', 0, 's', 'B', 'I', 'T', 0, 's', 'C', 'A', 'L', 0, 's', 'P', 'L',
    'T', 0,   's', 'R', 'G', 'B', 0, 's', 'T', 'E', 'R', 0, 't', 'E', 'X', 't', 0, 't', 'I', 'M', 'E', 0, 'z', 'T', 'X', 't', 0};
constexpr int kChunkNames = kPassedOver.size() / 5;
constexpr png_alloc_size_t kMostInChunk = 1U << 20U;
constexpr png_uint_32 kLongestSide = 0x7FFFFFFF;
constexpr int kCompression = 6;

[[noreturn]] void jump_back(png_structp png, png_const_charp /*said*/) { std::longjmp(*static_cast<std::jmp_buf*>(png_get_error_ptr(png)), 1); }

void say_nothing(png_structp /*png*/, png_const_charp /*said*/) {}

}  // namespace

PngReader::~PngReader() { png_destroy_read_struct(&png_, &info_, nullptr); }

void PngReader::give(png_structp png, png_bytep to, png_size_t size) {
  auto* rest = static_cast<std::string_view*>(png_get_io_ptr(png));
  if (rest->size() < size) png_error(png, "cut off");
  std::copy_n(rest->begin(), size, to);
  rest->remove_prefix(size);
}

bool PngReader::read_header() {
  if (setjmp(back_) != 0) return false;
  png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, &back_, jump_back, say_nothing);
  info_ = png_ == nullptr ? nullptr : png_create_info_struct(png_);
  if (info_ == nullptr) return false;
  png_set_read_fn(png_, &rest_, give);
  png_set_user_limits(png_, kLongestSide, kLongestSide);
  png_set_chunk_malloc_max(png_, kMostInChunk);
  png_set_keep_unknown_chunks(png_, PNG_HANDLE_CHUNK_NEVER, kPassedOver.data(), kChunkNames);
  png_read_info(png_, info_);
  png_set_packing(png_);
  png_set_interlace_handling(png_);
  png_read_update_info(png_, info_);
  return true;
}

bool PngReader::decode(unsigned char* to) {
  if (setjmp(back_) != 0) return false;
  const int passes = png_get_interlace_type(png_, info_) == PNG_INTERLACE_ADAM7 ? PNG_INTERLACE_ADAM7_PASSES : 1;
  for (int pass = 0; pass < passes; ++pass) {
    for (png_uint_32 y = 0; y < png_get_image_height(png_, info_); ++y) png_read_row(png_, to + png_get_rowbytes(png_, info_) * y, nullptr);
  }
  png_read_end(png_, info_);
  return true;
}

PngShape PngReader::shape() const {
  PngShape out{};
  png_get_IHDR(png_, info_, &out.width, &out.height, &out.depth, &out.colour, nullptr, nullptr, nullptr);
  if (out.colour == PNG_COLOR_TYPE_PALETTE) png_get_PLTE(png_, info_, &out.palette, &out.palette_size);
  if (png_get_valid(png_, info_, PNG_INFO_tRNS) != 0) png_get_tRNS(png_, info_, &out.alpha, &out.alpha_size, &out.transparent);
  return out;
}

std::string_view PngReader::exif() const {
  png_bytep bytes = nullptr;
  png_uint_32 size = 0;
  if (png_get_eXIf_1(png_, info_, &size, &bytes) == 0) return {};
  return {static_cast<const char*>(static_cast<const void*>(bytes)), size};
}

PngWriter::~PngWriter() { png_destroy_write_struct(&png_, &info_); }

void PngWriter::take(png_structp png, png_bytep from, png_size_t size) noexcept {
  static_cast<std::string*>(png_get_io_ptr(png))->append(from, from + size);
}

bool PngWriter::encode(const PngShape& shape, const unsigned char* rows, std::size_t row) {
  if (setjmp(back_) != 0) return false;
  png_ = png_create_write_struct(PNG_LIBPNG_VER_STRING, &back_, jump_back, say_nothing);
  info_ = png_ == nullptr ? nullptr : png_create_info_struct(png_);
  if (info_ == nullptr) return false;
  png_set_write_fn(png_, &out_, take, nullptr);
  png_set_user_limits(png_, kLongestSide, kLongestSide);
  png_set_compression_level(png_, kCompression);
  png_set_IHDR(png_, info_, shape.width, shape.height, shape.depth, shape.colour, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
               PNG_FILTER_TYPE_DEFAULT);
  if (shape.palette != nullptr) png_set_PLTE(png_, info_, shape.palette, shape.palette_size);
  if (shape.alpha_size > 0) png_set_tRNS(png_, info_, shape.alpha, shape.alpha_size, shape.transparent);
  png_write_info(png_, info_);
  png_set_packing(png_);
  for (png_uint_32 y = 0; y < shape.height; ++y) png_write_row(png_, rows + row * y);
  png_write_end(png_, nullptr);
  return true;
}

}  // namespace fettle
