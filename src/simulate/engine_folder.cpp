#include "simulate/engine_folder.h"

#include <charconv>
#include <string_view>

#include "base/assertion.h"
#include "catalogue/words.h"

namespace fettle {
namespace {

constexpr std::string_view kHeading = "# Invented and simulated: no such engine exists, and nobody read it.\n";

/// `"text"` as TOML has it. Nothing that the simulator writes needs more than this.
std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string decimal_text(double value, int decimals) {
  std::string out(64, ' ');
  const auto [end, error] =
      std::to_chars(out.data(), out.data() + out.size(), value, std::chars_format::fixed, decimals);
  FETTLE_ASSERT(error == std::errc(), std::to_string(decimals));
  out.resize(static_cast<std::size_t>(end - out.data()));
  return out;
}

/// Lines `key = "value"`, in the order they are added.
class Toml {
 public:
  Toml& table(std::string_view head) {
    text_ += "\n" + std::string(head) + "\n";
    return *this;
  }
  Toml& text(std::string_view key, std::string_view value) {
    text_ += std::string(key) + " = " + quoted(value) + "\n";
    return *this;
  }
  Toml& text(std::string_view key, const std::optional<TypedQuantity>& value) {
    return value ? text(key, value->text) : *this;
  }
  Toml& raw(std::string_view line) {
    text_ += std::string(line) + "\n";
    return *this;
  }
  [[nodiscard]] const std::string& all() const { return text_; }

