#pragma once

#include <optional>
#include <string>

#include "base/problem.h"
#include "job/job.h"
#include "wire/act.h"

namespace fettle {

/// A reading that looks like a mistake: what to ask.
struct ReadingQuestion {
  std::string code;  ///< "needle-side", "port-edge" ...
  Message sentence;
  double chance;     ///< that it is a mistake, of whatever kind
};
/// What the second reading of a place settles: the first may be set aside.
struct ReadingOffer {
  Message sentence;
  std::string event;  ///< of the earlier reading
  Message why;
};

/// What a text means at its place.
struct Understood {
  std::optional<Reading> reading;     ///< nothing where there are problems
  std::optional<Message> understood;  ///< "0.071 larger → 78.069"
  std::optional<Message> said;        ///< "top · thrust 78.069"
  std::optional<Message> spoken;
  std::optional<ReadingQuestion> question;
  std::optional<ReadingOffer> offer;
  std::optional<QuestionAnswered> settles;  ///< what it answers of an earlier reading of its place that was asked about
  Problems problems;
};

/// Reads the text as the place, the gauge and the job's own words have it, and weighs it against what is known there. A reading that is asked
/// about is as good as any other: it is kept as typed. Of one place under one setting a question is asked once. Problems: those of entry and
/// of sizes_from, record.no_reading and record.no_reason (of what it corrects).
[[nodiscard]] Understood understand(const Job& job, const ReadingAct& act);

/// How a job has texts typed that are not read off a dial.
[[nodiscard]] TypingContext typing_in(const Job& job, std::optional<Dimension> dimension);
/// ... and that are: a place of the needle.
[[nodiscard]] TypingContext typing_on_dial(const Job& job, std::optional<NeedleSide> plus_means);

}  // namespace fettle
