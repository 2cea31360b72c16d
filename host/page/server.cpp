#include "host/page/server.hpp"

#include "host/page/door.hpp"

#include <fmt/format.h>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <memory>
#include <optional>
#include <random>
#include <thread>

namespace vatwright {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using Tcp = asio::ip::tcp;

// Nothing comes from elsewhere, nothing goes elsewhere, no script but our own file.
constexpr char policy_of_pages[] =
    "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; frame-src 'self'; img-src data:; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
constexpr char policy_of_sheets[] =
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; form-action 'none'; base-uri 'none'; "
    "frame-ancestors 'self'";

std::string new_token() {
  std::random_device random;  // the kernel's
  std::string out;
  constexpr int words = 6;
  for (int i = 0; i < words; ++i) out += fmt::format("{:08x}", random());
  return out;
}

struct Served {
  const Premises& on;
  Door door;
  ServerLimits limits;
  asio::thread_pool pool;
  std::atomic<std::size_t> open = 0;  // connections
};

class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(Tcp::socket socket, Served& served) : stream_(std::move(socket)), served_(served) { ++served_.open; }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection() { --served_.open; }

  void read() {
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(served_.limits.head_bytes));
    parser_->body_limit(served_.limits.body_bytes);
    deadline();
    http::async_read(stream_, buffer_, *parser_,
                     [self = shared_from_this()](beast::error_code error, std::size_t) { self->was_read(error); });
  }

 private:
  using Reply = http::response<http::string_body>;

  // For the whole, not for each byte: who sends a byte a second is cut off too.
  void deadline() { stream_.expires_after(std::chrono::seconds(served_.limits.seconds)); }

  void was_read(beast::error_code error) {
    constexpr int too_large = 413, head_too_large = 431, malformed = 400;
    if (error == http::error::body_limit)
      return write(
          plain(too_large, fmt::format("more than {} KiB, which no recipe needs", served_.limits.body_bytes >> 10U)));
    if (error == http::error::header_limit || error == http::error::buffer_overflow)
      return write(plain(head_too_large, "the address is too long: open the recipe as a file"));
    if (error && error.category() == http::make_error_code(http::error::bad_method).category() &&
        error != http::error::end_of_stream && error != http::error::partial_message)
      return write(plain(malformed, "this is no request"));
    if (error) return close();
    knock();
  }

  void knock() {
    const auto& request = parser_->get();
    const auto header = [&](auto name) {
      const auto at = request.find(name);
      return at == request.end() ? std::string_view() : std::string_view(at->value().data(), at->value().size());
    };
    const auto view = [](beast::string_view text) { return std::string_view(text.data(), text.size()); };
    const Admission admission =
        admit(served_.door, {view(request.method_string()), view(request.target()), header(http::field::host),
                             header(http::field::origin), header(http::field::cookie), header("Sec-Fetch-Site")});
    if (admission.kind == Admission::Kind::refused) return write(plain(admission.status, admission.words));
    if (admission.kind == Admission::Kind::sent_on) {
      Reply reply = plain(admission.status, "");
      reply.set(http::field::location, "/");
      reply.set(http::field::set_cookie, admission.cookie);
      return write(std::move(reply));
    }
    stream_.expires_never();  // it is our turn
    asio::post(served_.pool, [self = shared_from_this(),
                              asked = read_request(view(request.method_string()), view(request.target()),
                                                   header(http::field::content_type), request.body())]() mutable {
      Response response = answer(asked, self->served_.on);
      // Given on whole, so that a connection ends on the thread that reads and writes.
      const auto executor = self->stream_.get_executor();
      asio::post(executor, [back = std::move(self), given = std::move(response)]() mutable {
        back->write(back->reply_of(std::move(given)));
      });
    });
  }

  static Reply plain(int status, const std::string& words) {
    Reply reply{static_cast<http::status>(status), 11};
    reply.set(http::field::content_type, "text/plain; charset=utf-8");
    reply.set("Content-Security-Policy", "default-src 'none'");
    reply.keep_alive(false);
    reply.body() = words + "\n";
    return reply;
  }

  Reply reply_of(Response given) const {
    Reply reply{static_cast<http::status>(given.status), 11};
    reply.set(http::field::content_type, given.type);
    reply.set("Content-Security-Policy", given.is_sheet ? policy_of_sheets : policy_of_pages);
    if (!given.file.empty())
      reply.set(http::field::content_disposition, fmt::format("attachment; filename=\"{}\"", given.file));
    if (!given.location.empty()) reply.set(http::field::location, given.location);
    reply.keep_alive(parser_->get().keep_alive());
    reply.body() = std::move(given.body);
    return reply;
  }

  void write(Reply reply) {
    reply.set(http::field::cache_control, "no-store");
    reply.set("X-Content-Type-Options", "nosniff");
    reply.set("Referrer-Policy", "same-origin");
    reply.set("Cross-Origin-Opener-Policy", "same-origin");
    reply.set("Cross-Origin-Resource-Policy", "same-origin");
    reply.prepare_payload();
    const auto sent = std::make_shared<Reply>(std::move(reply));
    deadline();
    http::async_write(stream_, *sent, [self = shared_from_this(), sent](beast::error_code error, std::size_t) {
      if (error || !sent->keep_alive()) return self->close();
      self->read();
    });
  }

  // What is still on its way is taken and thrown away for a moment: a connection that is broken off takes the answer
  // with it.
  void close() {
    beast::error_code ignored;
    stream_.socket().shutdown(Tcp::socket::shutdown_send, ignored);
    stream_.expires_after(std::chrono::seconds(2));
    throw_away();
  }

  void throw_away() {
    constexpr std::size_t most = 4U << 20U;
    buffer_.clear();
    if (thrown_away_ > most) return;
    stream_.async_read_some(buffer_.prepare(1U << 16U),
                            [self = shared_from_this()](beast::error_code error, std::size_t n) {
                              self->thrown_away_ += n;
                              if (!error) self->throw_away();
                            });
  }

  beast::tcp_stream stream_;
  Served& served_;
  beast::flat_buffer buffer_{(1U << 20U) + (1U << 16U)};
  std::optional<http::request_parser<http::string_body>> parser_;
  std::size_t thrown_away_ = 0;
};