 private:
  std::string text_ = std::string(kHeading);
};

std::string_view side_word(NeedleSide side) {
  switch (side) {
    case NeedleSide::clockwise:
      return "clockwise";
    case NeedleSide::anticlockwise:
      return "anticlockwise";
  }
  return "";
}

std::string step_text(const Step& step) {
  switch (step.kind) {
    case StepKind::standard:
      return "standard";
    case StepKind::offset:
      return step.offset->text;
    case StepKind::unknown:
      return "unknown";
  }
  return "";
}

void write_layout(const LayoutChosen& layout, Toml& toml) {
  toml.table("[[layout]]").text("kind", layout.kind).raw("station = [");
  for (const Station& each : layout.layout.stations) {
    toml.raw("  { id = " + quoted(each.id) + ", role = " + quoted(role_name(each.role)) + ", counted = " +
             (each.counted ? "true" : "false") + ", depth = " + quoted(typed_length(*each.depth, 0).text) + " },");
  }
  toml.raw("]").raw("direction = [");
  for (const Direction& each : layout.layout.directions) {
    std::string angle = each.angle_degrees.decimal(6);
    while (angle.back() == '0') angle.pop_back();
    if (angle.back() == '.') angle.pop_back();
    toml.raw("  { id = " + quoted(each.id) + ", counted = " + (each.counted ? "true" : "false") +
             ", angle = " + quoted(angle + " °") + " },");
  }
  toml.raw("]");
}

void write_gauge(const Gauge& gauge, Toml& toml) {
  toml.table("[[gauge]]")
      .text("id", gauge.id)
      .text("preset", gauge.preset)
      .text("division", gauge.division)
      .text("turn", gauge.turn);
  if (gauge.pressed_in) toml.text("pressed_in", side_word(*gauge.pressed_in));
  toml.raw("component = [");
  for (const ErrorComponent& each : gauge.replaced) {
    toml.raw("  { id = " + quoted(each.id) + ", scope = " + quoted(scope_name(each.scope)) + ", shape = " +
             quoted(shape_name(each.shape)) + ", standard_uncertainty = " + quoted(each.spread_as_typed) + " },");
  }
  toml.raw("]");
}

void write_setting(const Setting& setting, Toml& toml) {
  toml.table("[[setting]]").text("id", setting.id).text("gauge", setting.gauge);
  if (setting.master) toml.text("master", *setting.master);
  toml.text("wanted", setting.wanted).text("set", setting.set).text("opening_zero", setting.opening_zero);
  toml.text("closing_zero", setting.closing_zero).text("master_temperature", setting.master_temperature);
  toml.text("part_temperature", setting.part_temperature);
}

void write_limit(const Limit& limit, Toml& toml) {
  toml.table("[[limit]]").text("id", limit.id).text("kind", limit.kind).text("definition", limit.definition);
  toml.text("role", role_name(limit.role)).text("side", side_name(limit.side)).text("bound", limit.bound);
  toml.text("standard", limit.standard).text("book", limit.origin.book).text("page", limit.origin.page);
}

std::string job_text(const Job& job) {
  Toml toml;
  toml.table("[job]")
      .text("id", job.id)
      .text("name", job.opened->value.name)
      .text("decimal_mark", "point")
      .text("shown_unit", "mm");
  toml.text("remark", job.opened->value.remark);
  for (const auto& each : job.layouts) write_layout(each.value, toml);
  for (const auto& each : job.parts) {
    toml.table("[[part]]")
        .text("id", each.value.id)
        .text("kind", each.value.kind)
        .text("position", each.value.position);
    toml.text("step", step_text(each.value.step)).text("condition", condition_name(each.value.condition));
  }
  for (const auto& each : job.gauges) write_gauge(each.value, toml);
  for (const auto& each : job.settings) write_setting(each.value, toml);
  for (const auto& each : job.limits) write_limit(each.value, toml);
  return toml.all();
}

std::string readings_text(const Job& job) {
  std::string out = "part,station,direction,reading,setting,round,order,repeat\n";
  for (const auto& each : job.readings) {
    const Reading& reading = each.value;
    out += reading.part + "," + reading.station + "," + reading.direction + "," + reading.quantity.text + "," +
           reading.setting + "," + reading.round + "," + std::to_string(*reading.order) + ",";
    if (reading.repeat) out += std::to_string(*reading.repeat);
    out += "\n";
  }
  return out;
}

std::string truth_text(const SimulatedEngine& engine) {
  const EngineTruth& truth = engine.truth;
  const Layout& layout = engine.job.layouts.front().value.layout;
  std::string out = "what,part,station,direction,value,unit\n";
  const auto row = [&](const std::string& what, const std::string& place, const std::string& value, const char* unit) {
    out += what + "," + place + "," + value + "," + unit + "\n";
  };
  row("invented and simulated; seed", ",,", std::to_string(engine.seed), "");
  row("number", ",,", std::to_string(engine.number), "");
  row("family", ",,", engine.family, "");
  row("hand", ",,", engine.hand, "");
  row("step", ",,", decimal_text(truth.hyper.step_um, 1), "µm");
  for (std::size_t c = 0; c < truth.hyper.components.size(); ++c) {
    const ComponentHyper& hyper = truth.hyper.components[c];
    const std::string name = "component " + std::to_string(c + 1);
    row(name + " amount", ",,", decimal_text(hyper.amount_um, 2), "µm");
    row(name + " length", ",,", decimal_text(hyper.length, 4), "");
    row(name + " likeness", ",,", decimal_text(hyper.likeness, 4), "");
  }
  row("three lobes unseen", ",,", decimal_text(truth.three_lobe_um, 1), "µm");
  if (truth.odd_part) row("the odd part", part_id(*truth.odd_part) + ",,", "", "");
  for (std::size_t part = 0; part < truth.sizes_mm.size(); ++part) {
    for (std::size_t s = 0; s < layout.stations.size(); ++s) {
      for (std::size_t d = 0; d < layout.directions.size(); ++d) {
        row("size", part_id(part) + "," + layout.stations[s].id + "," + layout.directions[d].id,
            decimal_text(truth.sizes_mm[part][layout.cell(s, d)], 5), "mm");
      }
    }
  }
  return out;
}

}  // namespace

std::vector<FolderFile> engine_folder(const SimulatedEngine& engine) {
  return {{"job.toml", job_text(engine.job)},
          {"readings.csv", readings_text(engine.job)},
          {"truth.csv", truth_text(engine)}};
}

}  // namespace fettle
