#pragma once

#include <chrono>
#include <cstddef>

namespace fettle {

/// What one client may take of the server. Each time is for a whole phase: a client that sends a byte now and then gains nothing.
struct ServerLimits {
  std::chrono::milliseconds handshake;
  std::chrono::milliseconds first_byte;     ///< of a new connection
  std::chrono::milliseconds idle;           ///< between two requests of a connection
  std::chrono::milliseconds header;
  std::chrono::milliseconds transfer;       ///< of a body or an answer, and besides it ...
  std::size_t slowest_bytes_a_second;       ///< ... its size by this
  std::chrono::milliseconds linger;         ///< after a refusal, for what the client is still sending
  std::chrono::milliseconds stopping;       ///< for what is under way when the server stops
  std::chrono::milliseconds ping;           ///< of streams
  std::size_t header_bytes;
  std::size_t body_bytes;                   ///< of all bodies in memory together, from the head of a request until it is answered ...
  std::size_t large_body_bytes;             ///< ... of which those over large_body ...
  std::size_t large_body;                   ///< ... may have so many
  std::chrono::seconds body_again;          ///< after which a body that found no room is worth another try
  std::size_t connections;
  std::size_t connections_of_address;
  std::size_t connections_of_loopback;
  std::size_t streams;
  std::size_t stream_bytes;                 ///< that wait for one slow client
  int wrong_keys;                           ///< of one address, in a row ...
  std::chrono::milliseconds wrong_keys_for; ///< ... after which it waits so long for each further one
};

[[nodiscard]] inline ServerLimits usual_server_limits() {
  using std::chrono::milliseconds;
  using std::chrono::seconds;
  return {seconds(5), seconds(10), seconds(60), seconds(5), seconds(10), 16'384, milliseconds(1500), seconds(5), seconds(15),
          16'384, 268'435'456, 201'326'592, 65'536, seconds(5), 8'192, 128, 4'096, 512, 262'144, 10, seconds(30)};
}

}  // namespace fettle
