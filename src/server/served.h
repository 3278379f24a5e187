#pragma once

#include <string>

#include "app/open_jobs.h"
#include "base/clock.h"
#include "server/http.h"
#include "store/store.h"

namespace fettle {

class Presence;

/// What the routes work on; lives as long as the server.
struct Served {
  Store& store;
  OpenJobs& jobs;
  Clock& clock;
  Live& live;
  std::string record_name;
  Presence* presence = nullptr;  ///< who holds a round; null: nobody is known
};

}  // namespace fettle
