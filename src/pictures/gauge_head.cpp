#include "pictures/gauge_head.h"

#include "drawing/circle_point.h"
#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kHeadWidth = 328.0;
constexpr double kHeadAxis = 112.0;
constexpr Point kHeadDial = {164.0, 40.0};
constexpr double kHeadDialRadius = 34.0;

/// An arc round the dial with its head: which way the needle goes.
void add_turn(Sketch& sketch, NeedleSide side) {
  const double way = side == NeedleSide::clockwise ? 1.0 : -1.0;
  const double radius = 22.0;
  sketch.arc(kHeadDial, radius, 0.0, way * 100.0, Ink::here, 3.0);
  const Point tip = circle_point(kHeadDial, radius, way * 124.0);
  sketch.arrow_head(tip, way * 112.0 + way * 90.0, 12.0, Ink::here);
}

}  // namespace

Drawing gauge_head_picture(std::optional<NeedleSide> pressed_in, Language language) {
  Sketch sketch(kHeadWidth, 180.0);
  sketch.circle(kHeadDial, kHeadDialRadius, std::nullopt, Ink::ink, 2.0);
  for (int i = 0; i < 20; ++i) {
    sketch.line(circle_point(kHeadDial, kHeadDialRadius - 5.0, 18.0 * i), circle_point(kHeadDial, kHeadDialRadius - 1.0, 18.0 * i), Ink::faint);
  }
  if (pressed_in) {
    add_turn(sketch, *pressed_in);
  } else {
    sketch.text({kHeadDial.x, kHeadDial.y + 12.0}, "?", {34.0, Ink::here, Anchor::middle, Weight::bold});
  }
  for (const double x : {-6.0, 6.0}) {  // the tube
    sketch.line({kHeadDial.x + x, kHeadDial.y + kHeadDialRadius}, {kHeadDial.x + x, kHeadAxis - 17.0}, Ink::ink, 1.4);
  }
  sketch.rect({126.0, kHeadAxis - 17.0}, 76.0, 34.0, std::nullopt, Ink::ink, 1.6);
  // The sprung contact, marked, and the thumb that presses it in.
  sketch.rect({102.0, kHeadAxis - 7.0}, 24.0, 14.0, Ink::here, Ink::here);
  sketch.circle({102.0, kHeadAxis}, 7.0, Ink::here, Ink::here);
  sketch.arrow({34.0, kHeadAxis}, {91.0, kHeadAxis}, Ink::here, 5.0, 16.0);
  // The rod on the other side does not move.
  sketch.rect({202.0, kHeadAxis - 6.0}, 60.0, 12.0, std::nullopt, Ink::ink, 1.4);
  sketch.arc({262.0, kHeadAxis}, 6.0, 0.0, 180.0, Ink::ink, 1.4);
  const double under = kHeadAxis + 20.0;
  const double left = sketch.box({6.0, under}, 150.0, say("pictures.head.contact", {}, language), {kPictureName, Ink::here, Anchor::start, Weight::bold});
  const double right = sketch.box({172.0, under}, 150.0, say("pictures.head.rod", {}, language), {kPictureName, Ink::ink, Anchor::end});
  sketch.set_height((left > right ? left : right) + 6.0);
  const std::string key = !pressed_in ? "pictures.head.ask"
                          : *pressed_in == NeedleSide::clockwise ? "pictures.head.clockwise"
                                                                 : "pictures.head.anticlockwise";
  return std::move(sketch).done(say("pictures.head.title", {}, language), say(key, {}, language));
}

}  // namespace fettle
