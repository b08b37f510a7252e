// SPDX-License-Identifier: MIT
#include "workbench/server.hpp"

// Boost 1.74's coroutines lack this header of their own.
#include <utility>
// g++ 12 warns falsely of Asio's own pairs of new and delete.
#pragma GCC diagnostic ignored "-Wmismatched-new-delete"

#include <fmt/format.h>
#include <sys/socket.h>

#include <algorithm>
#include <atomic>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/read_until.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <chrono>
#include <csignal>
#include <deque>
#include <exception>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "files/folder.hpp"
#include "workbench/errand.hpp"
#include "workbench/http_messages.hpp"

namespace backfit {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using asio::use_awaitable;
using asio::ip::tcp;
using namespace std::chrono_literals;

constexpr int most_connections = 64;
constexpr std::uint64_t largest_body = 8UL * 1024 * 1024;
constexpr std::uint64_t largest_recording = 32UL * 1024 * 1024;  // base64, and the texts
constexpr int most_errands = 3;
constexpr auto patience = 30s;

// What all connections share. Their code runs in one thread, quick studies in another, what takes
// long in processes of its own.
struct House {
  const Desk& desk;
  OwnAddress own;
  asio::io_context& io;
  asio::thread_pool quick{1};
  std::atomic<int> studies_running{0};
  int connections = 0;
  std::shared_ptr<int> errands = std::make_shared<int>(0);  // at work
  bool closing = false;
};

// A study under way in another thread; `done` ends its timer.
struct Pending {
  explicit Pending(asio::io_context& io) : bell(io) {}
  asio::steady_timer bell;
  std::optional<DeskAnswer> answer;
};

std::shared_ptr<Pending> begun(House& house, asio::thread_pool& where, std::string path,
                               std::string body) {
  auto pending = std::make_shared<Pending>(house.io);
  ++house.studies_running;
  asio::post(where, [&house, pending, path = std::move(path), body = std::move(body)] {
    DeskAnswer answer = asked(house.desk, path, body);
    --house.studies_running;
    asio::post(house.io, [pending, answer = std::move(answer)]() mutable {
      pending->answer = std::move(answer);
      pending->bell.cancel();
    });
  });
  return pending;
}

// Waits until the bell is rung or `time` has passed.
asio::awaitable<void> wait(asio::steady_timer& bell, std::chrono::milliseconds time) {
  bell.expires_after(time);
  boost::system::error_code rung;
  co_await bell.async_wait(asio::redirect_error(use_awaitable, rung));
}

asio::awaitable<void> send_events_head(beast::tcp_stream& stream) {
  http::response<http::empty_body> head(http::status::ok, 11);
  set_common_fields(head);
  head.set(http::field::content_type, "text/event-stream");
  head.set(http::field::cache_control, "no-store");
  head.chunked(true);
  http::response_serializer<http::empty_body> serializer(head);
  stream.expires_after(patience);
  co_await http::async_write_header(stream, serializer, use_awaitable);
}

asio::awaitable<void> send_event(beast::tcp_stream& stream, std::string text) {
  stream.expires_after(patience);
  co_await asio::async_write(stream, http::make_chunk(asio::buffer(text)), use_awaitable);
}

asio::awaitable<void> send_events_end(beast::tcp_stream& stream) {
  stream.expires_after(patience);
  co_await asio::async_write(stream, http::make_chunk_last(), use_awaitable);
}

// What happens to the files on disk, for as long as the page listens.
asio::awaitable<void> tell_news(beast::tcp_stream& stream, House& house) {
  co_await send_events_head(stream);
  asio::steady_timer bell(house.io);
  std::string told;
  for (int beat = 0; !house.closing; ++beat) {
    std::string news = house.desk.news();
    if (news != told) {
      told = std::move(news);
      co_await send_event(stream, event("files", told));
    } else if (beat % 10 == 0) {  // finds out whether anybody still listens
      co_await send_event(stream, ": here\n\n");
    }
    co_await wait(bell, 1s);
  }
  co_await send_events_end(stream);
}

// An errand under way, as its connection sees it. All that wait hold a share of it.
struct Work {
  explicit Work(asio::io_context& io) : bell(io), to(io), from(io) {}
  asio::steady_timer bell;  // rung when one of these has changed
  std::deque<std::string> events;
  bool over = false, unheard = false;
  asio::posix::stream_descriptor to, from;  // the process
};

// Notices when nobody listens any more.
asio::awaitable<void> watch_listener(tcp::socket& socket, std::shared_ptr<Work> work) {
  boost::system::error_code fault;
  co_await socket.async_wait(tcp::socket::wait_read, asio::redirect_error(use_awaitable, fault));
  if (fault || work->over) co_return;  // the socket may be gone as well
  char next = 0;
  const ssize_t there = ::recv(socket.native_handle(), &next, 1, MSG_PEEK | MSG_DONTWAIT);
  if (there > 0) co_return;  // an impatient one, who is there
  work->unheard = true;
  work->bell.cancel();
}

asio::awaitable<void> give_question(std::shared_ptr<Work> work, std::string question) {
  boost::system::error_code fault;  // it may have ended: its silence says so
  co_await asio::async_write(work->to, asio::buffer(question),
                             asio::redirect_error(use_awaitable, fault));
  work->to.close(fault);
}

asio::awaitable<void> take_events(std::shared_ptr<Work> work) {
  std::string text;
  boost::system::error_code fault;
  while (!fault) {
    const std::size_t length = co_await asio::async_read_until(
        work->from, asio::dynamic_buffer(text), "\n\n", asio::redirect_error(use_awaitable, fault));
    if (fault) break;
    work->events.push_back(text.substr(0, length));
    text.erase(0, length);
    work->bell.cancel();
  }
  work->over = true;
  work->bell.cancel();
}

// What takes long: its stages, a beat each second, then its answer; ended with the connection.
asio::awaitable<void> tell_errand(beast::tcp_stream& stream, House& house, std::string path,
                                  std::string body) {
  co_await send_events_head(stream);
  const auto work = std::make_shared<Work>(house.io);
  asio::co_spawn(house.io, watch_listener(stream.socket(), work), asio::detached);
  while (*house.errands >= most_errands && !work->unheard && !house.closing) {
    co_await send_event(stream, event("progress", R"({"stage": "waiting for others", "done": 0})"));
    co_await wait(work->bell, 1s);
  }
  // Counted as long as it lives, also when it ends by an exception.
  const std::shared_ptr<void> place(nullptr, [errands = house.errands](void*) { --*errands; });
  ++*house.errands;
  if (work->unheard || house.closing) co_return;
  ErrandProcess process(house.desk.opening(), path);
  work->to.assign(process.take_input());
  work->from.assign(process.take_output());
  asio::co_spawn(house.io,
                 give_question(work, errand_heading(house.desk.camera()) + std::move(body)),
                 asio::detached);
  asio::co_spawn(house.io, take_events(work), asio::detached);
  bool answered = false;
  const auto begun = std::chrono::steady_clock::now();
  int seconds = -1;
  while (!work->unheard && !house.closing) {
    while (!work->events.empty()) {
      const std::string text = std::move(work->events.front());
      work->events.pop_front();
      answered = answered || text.starts_with("event: answer");
      co_await send_event(stream, text);
    }
    if (work->over && work->events.empty()) break;
    const auto passed =
        std::chrono::duration_cast<std::chrono::seconds>(std::chrono::steady_clock::now() - begun);
    if (passed.count() > seconds) {
      seconds = static_cast<int>(passed.count());
      co_await send_event(stream, event("working", fmt::format("{{\"seconds\": {}}}", seconds)));
    }
    if (work->events.empty() && !work->over) {
      co_await wait(work->bell, 1s);
    }
  }
  work->over = true;
  boost::system::error_code ignored;
  work->to.close(ignored);
  work->from.close(ignored);
  if (work->unheard) co_return;
  if (!answered && !house.closing) {
    co_await send_event(stream, event("broken", "{}"));
  }
  co_await send_events_end(stream);
}

asio::awaitable<void> send(beast::tcp_stream& stream, Response response, bool keep) {
  response.keep_alive(keep);
  response.prepare_payload();
  stream.expires_after(patience);
  co_await http::async_write(stream, response, use_awaitable);
}

// One request and its answer; false when the connection is to be closed.
asio::awaitable<bool> answer_one(beast::tcp_stream& stream, beast::flat_buffer& buffer,
                                 House& house) {
  http::request_parser<http::string_body> parser;
  parser.header_limit(largest_head);
  parser.body_limit(largest_recording);
  stream.expires_after(patience);
  boost::system::error_code fault;
  while (!parser.is_header_done() && !fault) {
    co_await http::async_read_some(stream, buffer, parser,
                                   asio::redirect_error(use_awaitable, fault));
    // The parser's own limit starts anew with each piece that it is fed.
    if (!fault && size_of(parser.get()) > largest_head) fault = http::error::header_limit;
  }
  if (fault == http::error::header_limit || fault == http::error::buffer_overflow) {
    co_await send(stream, refusal_response(431, "head_too_large"), false);
    co_return false;
  }
  if (fault == http::error::body_limit) {
    co_await send(stream, refusal_response(413, "body_too_large"), false);
    co_return false;
  }
  if (fault) {
    if (fault.category() == http::make_error_code(http::error::bad_method).category() &&
        fault != http::error::end_of_stream && fault != http::error::partial_message) {
      co_await send(stream, refusal_response(400, "not_http"), false);
    }
    co_return false;
  }
  // Before a byte of the body is read.
  if (const auto why = refusal(head_of(parser.get()), house.own)) {
    co_await send(stream, refusal_response(why->status, why->code), false);
    co_return false;
  }
  if (parser.get().target() != "/api/trace") {
    parser.body_limit(largest_body);
    if (parser.content_length().value_or(0) > largest_body) {
      co_await send(stream, refusal_response(413, "body_too_large"), false);
      co_return false;
    }
  }
  stream.expires_after(patience);
  co_await http::async_read(stream, buffer, parser, asio::redirect_error(use_awaitable, fault));
  if (fault == http::error::body_limit) {
    co_await send(stream, refusal_response(413, "body_too_large"), false);
  }
  if (fault) co_return false;
  Request request = parser.release();
  const bool keep = request.keep_alive() && !house.closing;
  std::string path(request.target().data(), request.target().size());
  const bool post = request.method() == http::verb::post;
  if (!path.starts_with("/api/")) {
    const bool made = path.starts_with("/made/");
    Response answer = made ? made_response(house.desk, path) : asset_response(request);
    co_await send(stream, std::move(answer), keep);
    co_return keep;
  }
  if (path == "/api/news" && !post) {
    co_await tell_news(stream, house);
    co_return false;
  }
  if (path == "/api/made" && !post) {
    const std::string way = fmt::format("/made/{}/", house.own.made);
    co_await send(stream, json_response(200, house.desk.made(way)), keep);
    co_return keep;
  }
  if (post && Desk::takes_long(path)) {
    co_await tell_errand(stream, house, std::move(path), std::move(request.body()));
    co_return false;
  }
  const auto pending = begun(house, house.quick, std::move(path), std::move(request.body()));
  while (!pending->answer && !house.closing) {
    co_await wait(pending->bell, 1s);
  }
  if (!pending->answer) co_return false;
  co_await send(stream, json_response(pending->answer->status, std::move(pending->answer->json)),
                keep);
  co_return keep;
}

asio::awaitable<void> converse(tcp::socket socket, House& house) {
  ++house.connections;
  try {
    socket.set_option(tcp::no_delay(true));
    beast::tcp_stream stream(std::move(socket));
    beast::flat_buffer buffer(64UL * 1024);
    while (co_await answer_one(stream, buffer, house)) {
    }
    boost::system::error_code ignored;
    stream.socket().shutdown(tcp::socket::shutdown_send, ignored);
  } catch (const std::exception&) {
    // The other side is gone: nobody is left to tell.
  }
  --house.connections;
}

asio::awaitable<void> welcome(tcp::acceptor& acceptor, House& house) {
  while (!house.closing) {
    boost::system::error_code fault;
    tcp::socket socket = co_await acceptor.async_accept(asio::redirect_error(use_awaitable, fault));
    if (fault == asio::error::operation_aborted) co_return;
    if (fault) {  // out of descriptors, say: later again
      asio::steady_timer bell(house.io);
      co_await wait(bell, 100ms);
      continue;
    }
    if (house.connections >= most_connections) continue;  // closes it
    asio::co_spawn(house.io, converse(std::move(socket), house), asio::detached);
  }
}

}  // namespace

