#include <gmock/gmock.h>

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "app/workers.h"
#include "server/certificate.h"
#include "server/desk.h"
#include "server/devices.h"
#include "server/gauge_desk.h"
#include "server/line_splitter.h"
#include "server/live_hub.h"
#include "server/presence.h"
#include "server/qr_picture.h"
#include "store/memory_store.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class WallClock final : public Clock {
 public:
  [[nodiscard]] std::string now() override { return "2031-05-04T08:12:00.000000Z"; }
};

struct Office {
  WallClock wall;
  MemoryStore store{wall};
  std::int64_t now = 0;
  Devices devices{store, wall, [this] { return now; }};
};

TEST(Devices, ACodeIsGoodOnceAndForTenMinutes) {
  Office office;
  const std::string code = office.devices.new_code();
  EXPECT_EQ(code.size(), 32U);
  EXPECT_FALSE(office.devices.pair(std::string(32, '0'), "phone"));
  EXPECT_FALSE(office.devices.pair("", "phone"));
  EXPECT_TRUE(office.devices.pair(code, "phone"));
  EXPECT_FALSE(office.devices.pair(code, "phone"));
  const std::string late = office.devices.new_code();
  office.now = 10 * 60'000 - 1;
  EXPECT_TRUE(office.devices.pair(late, "tablet"));
  const std::string later = office.devices.new_code();
  office.now += 10 * 60'000;
  EXPECT_FALSE(office.devices.pair(later, "laptop"));
}

TEST(Devices, AKeyIsKnownUntilItsDeviceIsRevokedAlsoAfterARestart) {
  Office office;
  const auto paired = office.devices.pair(office.devices.new_code(), "phone").value();
  EXPECT_EQ(paired.key.size(), 64U);
  EXPECT_EQ(paired.device.key_hash.find(paired.key), std::string::npos);
  EXPECT_EQ(office.devices.device_of_key(paired.key), paired.device.id);
  EXPECT_EQ(office.devices.device_of_key(std::string(64, '0')), std::nullopt);
  Devices again(office.store, office.wall, [] { return 0; });
  EXPECT_EQ(again.device_of_key(paired.key), paired.device.id);
  EXPECT_FALSE(again.revoke("p-none"));
  EXPECT_TRUE(again.revoke(paired.device.id));
  EXPECT_EQ(again.device_of_key(paired.key), std::nullopt);
  Devices third(office.store, office.wall, [] { return 0; });
  EXPECT_EQ(third.device_of_key(paired.key), std::nullopt);
}

class NotesNothing final : public MemoryStore {
 public:
  using MemoryStore::MemoryStore;
  bool full = true;
  void device_seen(const std::string& id, const std::string& at) override {
    if (full) throw StoreError(Problem{"store.disk_full", {}, {verbatim("file", "shop.fettle")}});
    MemoryStore::device_seen(id, at);
  }
};

TEST(Devices, AFullDiskKeepsNobodyOut) {
  WallClock wall;
  NotesNothing store(wall);
  Devices devices(store, wall, [] { return 0; });
  const std::string id = devices.pair(devices.new_code(), "phone").value().device.id;
  EXPECT_NO_THROW(devices.seen(id));
  EXPECT_EQ(devices.device(id)->last_seen, "");
  store.full = false;
  devices.seen(id);
  EXPECT_EQ(devices.device(id)->last_seen, wall.now()) << "at once, not after ten minutes";
}

TEST(LiveHub, TellsThoseOfTheJobAndTheDevice) {
  LiveHub hub(3, 1000);
  int woken = 0;
  const auto wake = [&] { ++woken; };
  const auto ada = hub.open({"tern", "d-1", std::nullopt}, wake);
  const auto bo = hub.open({"tern", "d-2", "p-2"}, wake);
  const auto other = hub.open({"knot", "d-3", std::nullopt}, wake);
  EXPECT_EQ(hub.open({"tern", "d-4", std::nullopt}, wake), nullptr) << "server.too_many_streams";
  hub.tell("tern", std::nullopt, "accepted", "{}");
  EXPECT_EQ(ada->take().text, "event: accepted\ndata: {}\n\n");
  EXPECT_EQ(bo->take().text, "event: accepted\ndata: {}\n\n");
  EXPECT_EQ(other->take().text, "");
  EXPECT_EQ(woken, 2);
  hub.tell({}, "d-3", "gauge-line", "{}");
  EXPECT_EQ(ada->take().text, "");
  EXPECT_THAT(other->take().text, HasSubstr("gauge-line"));
  hub.end_of_key("p-2");
  EXPECT_TRUE(bo->take().ended);
  EXPECT_FALSE(ada->take().ended);
  hub.close(bo);
  EXPECT_FALSE(hub.listens("d-2"));
  EXPECT_TRUE(hub.listens("d-1"));
}

