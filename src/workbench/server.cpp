// SPDX-License-Identifier: MIT
#include "workbench/server.hpp"

// Boost 1.74's coroutines lack this header of their own.
#include <utility>
// g++ 12 warns falsely of Asio's own pairs of new and delete.
#pragma GCC diagnostic ignored "-Wmismatched-new-delete"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
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
#include <exception>
#include <memory>
#include <optional>
#include <string_view>

#include "files/folder.hpp"
#include "workbench/assets.hpp"
#include "workbench/posture.hpp"

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
constexpr auto patience = 30s;

// What all connections share. Their code runs in one thread, the studies' in two others.
struct House {
  const Desk& desk;
  OwnAddress own;
  asio::io_context& io;
  asio::thread_pool quick{1}, slow{1};
  std::atomic<int> studies_running{0};
  int connections = 0;
  bool closing = false;
};

using Request = http::request<http::string_body>;
using Response = http::response<http::string_body>;

void set_common_fields(http::fields& fields) {
  fields.set("Content-Security-Policy",
             "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
             "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  fields.set("X-Content-Type-Options", "nosniff");
  fields.set("Referrer-Policy", "no-referrer");
  fields.set("Cross-Origin-Resource-Policy", "same-origin");
  fields.set("Cross-Origin-Opener-Policy", "same-origin");
}

Response json_response(int status, std::string json) {
  Response r(http::int_to_status(static_cast<unsigned>(status)), 11);
  set_common_fields(r);
  r.set(http::field::content_type, "application/json; charset=utf-8");
  r.set(http::field::cache_control, "no-store");
  r.body() = std::move(json);
  return r;
}

Response refusal_response(int status, std::string_view code) {
  return json_response(status, fmt::format("{{\"error\": \"{}\"}}\n", code));
}

Response asset_response(const Request& request) {
  const std::string_view target(request.target().data(), request.target().size());
  const std::string_view path = target.substr(0, target.find('?'));
  for (const Asset& asset : assets()) {
    if (asset.path != path) continue;
    const auto accepts = request[http::field::accept_encoding];
    if (!accepts.empty() && accepts.find("gzip") == beast::string_view::npos &&
        accepts.find('*') == beast::string_view::npos)
      return refusal_response(406, "gzip_only");
    Response r(http::status::ok, 11);
    set_common_fields(r);
    r.set(http::field::etag, beast::string_view(asset.etag.data(), asset.etag.size()));
    r.set(http::field::cache_control, "no-cache");
    if (const auto known = request[http::field::if_none_match];
        std::string_view(known.data(), known.size()) == asset.etag) {
      r.result(http::status::not_modified);
      return r;
    }
    r.set(http::field::content_type, beast::string_view(asset.type.data(), asset.type.size()));
    r.set(http::field::content_encoding, "gzip");
    r.body() = asset.gzip;
    return r;
  }
  return refusal_response(404, "not_found");
}

// Asks the desk; what it throws becomes an answer.
DeskAnswer asked(const Desk& desk, const std::string& path, const std::string& body) {
  const auto text = [](std::string_view code, std::string_view what) {
    std::string safe;
    for (const char c : what) {
      if (c == '"' || c == '\\') safe += '\\';
      if (static_cast<unsigned char>(c) >= 0x20) safe += c;
    }
    return fmt::format("{{\"error\": \"{}\", \"text\": \"{}\"}}\n", code, safe);
  };
  try {
    return desk.answer(path, body);
  } catch (const WorldFailure& e) {
    return {500, text("world", e.what())};
  } catch (const std::exception& e) {
    return {400, text("bad_request", e.what())};
  }
}

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

std::string event(std::string_view name, std::string_view data) {
  std::string text = fmt::format("event: {}\n", name);
  while (!data.empty()) {
    const std::size_t end = std::min(data.find('\n'), data.size());
    text += fmt::format("data: {}\n", data.substr(0, end));
    data.remove_prefix(std::min(end + 1, data.size()));
  }
  return text + "\n";
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

// A long study: a beat each second, then its answer.
asio::awaitable<void> tell_study(beast::tcp_stream& stream, House& house, std::string path,
                                 std::string body) {
  co_await send_events_head(stream);
  const auto pending = begun(house, house.slow, std::move(path), std::move(body));
  for (int seconds = 0; !pending->answer && !house.closing; ++seconds) {
    co_await send_event(stream, event("working", fmt::format("{{\"seconds\": {}}}", seconds)));
    if (!pending->answer) {
      co_await wait(pending->bell, 1s);
    }
  }
  if (pending->answer) {
    co_await send_event(stream, event("answer", pending->answer->json));
  }
  co_await send_events_end(stream);
}

RequestHead head_of(const Request& request) {
  RequestHead head;
  head.method = {request.method_string().data(), request.method_string().size()};
  head.target = {request.target().data(), request.target().size()};
  for (const auto& field : request) {
    head.fields.emplace_back(
        std::string_view(field.name_string().data(), field.name_string().size()),
        std::string_view(field.value().data(), field.value().size()));
  }
  return head;
}

std::size_t size_of(const Request& request) {
  std::size_t size = 0;
  for (const auto& field : request) size += field.name_string().size() + field.value().size();
  return size;
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
  parser.body_limit(largest_body);
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
  stream.expires_after(patience);
  co_await http::async_read(stream, buffer, parser, asio::redirect_error(use_awaitable, fault));
  if (fault) {
    if (fault == http::error::body_limit) {
      co_await send(stream, refusal_response(413, "body_too_large"), false);
    }
    co_return false;
  }
  Request request = parser.release();
  const bool keep = request.keep_alive() && !house.closing;
  std::string path(request.target().data(), request.target().size());
  const bool post = request.method() == http::verb::post;
  if (!path.starts_with("/api/")) {
    co_await send(stream, asset_response(request), keep);
    co_return keep;
  }
  if (path == "/api/news" && !post) {
    co_await tell_news(stream, house);
    co_return false;
  }
  if (post && Desk::takes_long(path)) {
    co_await tell_study(stream, house, std::move(path), std::move(request.body()));
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
             const std::function<void(std::uint16_t)>& listening) {
  asio::io_context io(1);
  tcp::acceptor acceptor(io);
  boost::system::error_code fault;
  const tcp::endpoint endpoint(asio::ip::address_v4::loopback(), port);
  acceptor.open(endpoint.protocol(), fault);
  if (!fault) acceptor.set_option(tcp::acceptor::reuse_address(true), fault);
  if (!fault) acceptor.bind(endpoint, fault);
  if (!fault) acceptor.listen(asio::socket_base::max_listen_connections, fault);
  if (fault) throw WorldFailure(fmt::format("port {} on 127.0.0.1: {}", port, fault.message()));

  House house{desk, {acceptor.local_endpoint().port(), token}, io};
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
