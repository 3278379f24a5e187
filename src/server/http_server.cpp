#include "server/http_server.h"

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/ssl.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http.hpp>

#include <array>
#include <limits>
#include <map>
#include <set>
#include <variant>

#include "server/answers.h"
#include "server/body_room.h"

// The only file that sees sockets, and long for that reason: the library's headers take twelve seconds and belong nowhere else. Callbacks throughout; one thread runs them all, so that nothing here needs a lock. Rules of the border
// stand in gate.cpp; here are bytes, times and caps.
namespace fettle {
namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::system::error_code;
using std::chrono::milliseconds;

constexpr std::size_t kReadBytes = 16'384;
constexpr std::size_t kMostLingered = 4'194'304;
constexpr int kTlsHandshakeByte = 0x16;

class Connection;

/// What connections share.
struct Machine {
  explicit Machine(const ServerLimits& given) : bodies(given.body_bytes, given.large_body_bytes, given.large_body), limits(given) {}
  BodyRoom bodies;  // outlives the connections, which live in what follows
  asio::io_context io{1};
  const ServerLimits limits;
  std::optional<asio::ssl::context> tls;
  Gate* gate = nullptr;
  LiveHub* live = nullptr;
  const Hands* hands = nullptr;
  bool stopping = false;
  std::set<std::shared_ptr<Connection>> connections;
  std::map<std::string, std::size_t> of_address;
};

/// A connection from accept to close. It lives as long as some callback holds it, and is listed with the machine until it is closed.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(Machine& machine, tcp::socket socket, Caller caller)
      : machine_(machine), socket_(std::move(socket)), caller_(std::move(caller)), deadline_(machine.io), ping_(machine.io) {}

  [[nodiscard]] const Caller& caller() const { return caller_; }

  void begin() {
    error_code ignored;
    socket_.set_option(tcp::no_delay(true), ignored);
    limit(machine_.limits.first_byte);
    if (!machine_.tls) return wait_for_request();
    // The first byte tells TLS from plain text without being taken.
    socket_.async_wait(tcp::socket::wait_read, [self = shared_from_this()](error_code error) { error ? self->close() : self->choose_encryption(); });
  }

  /// The server stops: what is under way ends well, the rest at once.
  void wind_up() {
    keeps_open_ = false;
    if (phase_ == Phase::waiting) close();
  }

  void close() {
    if (phase_ == Phase::closed) return;
    phase_ = Phase::closed;
    if (stream_) machine_.live->close(stream_);
    stream_.reset();
    deadline_.cancel();
    ping_.cancel();
    error_code ignored;
    socket_.close(ignored);
    const auto count = machine_.of_address.find(caller_.address);
    if (count != machine_.of_address.end() && --count->second == 0) machine_.of_address.erase(count);
    machine_.connections.erase(shared_from_this());
  }

 private:
  enum class Phase { waiting, head, body, handler, answer, streaming, lingering, closed };

  /// What happens when the time of the phase is over.
  void limit(milliseconds time) {
    deadline_.expires_after(time);
    deadline_.async_wait([self = shared_from_this()](error_code error) {
      if (!error && self->deadline_.expiry() <= asio::steady_timer::clock_type::now()) self->too_slow();
    });
  }

  void too_slow() {
    if ((phase_ == Phase::head || phase_ == Phase::body) && !writing_) {
      refuse(408, {"server.too_slow", {}, {}});
    } else {
      close();
    }
  }

  [[nodiscard]] milliseconds time_for(std::size_t bytes) const {
    return machine_.limits.transfer + milliseconds(1000 * bytes / machine_.limits.slowest_bytes_a_second);
  }

  void choose_encryption() {
    unsigned char first = 0;
    error_code error;
    socket_.receive(asio::buffer(&first, 1), tcp::socket::message_peek, error);
    if (error) return close();
    if (first != kTlsHandshakeByte) return wait_for_request();
    caller_.encrypted = true;
    tls_.emplace(socket_, *machine_.tls);
    limit(machine_.limits.handshake);
    tls_->async_handshake(asio::ssl::stream_base::server, [self = shared_from_this()](error_code failed) {
      if (failed) return self->close();
      self->limit(self->machine_.limits.first_byte);
      self->wait_for_request();
    });
  }

