// SPDX-License-Identifier: MIT
// HTTP as the workbench's server has it: a request's head as posture.hpp takes it, and what is
// answered outright: JSON, the page's files, results.
#pragma once
#include <boost/beast/http/fields.hpp>
#include <boost/beast/http/message.hpp>
#include <boost/beast/http/string_body.hpp>
#include <string>
#include <string_view>

#include "workbench/desk.hpp"
#include "workbench/posture.hpp"

namespace backfit {

using Request = boost::beast::http::request<boost::beast::http::string_body>;
using Response = boost::beast::http::response<boost::beast::http::string_body>;

// Views of the request, which must outlive it.
RequestHead head_of(const Request& request);
// Bytes of the head's names and values.
std::size_t size_of(const Request& request);

// What the page may load, where it may be shown, and whom it is told of: nothing, nowhere, nobody.
void set_common_fields(boost::beast::http::fields& fields);

// Asks the desk; what it throws becomes an answer.
DeskAnswer asked(const Desk& desk, const std::string& path, const std::string& body);

Response json_response(int status, std::string json);
// `code` is one word for the page.
Response refusal_response(int status, std::string_view code);

// One of the page's files, compressed; 406 to those who take no gzip, 404 for another path.
Response asset_response(const Request& request);

// The result that a target below /made/ names, and what it is to a browser: PDFs and texts are
// shown, the rest is kept. 404 where there is none, or where it was changed since it was made.
Response made_response(const Desk& desk, std::string_view target);

}  // namespace backfit
