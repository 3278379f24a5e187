#include "verdict/plain_figure.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "form/draw_evaluator.h"
#include "numeric/draws.h"

namespace fettle {
namespace {

constexpr std::size_t kBlock = 64;  // draws in one pass, so that the inner loops run over neighbours in memory

DrawShape shape_of(ErrorShape shape) {
  switch (shape) {
    case ErrorShape::normal: return DrawShape::normal;
    case ErrorShape::rectangular: return DrawShape::rectangular;
    case ErrorShape::triangular: return DrawShape::triangular;
  }
  return DrawShape::normal;
}

/// A question with the draws it looks at.
struct DrawnQuestion {
  DrawEvaluator evaluator;
  std::vector<std::size_t> place_of_cell;   ///< index of the drawn place; kNoPlace where the cell is not used
  std::vector<const double*> sizes_mm;      ///< by cell, for the evaluator
  bool at_most;
  double bound;
};

constexpr std::size_t kNoPlace = static_cast<std::size_t>(-1);

using Block = std::vector<double>;

PlainFigure figure_of(std::size_t kept, std::size_t draws) {
  const double share = static_cast<double>(kept) / static_cast<double>(draws);
  return {share, std::sqrt(share * (1.0 - share) / static_cast<double>(draws)), draws};
}

/// A number of 64 bits for an id (FNV-1a, reference key fnv); the generator spreads it.
std::uint64_t stream_of(const std::string& id) {
  std::uint64_t out = 0xcbf2'9ce4'8422'2325U;
  for (const char each : id) out = (out ^ static_cast<unsigned char>(each)) * 0x0000'0100'0000'01b3U;
  return out;
}

class Trials {
 public:
  Trials(const std::vector<Question>& questions, const std::vector<ErrorSource>& sources) : sources_(sources) {
    for (const Question& question : questions) add(question);
    used_.resize(sources.size());
    for (const PlaceEstimate* place : places_) {
      for (const ErrorTerm& term : place->terms) used_[term.source] = true;
    }
    errors_.resize(sources.size(), Block(kBlock));
    for (const ErrorSource& source : sources) streams_.push_back(stream_of(source.id));
    values_.resize(places_.size(), Block(kBlock));
    for (DrawnQuestion& question : questions_) {
      for (std::size_t place : question.place_of_cell) {
        question.sizes_mm.push_back(place == kNoPlace ? nullptr : values_[place].data());
      }
    }
  }

  PlainFigures run(const std::vector<bool>& joint, const Accuracy& accuracy) {
    std::vector<std::size_t> kept(questions_.size());
    std::size_t done = 0;
    Block figure(kBlock);
    PlainFigures out{{}, {}};
    for (std::uint64_t stream = 0; done < accuracy.draws; ++stream) {
      draw_block(accuracy.seed, stream);
      const std::size_t now = std::min(kBlock, accuracy.draws - done);
      std::vector<char> together(kBlock, 1);
      for (std::size_t q = 0; q < questions_.size(); ++q) {
        questions_[q].evaluator.evaluate_many(questions_[q].sizes_mm, figure);
        for (std::size_t i = 0; i < now; ++i) {
          const bool keeps = questions_[q].at_most ? figure[i] <= questions_[q].bound : figure[i] >= questions_[q].bound;
          kept[q] += keeps ? 1U : 0U;
          if (joint[q] && !keeps) together[i] = 0;
        }
      }
      for (std::size_t i = 0; i < now; ++i) out.kept.push_back(together[i] != 0);
      done += now;
    }
    for (std::size_t each : kept) out.each.push_back(figure_of(each, accuracy.draws));
    return out;
  }

 private:
  std::size_t place_index(const PlaceEstimate& place) {
    const auto [found, fresh] = index_.emplace(&place, places_.size());
    if (fresh) places_.push_back(&place);
    return found->second;
  }

  void add(const Question& question) {
    DrawnQuestion drawn{DrawEvaluator(question.expansion), std::vector<std::size_t>(question.part.places.size(), kNoPlace), {},
                        question.side == LimitSide::at_most, question.bound};
    for (std::size_t cell : question.expansion.used) drawn.place_of_cell[cell] = place_index(*question.part.places[cell]);
    questions_.push_back(std::move(drawn));
  }

  /// Every used source once a trial, then every place from its sources.
  void draw_block(std::uint64_t seed, std::uint64_t block) {
    for (std::size_t s = 0; s < sources_.size(); ++s) {
      if (!used_[s]) continue;
      Generator generator(seed ^ streams_[s], block);
      draw(generator, shape_of(sources_[s].shape), sources_[s].standard_uncertainty, sources_[s].degrees_of_freedom, errors_[s]);
    }
    for (std::size_t p = 0; p < places_.size(); ++p) {
      Block& value = values_[p];
      std::fill(value.begin(), value.end(), places_[p]->estimate);
      for (const ErrorTerm& term : places_[p]->terms) {
        const Block& error = errors_[term.source];
        for (std::size_t i = 0; i < kBlock; ++i) value[i] += term.coefficient * error[i];
      }
    }
  }

  const std::vector<ErrorSource>& sources_;
  std::vector<DrawnQuestion> questions_;
  std::vector<const PlaceEstimate*> places_;
  std::map<const PlaceEstimate*, std::size_t> index_;
  std::vector<bool> used_;
  std::vector<std::uint64_t> streams_;
  std::vector<Block> errors_;
  std::vector<Block> values_;
};

}  // namespace

PlainFigure plain_figure(const std::vector<bool>& kept) {
  return figure_of(static_cast<std::size_t>(std::count(kept.begin(), kept.end(), true)), kept.size());
}

PlainFigures plain_figures(const std::vector<Question>& questions, const std::vector<bool>& joint,
                           const std::vector<ErrorSource>& sources, const Accuracy& accuracy) {
  FETTLE_ASSERT(joint.size() == questions.size() && accuracy.draws > 0, std::to_string(joint.size()));
  return Trials(questions, sources).run(joint, accuracy);
}

}  // namespace fettle
