#include "server/serial_ports.h"

#include <boost/asio/io_context.hpp>
#include <boost/asio/serial_port.hpp>
#include <boost/asio/steady_timer.hpp>

#include <array>

#include "server/line_splitter.h"

// The only file that sees serial ports; callbacks, one thread.
namespace fettle {
namespace {

namespace asio = boost::asio;
using SerialBase = asio::serial_port_base;
using SerialError = boost::system::error_code;

constexpr auto kBetweenTries = std::chrono::seconds(1);

SerialBase::parity::type parity_of(Parity parity) {
  switch (parity) {
    case Parity::none: return SerialBase::parity::none;
    case Parity::odd: return SerialBase::parity::odd;
    case Parity::even: return SerialBase::parity::even;
  }
  return SerialBase::parity::none;
}

/// One port: open, read, and from the beginning when it fails.
class WatchedPort {
 public:
  WatchedPort(asio::io_context& io, GaugePort port, const SerialPorts::Told& told)
      : port_(std::move(port)), told_(told), serial_(io), again_(io) {}

  void open() {
    SerialError error;
    serial_.open(port_.path, error);
    if (!error) set_options(error);
    if (error) return fail();
    told_.there(port_.id, true);
    read();
  }

 private:
  void set_options(SerialError& error) {
    serial_.set_option(SerialBase::baud_rate(port_.baud), error);
    if (error) return;
    serial_.set_option(SerialBase::parity(parity_of(port_.parity)), error);
    if (error) return;
    serial_.set_option(SerialBase::stop_bits(port_.stop_bits == 1 ? SerialBase::stop_bits::one : SerialBase::stop_bits::two), error);
    if (error) return;
    // A port that is only pretended, and some converters, know eight bits only and refuse seven; what they give is whole letters all the same.
    SerialError tolerated;
    serial_.set_option(SerialBase::character_size(port_.data_bits), tolerated);
    serial_.set_option(SerialBase::flow_control(SerialBase::flow_control::none), error);
  }

  void read() {
    serial_.async_read_some(asio::buffer(bytes_), [this](SerialError error, std::size_t count) {
      if (error == asio::error::operation_aborted) return;
      if (error) return fail();
      for (const std::string& line : splitter_.lines_of({bytes_.data(), count})) told_.line(port_.id, line);
      read();
    });
  }

  void fail() {
    SerialError ignored;
    serial_.close(ignored);
    splitter_.forget();
    told_.there(port_.id, false);
    again_.expires_after(kBetweenTries);
    again_.async_wait([this](SerialError error) {
      if (!error) open();
    });
  }

  GaugePort port_;
  const SerialPorts::Told& told_;
  asio::serial_port serial_;
  asio::steady_timer again_;
  LineSplitter splitter_;
  std::array<char, 512> bytes_{};
};

class AsioSerialPorts final : public SerialPorts {
 public:
  AsioSerialPorts(const std::vector<GaugePort>& ports, Told told) : told_(std::move(told)) {
    for (const GaugePort& each : ports) ports_.push_back(std::make_unique<WatchedPort>(io_, each, told_));
  }

  void run() override {
    for (const auto& each : ports_) each->open();
    io_.run();
  }

  void stop() override { io_.stop(); }

 private:
  Told told_;
  asio::io_context io_{1};
  std::vector<std::unique_ptr<WatchedPort>> ports_;
};

}  // namespace

std::unique_ptr<SerialPorts> SerialPorts::watch(const std::vector<GaugePort>& ports, Told told) {
  return std::make_unique<AsioSerialPorts>(ports, std::move(told));
}

}  // namespace fettle
