#include "job/events.h"

namespace fettle {
namespace {

struct TypeOf {
  EventType operator()(const JobOpened&) const { return {"job-opened", 1}; }
  EventType operator()(const EngineDescribed&) const { return {"engine-described", 1}; }
  EventType operator()(const LayoutChosen&) const { return {"layout-chosen", 1}; }
  EventType operator()(const PartEntered&) const { return {"part-entered", 1}; }
  EventType operator()(const FindingSeen&) const { return {"finding-seen", 1}; }
  EventType operator()(const GaugeRegistered&) const { return {"gauge-registered", 1}; }
  EventType operator()(const SettingMade&) const { return {"setting-made", 1}; }
  EventType operator()(const GaugeFoundOut&) const { return {"gauge-found-out", 1}; }
  EventType operator()(const ReadingTaken&) const { return {"reading-taken", 1}; }
  EventType operator()(const SheetEntered&) const { return {"sheet-entered", 1}; }
  EventType operator()(const GaugeStudied&) const { return {"gauge-studied", 1}; }
  EventType operator()(const LimitEntered&) const { return {"limit-entered", 1}; }
  EventType operator()(const RuleChosen&) const { return {"rule-chosen", 1}; }
  EventType operator()(const EventWithdrawn&) const { return {"event-withdrawn", 1}; }
  EventType operator()(const FileAttached&) const { return {"file-attached", 1}; }
  EventType operator()(const ZeroLooked&) const { return {"zero-looked-at", 1}; }
  EventType operator()(const TemperaturesTaken&) const { return {"temperatures-taken", 1}; }
  EventType operator()(const VerdictTaken&) const { return {"verdict-taken", 1}; }
  EventType operator()(const StepSeen&) const { return {"step-seen", 1}; }
  EventType operator()(const QuestionAnswered&) const { return {"question-answered", 1}; }
  EventType operator()(const StripStepAnswered&) const { return {"strip-step-answered", 1}; }
  EventType operator()(const PartsReady&) const { return {"parts-ready", 1}; }
};

}  // namespace

EventType type_of(const Payload& payload) { return std::visit(TypeOf{}, payload); }

}  // namespace fettle