void accept_next(Tcp::acceptor& acceptor, Served& served) {
  acceptor.async_accept([&](beast::error_code error, Tcp::socket socket) {
    if (error == asio::error::operation_aborted) return;
    // One too many is closed at once.
    if (!error && served.open < served.limits.connections)
      std::make_shared<Connection>(std::move(socket), served)->read();
    accept_next(acceptor, served);
  });
}

}  // namespace

void serve_page(const Premises& on, unsigned short port, const std::function<void(const std::string&)>& ready,
                const ServerLimits& limits) {
  const auto threads = std::max(2U, std::thread::hardware_concurrency());
  Served served{on, {new_token(), port}, limits, asio::thread_pool(threads)};
  asio::io_context context(1);  // goes before what its connections refer to
  Tcp::acceptor acceptor(context);
  const Tcp::endpoint here(asio::ip::address_v4::loopback(), port);
  try {
    acceptor.open(here.protocol());
    acceptor.set_option(Tcp::acceptor::reuse_address(true));
    acceptor.bind(here);
    acceptor.listen();
  } catch (const boost::system::system_error& error) {
    throw BadInput(fmt::format("port {} cannot be had: {}\n  is a page open already? '--port 0' takes any that is free",
                               port, error.code().message()));
  }
  served.door.port = acceptor.local_endpoint().port();
  asio::signal_set signals(context, SIGINT, SIGTERM);
  signals.async_wait([&](beast::error_code, int) { context.stop(); });
  accept_next(acceptor, served);
  ready(fmt::format("http://127.0.0.1:{}/?token={}", served.door.port, served.door.token));
  context.run();
  served.pool.stop();
  served.pool.join();
}

}  // namespace vatwright
