#include "app/attach_file.h"

#include <algorithm>

#include "attachment/attachment.h"

namespace fettle {

Result<Attached> attach_file(Store& store, const RecordedJob& to, const ToAttach& what, const Doing& doing) {
  Problems problems;
  const auto& parts = to.job.parts;
  const bool known = !what.part || std::any_of(parts.begin(), parts.end(), [&](const auto& each) { return each.value.id == *what.part; });
  if (!known) problems.push_back({"record.no_such_part", {}, {verbatim("part", *what.part), verbatim("job", to.job.id)}});
  const auto attachment = take(read_attachment(what.bytes, {what.name, std::nullopt, std::nullopt}), problems);
  if (!problems.empty()) return problems;
  const auto answered = [&](const std::string& event) {
    return Attached{event, attachment->hash, attachment->type, static_cast<std::int64_t>(attachment->bytes.size()), attachment->notices};
  };
  // What a phone calls the same photo may differ from time to time.
  const auto& files = to.job.files;
  const auto there = std::find_if(files.begin(), files.end(), [&](const auto& each) {
    return each.value.hash == attachment->hash && each.value.part == what.part && each.value.note == what.note;
  });
  if (there != files.end()) return answered(there->event);
  // The bytes first: an event that names them must find them.
  store.keep_file({attachment->hash, attachment->type, attachment->bytes, attachment->thumbnail});
  const Result<std::vector<std::string>> made =
      append(store, to, {FileAttached{attachment->hash, attachment->type, what.name, what.part, what.note}}, doing);
  if (!made.ok()) return made.problems();
  return answered(made.value().front());
}

}  // namespace fettle
