#include "drawing/palette.h"

#include "base/assertion.h"

namespace fettle {

Colour colour_of(Ink ink, Palette palette) {
  const bool paper = palette == Palette::paper;
  switch (ink) {
    case Ink::ink:  // oil grey
      return paper ? Colour{0x24, 0x29, 0x2b} : Colour{0xe6, 0xe4, 0xdc};
    case Ink::faint:  // iron
      return paper ? Colour{0x5c, 0x64, 0x66} : Colour{0xa3, 0xa9, 0xa8};
    case Ink::accent:  // brass
      return paper ? Colour{0x7d, 0x5a, 0x12} : Colour{0xd8, 0xb0, 0x64};
    case Ink::second:  // slate
      return paper ? Colour{0x35, 0x60, 0x8a} : Colour{0x8d, 0xb4, 0xda};
    case Ink::third:  // heather
      return paper ? Colour{0x6d, 0x4a, 0x78} : Colour{0xc7, 0xa3, 0xd1};
    case Ink::wash:  // chalk line
      return paper ? Colour{0xdc, 0xdc, 0xd3} : Colour{0x3a, 0x40, 0x43};
    case Ink::paper:
      return paper ? Colour{0xfb, 0xfa, 0xf6} : Colour{0x1c, 0x20, 0x22};
    case Ink::here:  // marking-out blue
      return paper ? Colour{0x1e, 0x3a, 0x8a} : Colour{0x9d, 0xb7, 0xff};
    case Ink::within:  // iron
      return paper ? Colour{0x3f, 0x4a, 0x54} : Colour{0xb6, 0xc0, 0xc9};
    case Ink::close:  // brass, darker than the accent
      return paper ? Colour{0x6b, 0x52, 0x00} : Colour{0xe3, 0xc5, 0x65};
    case Ink::beyond:  // copper
      return paper ? Colour{0x8a, 0x3b, 0x12} : Colour{0xf2, 0xa4, 0x77};
  }
  FETTLE_ASSERT(false, "an ink without a colour");
}

std::string_view ink_name(Ink ink) {
  switch (ink) {
    case Ink::ink: return "ink";
    case Ink::faint: return "faint";
    case Ink::accent: return "accent";
    case Ink::second: return "second";
    case Ink::third: return "third";
    case Ink::wash: return "wash";
    case Ink::paper: return "paper";
    case Ink::here: return "here";
    case Ink::within: return "within";
    case Ink::close: return "close";
    case Ink::beyond: return "beyond";
  }
  FETTLE_ASSERT(false, "an ink without a name");
}

}  // namespace fettle
