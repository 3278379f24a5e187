#include "store/old_contents.h"

#include "base/digest.h"

namespace fettle {

std::vector<Envelope> old_events() {
  std::vector<Envelope> out;
  for (int i = 1; i <= 25; ++i) {
    const std::string number = std::to_string(i);
    const std::string id = std::string(32 - number.size(), 'a') + number;
    out.push_back({"curlew-3", id, R"({"type":"ReadingTaken","part":"bore-)" + number + R"(","text":"+0,031 Maß"})"});
    if (i % 5 == 0) out.push_back({"tern", id, std::string(static_cast<std::size_t>(i) * 600, 't')});
  }
  return out;
}

StoredFile old_file() {
  StoredFile file{{}, "image/jpeg", {}, "small picture"};
  for (int i = 0; i < 9'000; ++i) file.bytes += static_cast<char>(i * 7 % 251);
  file.hash = file_digest(file.bytes);
  return file;
}

JobRow old_row() {
  return {"curlew-3", "Curlew of the yard", "Curlew 3", "0815", "2031-05-04", "2031-05-06", {"Ada", "Bo"}, 25, 25, "beyond",
          {{"bore-1", "bore", "beyond"}, {"bore-2", "bore", "as-new"}, {"main-1", "main", "not-judged"}}};
}

StoredJudgement old_judgement() {
  StoredJudgement out{"curlew-3", "0.1.0", 25, std::string(64, 'b'), "bore-1 beyond", {}};
  out.hash = judgement_hash(out);
  return out;
}

StoredDevice old_device() { return {"d-1", "phone of the bench", std::string(64, 'c'), "2031-05-04T08:12:00.000000Z", "2031-05-05T08:12:00.000000Z", true}; }

void write_old_contents(Store& store, SetClock& time, int version) {
  time.time = "2031-05-04T08:12:00.000000Z";
  for (const Envelope& event : old_events()) (void)store.accept({event}).value();
  store.keep_file(old_file());
  if (version < 2) return;
  store.keep_row(old_row());
  store.keep_judgement(old_judgement());
  if (version < 3) return;
  store.keep_device({"d-1", "phone of the bench", std::string(64, 'c'), "2031-05-04T08:12:00.000000Z", {}, false});
  store.device_seen("d-1", "2031-05-05T08:12:00.000000Z");
  (void)store.revoke_device("d-1");
  for (const char* line : {"+0.071", "+0.072", "\x01\xff raw"}) (void)store.keep_gauge_line("g2", line, time.time);
  (void)store.drop_gauge_line(1);
}

}  // namespace fettle