Served serve(const Desk& desk, std::uint16_t port, const std::string& token,
             const std::string& made, const std::function<void(std::uint16_t)>& listening) {
  std::signal(SIGPIPE, SIG_IGN);  // an errand may end before it has heard all of its question
  asio::io_context io(1);
  tcp::acceptor acceptor(io);
  boost::system::error_code fault;
  const tcp::endpoint endpoint(asio::ip::address_v4::loopback(), port);
  acceptor.open(endpoint.protocol(), fault);
  if (!fault) acceptor.set_option(tcp::acceptor::reuse_address(true), fault);
  if (!fault) acceptor.bind(endpoint, fault);
  if (!fault) acceptor.listen(asio::socket_base::max_listen_connections, fault);
  if (fault) throw WorldFailure(fmt::format("port {} on 127.0.0.1: {}", port, fault.message()));

  House house{desk, {acceptor.local_endpoint().port(), token, made}, io};
  asio::signal_set signals(io, SIGINT, SIGTERM);
  signals.async_wait([&](boost::system::error_code failed, int) {
    if (failed) return;
    house.closing = true;
    acceptor.close();
    io.stop();
  });
  asio::co_spawn(io, welcome(acceptor, house), asio::detached);
  listening(house.own.port);
  io.run();
  if (house.studies_running > 0) return {true};
  return {};
}

}  // namespace backfit