  template <class Then>
  void read_some(const Then& then) {
    reading_ = true;
    const auto done = [self = shared_from_this(), then](error_code error, std::size_t bytes) {
      self->reading_ = false;
      if (self->phase_ == Phase::closed) return;
      self->buffer_.commit(bytes);
      then(error);
    };
    if (tls_) {
      tls_->async_read_some(buffer_.prepare(kReadBytes), done);
    } else {
      socket_.async_read_some(buffer_.prepare(kReadBytes), done);
    }
  }

  template <class Then>
  void write(std::string head, std::string body, const Then& then) {
    head_ = std::move(head);
    body_ = std::move(body);
    const std::array<asio::const_buffer, 2> both = {asio::buffer(head_), asio::buffer(body_)};
    const auto done = [self = shared_from_this(), then](error_code error, std::size_t) {
      if (self->phase_ == Phase::closed) return;
      error ? self->close() : then();
    };
    if (tls_) {
      asio::async_write(*tls_, both, done);
    } else {
      asio::async_write(socket_, both, done);
    }
  }

  void wait_for_request() {
    phase_ = Phase::waiting;
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(machine_.limits.header_bytes));
    // The limit comes with the route. "None" would be compared as less than any length by this version of the library.
    parser_->body_limit(std::numeric_limits<std::uint64_t>::max());
    admitted_.reset();
    place_of_body_.reset();
    bodiless_ = false;
    if (buffer_.size() > 0) return begin_head();
    read_some([this](error_code error) { error ? close() : begin_head(); });
  }

  void begin_head() {
    phase_ = Phase::head;
    limit(machine_.limits.header);
    parse();
  }

  void read_on() {
    read_some([this](error_code error) {
      if (phase_ == Phase::answer) return;  // meanwhile it was too slow
      if (error) return close();
      phase_ == Phase::lingering ? swallow() : parse();
    });
  }

  void parse() {
    while (buffer_.size() > 0) {
      error_code error;
      buffer_.consume(parser_->put(buffer_.data(), error));
      if (error == http::error::need_more) break;
      if (error) return refuse_unreadable(error);
      if (phase_ == Phase::head && parser_->is_header_done()) return admit();
      if (parser_->get().body().size() > most_body()) return refuse_large_body();
      if (parser_->is_done()) return hand_over();
    }
    // Between the chunks of a body stand lines as well, which the library would let grow without end.
    if (buffer_.size() > machine_.limits.header_bytes) return refuse_unreadable(http::error::header_limit);
    read_on();
  }

  [[nodiscard]] std::size_t most_body() const { return admitted_ && admitted_->route != nullptr ? admitted_->route->most_body_bytes : 0; }

  void refuse_unreadable(error_code error) {
    if (error == http::error::header_limit) {
      return refuse(431, {"server.header_too_large", {}, {count("most", static_cast<std::int64_t>(machine_.limits.header_bytes))}});
    }
    if (error == http::error::body_limit) return refuse_large_body();
    refuse(400, {"server.unreadable", {}, {}});
  }

  void refuse_large_body() { refuse(413, {"server.body_too_large", {}, {count("most", static_cast<std::int64_t>(most_body()))}}); }

  [[nodiscard]] Incoming head() const {
    const auto& message = parser_->get();
    Incoming out{static_cast<int>(message.version()), std::string(message.method_string()), std::string(message.target()), {}};
    for (const auto& field : message) out.fields.emplace_back(std::string(field.name_string()), std::string(field.value()));
    return out;
  }

  void admit() {
    const Incoming incoming = head();
    language_ = language_of_browser(field_of(incoming, "Accept-Language"));
    bodiless_ = incoming.method == "HEAD";
    keeps_open_ = parser_->get().keep_alive() && !machine_.stopping;
    std::variant<HttpResponse, Admitted> decided = HttpResponse{};
    try {
      decided = machine_.gate->admit(incoming, caller_);
    } catch (const std::exception& error) {
      // One request that meets a fault of ours must not take the others with it.
      return refuse(500, {"server.fault_of_ours", {}, {verbatim("what", error.what())}});
    }
    if (auto* response = std::get_if<HttpResponse>(&decided)) {
      // What follows may be the rest of this one, whatever it looks like.
      constexpr int kBadRequest = 400;
      if (!parser_->is_done() || response->status == kBadRequest) keeps_open_ = false;
      return answer(std::move(*response));
    }
    admitted_ = std::get<Admitted>(std::move(decided));
    if (admitted_->route == nullptr) return begin_stream();
    if (parser_->is_done()) return hand_over();
    const std::size_t bytes = parser_->content_length() ? *parser_->content_length() : most_body();
    if (auto place = machine_.bodies.take(bytes)) place_of_body_.emplace(std::move(*place));
    if (!place_of_body_) return refuse_for_now();
    phase_ = Phase::body;
    parser_->body_limit(most_body());
    limit(time_for(bytes));
    if (field_of(incoming, "Expect").empty() || buffer_.size() > 0) return parse();
    writing_ = true;
    write("HTTP/1.1 100 Continue\r\n\r\n", {}, [this] {
      writing_ = false;
      read_on();
    });
  }

  void hand_over() {
    phase_ = Phase::handler;
    deadline_.cancel();
    admitted_->request.body = std::move(parser_->get().body());
    Workers& workers = admitted_->route->changes ? machine_.hands->changing : machine_.hands->reading;
    workers.hand([self = shared_from_this(), work = asio::make_work_guard(machine_.io)]() mutable {
      auto response = std::make_shared<HttpResponse>(self->machine_.gate->answer(*self->admitted_));
      asio::io_context& io = self->machine_.io;
      asio::post(io, [self = std::move(self), response] {
        std::string().swap(self->admitted_->request.body);
        self->place_of_body_.reset();
        if (self->phase_ == Phase::handler) self->answer(std::move(*response));
      });
    });
  }

  void refuse(int status, const Problem& problem) {
    keeps_open_ = false;
    answer(refused(status, {problem}, language_));
  }

  /// Others are sending as much as there is memory for.
  void refuse_for_now() {
    keeps_open_ = false;
    HttpResponse response = refused(503, {Problem{"server.bodies_full", {}, {}}}, language_);
    response.headers.emplace_back("Retry-After", std::to_string(machine_.limits.body_again.count()));
    answer(std::move(response));
  }

  void answer(HttpResponse response) {
    phase_ = Phase::answer;
    keeps_open_ = keeps_open_ && !machine_.stopping;
    const std::size_t length = response.body.size();
    limit(time_for(length));
    write(head_of(response, length, keeps_open_), bodiless_ ? std::string() : std::move(response.body), [this] {
      if (!keeps_open_) return linger();
      limit(machine_.limits.idle);
      wait_for_request();
    });
  }

  /// Closing at once while the client still sends would reset the connection, and it would never see the answer.
  void linger() {
    phase_ = Phase::lingering;
    limit(machine_.limits.linger);
    if (tls_ && parser_->is_done()) {
      return tls_->async_shutdown([self = shared_from_this()](error_code) { self->close(); });
    }
    error_code ignored;
    if (!tls_) socket_.shutdown(tcp::socket::shutdown_send, ignored);
    if (!reading_) swallow();
  }

  void swallow() {
    lingered_ += buffer_.size();
    buffer_.consume(buffer_.size());
    read_some([this](error_code error) { error || lingered_ > kMostLingered ? close() : swallow(); });
  }

  void begin_stream() {
    const auto word = [this](const char* name) {
      const auto found = admitted_->request.query.find(name);
      return found == admitted_->request.query.end() ? std::string() : found->second;
    };
    std::weak_ptr<Connection> weak = weak_from_this();
    asio::io_context& io = machine_.io;
    stream_ = machine_.live->open({word("job"), word("device"), admitted_->request.device}, [weak, &io] {
      asio::post(io, [weak] {
        if (const auto self = weak.lock()) self->flush();
      });
    });
    if (!stream_) return refuse(503, {"server.too_many_streams", {}, {}});
    phase_ = Phase::streaming;
    writing_ = true;
    limit(machine_.limits.transfer);
    write(head_of_stream(), ":\n\n", [this] { streamed(); });
    notice_leaving();
    ping();
  }

  void streamed() {
    writing_ = false;
    deadline_.cancel();
    flush();
  }

  /// A listener says nothing; what it sends all the same is passed over, and its end is noticed.
  void notice_leaving() {
    read_some([this](error_code error) {
      buffer_.consume(buffer_.size());
      error ? close() : notice_leaving();
    });
  }

  void ping() {
    ping_.expires_after(machine_.limits.ping);
    ping_.async_wait([self = shared_from_this()](error_code error) {
      if (error || self->phase_ != Phase::streaming) return;
      if (self->stream_) self->stream_->put(":\n\n");
      self->ping();
    });
  }

  void flush() {
    if (phase_ != Phase::streaming) return;
    if (stream_->is_cut()) return close();  // also in the middle of a line: whoever listens has no right to its rest
    if (writing_) return;
    LiveStream::Taken taken = stream_->take();
    if (taken.ended && taken.text.empty()) return close();
    if (taken.text.empty()) return;
    writing_ = true;
    limit(machine_.limits.transfer);
    write({}, std::move(taken.text), [this] { streamed(); });
  }

  Machine& machine_;
  tcp::socket socket_;
  std::optional<asio::ssl::stream<tcp::socket&>> tls_;
  Caller caller_;
  asio::steady_timer deadline_;
  asio::steady_timer ping_;
  Phase phase_ = Phase::waiting;
  boost::beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  std::optional<BodyRoom::Place> place_of_body_;
  std::optional<Admitted> admitted_;
  std::shared_ptr<LiveStream> stream_;
  std::string head_;
  std::string body_;
  Language language_ = Language::english;
  bool bodiless_ = false;
  bool keeps_open_ = false;
  bool reading_ = false;
  bool writing_ = false;
  std::size_t lingered_ = 0;
};