TEST(LiveHub, ARevokedKeyHearsNothingMore) {
  LiveHub hub(4, 1000);
  int woken = 0;
  const auto phone = hub.open({"tern", "d-1", "p-1"}, [&] { ++woken; });
  const auto other = hub.open({"tern", "d-2", "p-2"}, [] {});
  hub.tell("tern", std::nullopt, "accepted", "{}");
  hub.end_of_key("p-1");
  EXPECT_EQ(woken, 2) << "told to go at once";
  EXPECT_TRUE(phone->is_cut());
  EXPECT_EQ(phone->take().text, "") << "not even what waited";
  hub.tell("tern", std::nullopt, "accepted", "{}");
  EXPECT_EQ(phone->take().text, "");
  EXPECT_FALSE(other->is_cut());
  const auto late = hub.open({"tern", "d-1", "p-1"}, [] {});
  ASSERT_TRUE(late);
  EXPECT_TRUE(late->is_cut()) << "its request came in just before the key was revoked";
  EXPECT_FALSE(hub.open({"tern", "d-3", std::nullopt}, [] {})->is_cut());
}

TEST(LiveHub, AListenerThatIsTooSlowIsDropped) {
  LiveHub hub(1, 100);
  const auto slow = hub.open({"tern", "d-1", std::nullopt}, [] {});
  for (int i = 0; i < 10; ++i) hub.tell("tern", std::nullopt, "accepted", "{\"position\":1}");
  const LiveStream::Taken taken = slow->take();
  EXPECT_TRUE(taken.ended);
  EXPECT_LE(taken.text.size(), 100U);
}

TEST(Presence, GivesARoundToOneDeviceAtATime) {
  Presence presence;
  EXPECT_EQ(presence.come("tern", {"d-1", "JB", "bore-1", "round"}, 0), std::nullopt);
  EXPECT_EQ(presence.come("tern", {"d-1", "JB", "bore-1", "round"}, 0), std::nullopt) << "its own";
  const auto held = presence.come("tern", {"d-2", "AK", "bore-1", "round"}, 0);
  ASSERT_TRUE(held);
  EXPECT_EQ(held->who, "JB");
  EXPECT_EQ(presence.come("tern", {"d-2", "AK", "bore-1", "second"}, 0), std::nullopt);
  EXPECT_EQ(presence.come("knot", {"d-2", "AK", "bore-1", "round"}, 0), std::nullopt) << "another job";
  EXPECT_EQ(presence.people("tern").size(), 2U);
  presence.leave("tern", "d-1");
  EXPECT_EQ(presence.come("tern", {"d-2", "AK", "bore-1", "round"}, 0), std::nullopt);
  EXPECT_THAT(presence.people("tern"), ElementsAre(PresentLine{"d-2", "AK", "bore-1", "round"}));
}

