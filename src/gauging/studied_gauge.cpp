#include "gauging/studied_gauge.h"

namespace fettle {

std::string_view study_method_name(StudyMethod method) {
  switch (method) {
    case StudyMethod::variances: return "variances";
    case StudyMethod::ranges: return "ranges";
  }
  return "";
}

}  // namespace fettle