/// Of version 4 where it is one of those in the clothes of version 6.
asio::ip::address plain_address(const asio::ip::address& address) {
  if (address.is_v6() && address.to_v6().is_v4_mapped()) return asio::ip::make_address_v4(asio::ip::v4_mapped, address.to_v6());
  return address;
}

class AsioServer final : public HttpServer {
 public:
  explicit AsioServer(const ServerLimits& limits) : machine_(limits), signals_(machine_.io), second_(machine_.io), last_(machine_.io) {}

  Problems open(const ListenOptions& options) {
    if (options.tls) {
      if (Problems problems = take_certificate(*options.tls); !problems.empty()) return problems;
    }
    // A port that is free on the first address may be taken on the second: then the next one is tried.
    constexpr int kTries = 20;
    Problems problems;
    for (int tries = 0; tries < (options.port == 0 ? kTries : 1); ++tries) {
      problems = open_all(options);
      if (problems.empty()) break;
    }
    return problems;
  }

  [[nodiscard]] std::uint16_t port() const override { return port_; }

  void run(Gate& gate, LiveHub& live, const Hands& hands, const std::function<void()>& each_second) override {
    machine_.gate = &gate;
    machine_.live = &live;
    machine_.hands = &hands;
    signals_.add(SIGINT);
    signals_.add(SIGTERM);
    signals_.async_wait([this](error_code error, int) {
      if (!error) wind_up();
    });
    for (const auto& each : acceptors_) accept(*each);
    tick(each_second);
    machine_.io.run();
  }