TEST(Presence, WhoeverHasNotListenedForHalfAMinuteIsGone) {
  Presence presence;
  (void)presence.come("tern", {"d-1", "JB", "bore-1", "round"}, 0);
  (void)presence.come("tern", {"d-2", "AK", "bore-2", "round"}, 0);
  const auto only_first = [](const std::string& device) { return device == "d-1"; };
  EXPECT_THAT(presence.drop_gone(29'999, only_first), IsEmpty());
  EXPECT_THAT(presence.drop_gone(30'000, only_first), ElementsAre("tern"));
  EXPECT_THAT(presence.people("tern"), ElementsAre(PresentLine{"d-1", "JB", "bore-1", "round"}));
  const auto nobody = [](const std::string&) { return false; };
  EXPECT_THAT(presence.drop_gone(59'999, nobody), IsEmpty()) << "counted from when it listened last";
  EXPECT_THAT(presence.drop_gone(60'000, nobody), ElementsAre("tern"));
}

TEST(LineSplitter, GivesWholeLinesHoweverTheyCome) {
  LineSplitter splitter;
  EXPECT_THAT(splitter.lines_of("+0.0"), IsEmpty());
  EXPECT_THAT(splitter.lines_of("71\r\n\n+0.072\r+0"), ElementsAre("+0.071", "+0.072"));
  splitter.forget();
  EXPECT_THAT(splitter.lines_of(".073\n"), ElementsAre(".073"));
  const auto longest = splitter.lines_of(std::string(5'000, '7') + "\n");
  ASSERT_EQ(longest.size(), 1U);
  EXPECT_EQ(longest.front().size(), LineTemplate::kMostLineBytes + 1);
}

TEST(GaugePort, IsReadAsItIsWritten) {
  const auto ports = read_gauge_ports({"G2=/dev/ttyUSB0,9600,{number} {unit}", "Dial-1=/dev/ttyUSB1,4800/7E2,A,{number}"});
  ASSERT_TRUE(ports.ok());
  const GaugePort& dial = ports.value()[1];
  EXPECT_EQ(ports.value()[0].id, "g2");
  EXPECT_EQ(ports.value()[0].data_bits, 8U);
  EXPECT_EQ(dial.path + " " + std::to_string(dial.baud) + " " + std::to_string(dial.data_bits) + " " + std::to_string(dial.stop_bits), "/dev/ttyUSB1 4800 7 2");
  EXPECT_EQ(dial.parity, Parity::even);
  EXPECT_EQ(dial.layout.match("A,+5"), (LineReading{"+5", ""}));
  for (const char* wrong : {"G2", "G2=/dev/x", "G2=/dev/x,9600", "=/dev/x,9600,{number}", "G 2=/dev/x,9600,{number}", "G2=x,9600,{number}", "G2=/dev/x,9601,{number}",
                            "G2=/dev/x,9600/9N1,{number}", "G2=/dev/x,9600/8X1,{number}", "G2=/dev/x,9600/8N3,{number}", "G2=/dev/x,,{number}"}) {
    const auto read = read_gauge_ports({wrong});
    ASSERT_FALSE(read.ok()) << wrong;
    EXPECT_EQ(read.problems().front().code, "server.gauge_option") << wrong;
  }
  EXPECT_EQ(read_gauge_ports({"a=/dev/x,9600,{number}", "A=/dev/y,9600,{number}"}).problems().front().code, "server.gauge_twice");
  EXPECT_EQ(read_gauge_ports({"a=/dev/x,9600,{number}", "b=/dev/x,9600,{number}"}).problems().front().code, "server.gauge_twice");
}

class FullDisk final : public MemoryStore {
 public:
  using MemoryStore::MemoryStore;
  bool full = true;
  [[nodiscard]] std::int64_t keep_gauge_line(const std::string& port, const std::string& bytes, const std::string& received_at) override {
    if (full) throw StoreError(Problem{"store.disk_full", {}, {verbatim("file", "shop.fettle")}});
    return MemoryStore::keep_gauge_line(port, bytes, received_at);
  }
};

TEST(GaugeDesk, LinesThatAFullDiskRefusedAreOfferedAgainInTheirOrder) {
  WallClock wall;
  FullDisk store(wall);
  LiveHub live(4, 10'000);
  GaugeDesk desk(read_gauge_ports({"G2=/dev/ttyUSB0,9600,{number}"}).value(), store, wall, live);
  const auto taker = live.open({"tern", "d-1", std::nullopt}, [] {});
  EXPECT_TRUE(desk.take("g2", {"d-1", "phone"}));
  EXPECT_FALSE(desk.take("g3", {"d-1", "phone"}));
  desk.received("g2", "+0.071");
  desk.received("g2", "+0.072");
  EXPECT_EQ(taker->take().text, "") << "told before it was kept";
  desk.try_again();
  EXPECT_THAT(desk.waiting(), IsEmpty());
  store.full = false;
  desk.try_again();
  desk.try_again();
  const auto waiting = desk.waiting();
  ASSERT_EQ(waiting.size(), 2U);
  EXPECT_EQ(waiting[0].text, "+0.071");
  EXPECT_EQ(waiting[1].reading, (ReadByTemplate{"+0.072", ""}));
  EXPECT_THAT(taker->take().text, HasSubstr(R"("number":2,"port":"g2","text":"+0.072")"));
  EXPECT_TRUE(desk.done(1));
  EXPECT_FALSE(desk.done(1));
}

std::vector<std::string> texts_of(GaugeDesk& desk) {
  std::vector<std::string> out;
  for (const WaitingLine& each : desk.waiting()) out.push_back(each.text);
  return out;
}

TEST(GaugeDesk, ALineOvertakesNoneThatTheDiskRefused) {
  WallClock wall;
  FullDisk store(wall);
  LiveHub live(4, 10'000);
  GaugeDesk desk(read_gauge_ports({"G2=/dev/ttyUSB0,9600,{number}"}).value(), store, wall, live);
  desk.received("g2", "+0.071");
  store.full = false;
  desk.received("g2", "+0.072");
  EXPECT_THAT(texts_of(desk), ElementsAre("+0.071", "+0.072")) << "the next line takes the one before it along";
  store.full = true;
  desk.received("g2", "+0.073");
  desk.received("g2", "+0.074");
  store.full = false;
  {
    Workers again(1);
    again.hand([&] { desk.try_again(); });
    desk.received("g2", "+0.075");
  }
  EXPECT_THAT(texts_of(desk), ElementsAre("+0.071", "+0.072", "+0.073", "+0.074", "+0.075"));
  EXPECT_EQ(desk.not_kept(), 0);
}

/// Has as many lines as it is said to have.
class FullTray final : public MemoryStore {
 public:
  using MemoryStore::MemoryStore;
  std::size_t more = GaugeDesk::kMostWaiting - 1;
  [[nodiscard]] std::vector<StoredGaugeLine> gauge_lines() override {
    std::vector<StoredGaugeLine> out = MemoryStore::gauge_lines();
    out.resize(out.size() + more);
    return out;
  }
};

TEST(GaugeDesk, WhatFindsNoRoomIsCountedAndTold) {
  WallClock wall;
  FullTray store(wall);
  LiveHub live(4, 10'000);
  GaugeDesk desk(read_gauge_ports({"G2=/dev/ttyUSB0,9600,{number}"}).value(), store, wall, live);
  const auto listener = live.open({"tern", "d-1", std::nullopt}, [] {});
  desk.received("g2", "+0.071");
  EXPECT_EQ(desk.not_kept(), 0);
  (void)listener->take();
  desk.received("g2", "+0.072");
  desk.received("g2", "+0.073");
  EXPECT_EQ(desk.not_kept(), 2);
  EXPECT_THAT(listener->take().text, HasSubstr("event: tray")) << "whoever looks asks for the ports then";
  EXPECT_TRUE(desk.done(1));
  desk.received("g2", "+0.074");
  EXPECT_EQ(desk.not_kept(), 2);
  store.more = 0;
  EXPECT_THAT(texts_of(desk), ElementsAre("+0.074"));
}

TEST(GaugeDesk, WhatADiskThatStaysFullHasNoRoomForIsCountedAsWell) {
  WallClock wall;
  FullDisk store(wall);
  LiveHub live(4, 10'000);
  GaugeDesk desk(read_gauge_ports({"G2=/dev/ttyUSB0,9600,{number}"}).value(), store, wall, live);
  for (std::size_t i = 0; i < GaugeDesk::kMostWaiting + 3; ++i) desk.received("g2", std::to_string(i));
  EXPECT_EQ(desk.not_kept(), 3);
}

/// What the ports' answer says of lost lines.
TEST(DeskRoutes, LinesThatWereNotKeptAreSaidToWhoeverLooks) {
  Office office;
  FullTray store(office.wall);
  store.more = GaugeDesk::kMostWaiting;
  LiveHub live(4, 10'000);
  Presence presence;
  GaugeDesk gauges(read_gauge_ports({"G2=/dev/ttyUSB0,9600,{number}"}).value(), store, office.wall, live);
  Desk desk{"token", "shop.fettle", "", "", store, office.devices, presence, gauges, live, [] { return std::int64_t{0}; }};
  const std::vector<HttpRoute> routes = desk_routes(desk);
  const auto found = std::find_if(routes.begin(), routes.end(), [](const HttpRoute& each) { return each.pattern == "/api/ports"; });
  ASSERT_NE(found, routes.end());
  const auto ask = [&](Language language) { return found->handler({"GET", "/api/ports", {}, {}, "", language, true, std::nullopt}).body; };
  EXPECT_THAT(ask(Language::english), HasSubstr(R"("not_kept":null)"));
  gauges.received("g2", "+0.071");
  EXPECT_THAT(ask(Language::english), HasSubstr(R"("not_kept":{"count":1,"sentence":"1 line of gauges was not kept)"));
  gauges.received("g2", "+0.072");
  EXPECT_THAT(ask(Language::english), HasSubstr(R"("count":2,"sentence":"2 lines of gauges were not kept)"));
  EXPECT_THAT(ask(Language::german), HasSubstr("2 Zeilen von Messmitteln wurden"));
}

TEST(Certificate, IsMadeOnceAndAnewOnlyWhereItMustSpeakForMore) {
  const std::string folder = testing::TempDir() + "fettle-keys-" + std::to_string(::getpid());
  std::filesystem::remove_all(folder);
  const CertifiedNames names{{"localhost", "shop.local"}, {"127.0.0.1", "192.168.1.5", "fd00::5"}};
  const Certificate first = own_certificate(folder, names).value();
  EXPECT_EQ(fingerprint_of(first).size(), 95U);
  EXPECT_EQ(own_certificate(folder, names).value().certificate, first.certificate);
  EXPECT_EQ(own_certificate(folder, {{"localhost"}, {"192.168.1.5"}}).value().certificate, first.certificate) << "it speaks for more than that";
  const Certificate more = own_certificate(folder, {{"localhost", "bench.local"}, {"192.168.1.5"}}).value();
  EXPECT_NE(more.certificate, first.certificate);
  EXPECT_EQ(more.key, first.key);
  std::ofstream(folder + "/key.pem") << "no key";
  const Certificate anew = own_certificate(folder, names).value();
  EXPECT_NE(anew.key, first.key);
  EXPECT_NE(fingerprint_of(anew), fingerprint_of(more));
  EXPECT_EQ(own_certificate("/no/such/folder/keys", names).problems().front().code, "server.cannot_keep_key");
  EXPECT_EQ(fingerprint_of({"nothing", "nothing"}), "");
  std::filesystem::remove_all(folder);
}

TEST(QrPicture, HasItsThreeCornersAndAQuietRim) {
  const std::string picture = qr_picture("https://192.168.1.5:8420/#/pair/0123456789abcdef", "Pairing & <code>");
  EXPECT_THAT(picture, HasSubstr("<title>Pairing &amp; &lt;code></title>"));
  const auto box = picture.find("viewBox=\"0 0 ");
  const int size = std::stoi(picture.substr(box + 13));
  EXPECT_EQ((size - 8 - 17) % 4, 0) << "21, 25, 29 ... squares and the rim";
  // The outermost bar of each finder: seven dark squares.
  const std::string right = std::to_string(size - 4 - 7);
  for (const std::string& bar : std::vector<std::string>{"M4 4h7v1h-7z", "M" + right + " 4h7v1h-7z", "M4 " + right + "h7v1h-7z", "M4 10h7v1h-7z"}) {
    EXPECT_THAT(picture, HasSubstr(bar));
  }
  EXPECT_EQ(picture.find("M3 "), std::string::npos);
  EXPECT_EQ(picture.find(" 3h"), std::string::npos);
}

}  // namespace
}  // namespace fettle
