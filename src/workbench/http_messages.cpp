// SPDX-License-Identifier: MIT
#include "workbench/http_messages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <iterator>
#include <optional>
#include <utility>

#include "files/folder.hpp"
#include "workbench/assets.hpp"

namespace backfit {

namespace beast = boost::beast;
namespace http = beast::http;

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

void set_common_fields(http::fields& fields) {
  fields.set("Content-Security-Policy",
             "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
             "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  fields.set("X-Content-Type-Options", "nosniff");
  fields.set("Referrer-Policy", "no-referrer");
  fields.set("Cross-Origin-Resource-Policy", "same-origin");
  fields.set("Cross-Origin-Opener-Policy", "same-origin");
}

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

Response made_response(const Desk& desk, std::string_view target) {
  constexpr std::string_view made = "/made/";
  const std::string_view rest = target.substr(made.size());
  const std::size_t slash = rest.find('/');
  const auto bytes = slash == std::string_view::npos
                         ? std::nullopt
                         : desk.made_file(std::string(rest.substr(slash + 1)));
  if (!bytes) return refusal_response(404, "not_found");
  constexpr std::pair<std::string_view, const char*> types[] = {
      {".pdf", "application/pdf"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".json", "application/json; charset=utf-8"},
      {".txt", "text/plain; charset=utf-8"},
      {".cir", "text/plain; charset=utf-8"},
  };
  Response r(http::status::ok, 11);
  set_common_fields(r);
  r.set(http::field::cache_control, "no-store");
  const auto* type =
      std::ranges::find_if(types, [&](const auto& t) { return rest.ends_with(t.first); });
  if (type != std::end(types)) {
    r.set(http::field::content_type, type->second);
  } else {
    r.set(http::field::content_type, "application/octet-stream");
    r.set(http::field::content_disposition, "attachment");
  }
  // A browser shows a PDF by a page of its own, which our page's rules would leave empty.
  if (rest.ends_with(".pdf")) r.set("Content-Security-Policy", "frame-ancestors 'none'");
  r.body() = *bytes;
  return r;
}

}  // namespace backfit