  void stop() override {
    asio::post(machine_.io, [this] { wind_up(); });
  }

 private:
  Problems take_certificate(const Certificate& given) {
    try {
      asio::ssl::context& tls = machine_.tls.emplace(asio::ssl::context::tls_server);
      SSL_CTX_set_min_proto_version(tls.native_handle(), TLS1_2_VERSION);
      tls.use_certificate_chain(asio::buffer(given.certificate));
      tls.use_private_key(asio::buffer(given.key), asio::ssl::context::pem);
      if (SSL_CTX_check_private_key(tls.native_handle()) == 1) return {};
    } catch (const std::exception&) {
      // Which of the library's words it was helps nobody.
    }
    return {Problem{"server.bad_certificate", {}, {}}};
  }

  Problems open_all(const ListenOptions& options) {
    acceptors_.clear();
    port_ = options.port;
    for (const std::string& each : options.addresses) {
      error_code error;
      const auto address = asio::ip::make_address(each, error);
      auto acceptor = std::make_unique<tcp::acceptor>(machine_.io);
      const tcp::endpoint endpoint(address, port_);
      if (!error) acceptor->open(endpoint.protocol(), error);
      if (!error) acceptor->set_option(tcp::acceptor::reuse_address(true), error);
      if (!error) acceptor->bind(endpoint, error);
      if (!error) acceptor->listen(asio::socket_base::max_listen_connections, error);
      if (error) return {Problem{"server.cannot_listen", {}, {verbatim("address", each), verbatim("port", std::to_string(port_)), verbatim("why", error.message())}}};
      port_ = acceptor->local_endpoint().port();
      acceptors_.push_back(std::move(acceptor));
    }
    return {};
  }

