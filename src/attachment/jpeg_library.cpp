#include "attachment/jpeg_library.h"

namespace fettle {
namespace {

/// A small file can hold thousands of passes over a large picture; cameras write ten.
constexpr int kMostPasses = 50;

[[noreturn]] void jump_back(j_common_ptr info) { std::longjmp(reinterpret_cast<JpegTrouble*>(info->err)->back, 1); }

void remember_warning(j_common_ptr info, int level) {
  if (level < 0) reinterpret_cast<JpegTrouble*>(info->err)->complained = true;
}

void say_nothing(j_common_ptr /*info*/) {}

void stop_endless_passes(j_common_ptr info) {
  if (reinterpret_cast<j_decompress_ptr>(info)->input_scan_number > kMostPasses) jump_back(info);
}

}  // namespace

JpegTrouble::JpegTrouble() : manager{}, back{}, complained(false) {
  jpeg_std_error(&manager);
  manager.error_exit = jump_back;
  manager.emit_message = remember_warning;
  manager.output_message = say_nothing;
}

JpegReader::JpegReader(std::string_view bytes, JpegTrouble& trouble) : bytes_(bytes), trouble_(trouble), progress_{}, info_{} {
  info_.err = &trouble_.manager;
  progress_.progress_monitor = stop_endless_passes;
}

JpegReader::~JpegReader() { jpeg_destroy_decompress(&info_); }

bool JpegReader::read_header() {
  if (setjmp(trouble_.back) != 0) return false;
  jpeg_create_decompress(&info_);
  info_.progress = &progress_;
  jpeg_save_markers(&info_, JPEG_APP0 + 1, 0xFFFF);
  jpeg_mem_src(&info_, static_cast<const unsigned char*>(static_cast<const void*>(bytes_.data())), bytes_.size());
  return jpeg_read_header(&info_, TRUE) == JPEG_HEADER_OK;
}

bool JpegReader::decode(unsigned char* to, std::size_t row) {
  if (setjmp(trouble_.back) != 0) return false;
  info_.out_color_space = info_.num_components == 4 ? JCS_CMYK : JCS_RGB;
  info_.dct_method = JDCT_ISLOW;
  jpeg_start_decompress(&info_);
  while (info_.output_scanline < info_.output_height) {
    JSAMPROW line = to + row * info_.output_scanline;
    jpeg_read_scanlines(&info_, &line, 1);
  }
  jpeg_finish_decompress(&info_);
  return true;
}

JpegWriter::JpegWriter(JpegTrouble& trouble) : trouble_(trouble), sink_{}, info_{} { info_.err = &trouble_.manager; }

JpegWriter::~JpegWriter() { jpeg_destroy_compress(&info_); }

void JpegWriter::begin(j_compress_ptr info) noexcept {
  auto* sink = reinterpret_cast<Sink*>(info->dest);
  sink->manager.next_output_byte = sink->room.data();
  sink->manager.free_in_buffer = sink->room.size();
}

boolean JpegWriter::full(j_compress_ptr info) noexcept {
  auto* sink = reinterpret_cast<Sink*>(info->dest);
  sink->out->append(sink->room.begin(), sink->room.end());
  begin(info);
  return TRUE;
}

void JpegWriter::end(j_compress_ptr info) noexcept {
  auto* sink = reinterpret_cast<Sink*>(info->dest);
  sink->out->append(sink->room.begin(), sink->room.end() - static_cast<std::ptrdiff_t>(sink->manager.free_in_buffer));
}

/// Needs: `back` is set.
void JpegWriter::create() {
  jpeg_create_compress(&info_);
  sink_.manager.init_destination = begin;
  sink_.manager.empty_output_buffer = full;
  sink_.manager.term_destination = end;
  sink_.out = &out_;
  info_.dest = &sink_.manager;
}

bool JpegWriter::copy_coefficients(JpegReader& from) {
  if (setjmp(trouble_.back) != 0) return false;
  create();
  jvirt_barray_ptr* coefficients = jpeg_read_coefficients(&from.info());
  jpeg_copy_critical_parameters(&from.info(), &info_);
  info_.optimize_coding = TRUE;
  jpeg_write_coefficients(&info_, coefficients);
  jpeg_finish_compress(&info_);
  jpeg_finish_decompress(&from.info());
  return true;
}

bool JpegWriter::encode(const Rows& rows, int quality, bool grey) {
  if (setjmp(trouble_.back) != 0) return false;
  create();
  info_.image_width = static_cast<JDIMENSION>(rows.width);
  info_.image_height = static_cast<JDIMENSION>(rows.height);
  info_.input_components = 3;
  info_.in_color_space = JCS_RGB;
  jpeg_set_defaults(&info_);
  jpeg_set_colorspace(&info_, grey ? JCS_GRAYSCALE : JCS_YCbCr);
  jpeg_set_quality(&info_, quality, TRUE);
  info_.comp_info[0].h_samp_factor = 1;
  info_.comp_info[0].v_samp_factor = 1;
  info_.dct_method = JDCT_ISLOW;
  info_.optimize_coding = TRUE;
  jpeg_start_compress(&info_, TRUE);
  while (info_.next_scanline < info_.image_height) {
    JSAMPROW line = const_cast<unsigned char*>(rows.bytes) + rows.row * info_.next_scanline;
    jpeg_write_scanlines(&info_, &line, 1);
  }
  jpeg_finish_compress(&info_);
  return true;
}

}  // namespace fettle
