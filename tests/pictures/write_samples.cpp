// Writes every sample picture into a folder, to be looked at: write_pictures <folder>.
#include <filesystem>
#include <fstream>
#include <iostream>

#include "drawing/pdf.h"
#include "drawing/png.h"
#include "drawing/svg.h"
#include "pictures/samples.h"

namespace {

void write(const std::filesystem::path& path, const std::string& bytes) { std::ofstream(path, std::ios::binary) << bytes; }

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "write_pictures <folder>\n";
    return 2;
  }
  const std::filesystem::path folder = arguments[1];
  std::filesystem::create_directories(folder);
  for (const auto& [language, end] : {std::pair(fettle::Language::english, "en"), std::pair(fettle::Language::german, "de")}) {
    std::vector<fettle::Drawing> pages;
    for (const fettle::SamplePicture& each : fettle::sample_pictures(language)) {
      const std::string name = each.name + "." + end;
      write(folder / (name + ".svg"), fettle::svg(each.drawing, {fettle::SvgPalette::paper, "p"}));
      write(folder / (name + ".night.svg"), fettle::svg(each.drawing, {fettle::SvgPalette::night, "p"}));
      write(folder / (name + ".page.svg"), fettle::svg(each.drawing, {fettle::SvgPalette::page, "p"}));
      write(folder / (name + ".png"), fettle::png(each.drawing, {fettle::Palette::paper, 2.0}));
      write(folder / (name + ".night.png"), fettle::png(each.drawing, {fettle::Palette::night, 2.0}));
      pages.push_back(each.drawing);
    }
    write(folder / ("all." + std::string(end) + ".pdf"), fettle::pdf(pages, {"Samples", "Every picture", "2031-05-04T10:12:05Z"}));
  }
  std::cout << "written to " << folder.string() << "\n";
  return 0;
}