  void accept(tcp::acceptor& acceptor) {
    acceptor.async_accept([this, &acceptor](error_code error, tcp::socket socket) {
      if (machine_.stopping) return;
      if (error) return accept_later(acceptor);  // no more file numbers: the next one may close soon
      welcome(std::move(socket));
      accept(acceptor);
    });
  }

  void accept_later(tcp::acceptor& acceptor) {
    auto timer = std::make_shared<asio::steady_timer>(machine_.io, milliseconds(100));
    timer->async_wait([this, timer, &acceptor](error_code) {
      if (!machine_.stopping) accept(acceptor);
    });
  }

  void welcome(tcp::socket socket) {
    error_code error;
    const auto endpoint = socket.remote_endpoint(error);
    if (error) return;
    const auto address = plain_address(endpoint.address());
    Caller caller{address.to_string(), address.is_loopback(), false};
    const auto there = machine_.of_address.find(caller.address);
    const std::size_t of_address = there == machine_.of_address.end() ? 0 : there->second;
    const std::size_t most = caller.loopback ? machine_.limits.connections_of_loopback : machine_.limits.connections_of_address;
    if (machine_.connections.size() >= machine_.limits.connections || of_address >= most) {
      return;  // closed without a word: whoever holds so many would not read one
    }
    machine_.of_address[caller.address] = of_address + 1;
    const auto connection = std::make_shared<Connection>(machine_, std::move(socket), std::move(caller));
    machine_.connections.insert(connection);
    connection->begin();
  }

  void tick(const std::function<void()>& each_second) {
    second_.expires_after(std::chrono::seconds(1));
    second_.async_wait([this, each_second](error_code error) {
      if (error || machine_.stopping) return;
      each_second();
      tick(each_second);
    });
  }

  void wind_up() {
    if (machine_.stopping) return;
    machine_.stopping = true;
    error_code ignored;
    for (const auto& each : acceptors_) each->close(ignored);
    signals_.cancel(ignored);
    second_.cancel();
    machine_.live->end_all();
    const auto open = machine_.connections;  // each that closes leaves the list
    for (const auto& each : open) each->wind_up();
    wait_for_the_last(0);
  }

  /// Whoever has not come to an end after the time for it is cut off.
  void wait_for_the_last(int waited) {
    constexpr milliseconds kStep(20);
    if (machine_.connections.empty()) return;
    if (waited * kStep >= machine_.limits.stopping) {
      const auto open = machine_.connections;
      for (const auto& each : open) each->close();
      return;
    }
    last_.expires_after(kStep);
    last_.async_wait([this, waited](error_code) { wait_for_the_last(waited + 1); });
  }

  Machine machine_;
  asio::signal_set signals_;
  asio::steady_timer second_;
  asio::steady_timer last_;
  std::vector<std::unique_ptr<tcp::acceptor>> acceptors_;
  std::uint16_t port_ = 0;
};

}  // namespace

Result<std::unique_ptr<HttpServer>> HttpServer::listen(const ListenOptions& options) {
  auto server = std::make_unique<AsioServer>(options.limits);
  if (Problems problems = server->open(options); !problems.empty()) return problems;
  return std::unique_ptr<HttpServer>(std::move(server));
}

}  // namespace fettle
